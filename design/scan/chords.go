package scan

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
)

// A chord is one of the panel's, as indices of keys: all of keys together with, of each choice, any
// count of its keys.
type chord struct {
	name    string
	keys    []int // each once, in order
	choices []choice
}

// A choice asks for any count of some keys.
type choice struct {
	count int   // 1 or more, and fewer than the keys
	of    []int // each once, in order, none of them in the chord's keys
}

// chordsOf reads the panel's chords and says what is wrong with them.
func chordsOf(p *panel.Panel, keys []key) ([]chord, []finding.Finding) {
	index := map[string]int{}
	for i := range keys {
		index[keys[i].ID] = i
	}
	var chords []chord
	var said []finding.Finding
	for i := range p.Chords {
		r := chordReading{panel: &p.Chords[i], index: index, keys: keys}
		chords = append(chords, r.read())
		said = append(said, r.said...)
	}
	return chords, said
}

// A chordReading turns one chord's names into keys.
type chordReading struct {
	panel *panel.Chord
	index map[string]int
	keys  []key
	said  []finding.Finding
}

func (r *chordReading) read() chord {
	c := chord{name: r.panel.Name, keys: r.known(r.panel.Keys)}
	var missing []string
	for _, id := range r.panel.All() {
		if _, ok := r.index[id]; !ok {
			missing = append(missing, id)
		}
	}
	if len(missing) > 0 {
		r.say(finding.Stop, "scan-chord-missing", missing, fmt.Sprintf("Chord %s names %s, and there is no such key.", c.name, finding.Names(missing)),
			"Take the name out of the chord, or give the contact a legend.")
	}
	for _, a := range r.panel.Any {
		of := r.known(a.Of)
		if a.Count > len(of) {
			r.say(finding.Stop, "scan-chord-missing", idsOf(r.keys, of),
				fmt.Sprintf("Chord %s asks for any %d of %s.", c.name, a.Count, count(len(of), "key")),
				"Ask for fewer of them, or add keys to choose from.")
		}
		c.choices = append(c.choices, choice{a.Count, of})
	}
	c.settle()
	r.judge(&c)
	return c
}

// known lists the keys behind some names, each once, in order.
func (r *chordReading) known(ids []string) []int {
	var list []int
	for _, id := range ids {
		if k, ok := r.index[id]; ok && !slices.Contains(list, k) {
			list = append(list, k)
		}
	}
	slices.Sort(list)
	return list
}

// judge says when a chord asks for nothing or for too much.
func (r *chordReading) judge(c *chord) {
	if c.most() < 2 {
		r.say(finding.Note, "scan-chord-single", idsOf(r.keys, c.all()),
			fmt.Sprintf("Chord %s holds fewer than two keys, so it asks for nothing.", c.name),
			"Add the keys that are pressed together with it, or remove the chord.")
	}
	if len(r.panel.Any) > panel.MaxAny {
		r.say(finding.Mind, "scan-chord-large", idsOf(r.keys, c.all()),
			fmt.Sprintf("Chord %s chooses in more than %d ways, so it is taken as if all its keys were held at once: safe, but perhaps stricter than need be.", c.name, panel.MaxAny),
			"Write a chord of its own for some of the choices.")
	}
}

func (r *chordReading) say(sev finding.Severity, code string, ids []string, text, fix string) {
	r.said = append(r.said, finding.Finding{Severity: sev, Code: code, Where: finding.Where{Keys: ids}, Text: text, Fix: fix})
}

// settle brings a chord into its simplest form: a key that is held in any case is no choice, a choice
// of as many keys as there are is none, and one of no key falls away. Too many choices are taken as
// one set, which asks for more.
func (c *chord) settle() {
	if len(c.choices) > panel.MaxAny {
		c.keys, c.choices = c.all(), nil
	}
	for again := true; again; {
		again = false
		kept := c.choices[:0:0]
		for _, a := range c.choices {
			of := slices.DeleteFunc(slices.Clone(a.of), func(k int) bool { return slices.Contains(c.keys, k) })
			switch {
			case a.count < 1 || len(of) == 0:
			case a.count >= len(of):
				c.keys = append(slices.Clone(c.keys), of...)
				slices.Sort(c.keys)
				again = true
			default:
				kept = append(kept, choice{a.count, of})
			}
		}
		c.choices = kept
	}
}

// all lists every key that may be held, each once, in order.
func (c *chord) all() []int {
	list := slices.Clone(c.keys)
	for _, a := range c.choices {
		list = append(list, a.of...)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// most is how many keys are held at once at most.
func (c *chord) most() int { return c.family().most() }

// within gives the chords as keys of the matrix alone, three or more: fewer never ghost, and keys
// with pins of their own have no part in it. at maps a key to its index in the matrix or noKey.
func within(chords []chord, at []int) []chord { return restrict(chords, at, 3) }

// restrict gives the chords as the keys that at maps to an index, and not to noKey, without those
// that hold fewer of them than least.
func restrict(chords []chord, at []int, least int) []chord {
	inside := func(keys []int) []int {
		var list []int
		for _, k := range keys {
			if at[k] != noKey {
				list = append(list, at[k])
			}
		}
		slices.Sort(list)
		return list
	}
	var kept []chord
	for _, c := range chords {
		m := chord{name: c.name, keys: inside(c.keys)}
		for _, a := range c.choices {
			m.choices = append(m.choices, choice{a.count, inside(a.of)})
		}
		m.settle()
		if m.most() >= least {
			kept = append(kept, m)
		}
	}
	return kept
}
