package web

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/hold"
	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/reading"
	"fascia/design/scan"
	"fascia/web/view"
)

// mostGhosts is how many ghosts of one chord are told.
const mostGhosts = 6

// A chordSpeaker puts what is read while keys are held into words.
type chordSpeaker struct {
	scan    *scan.Result
	wishes  panel.Scan
	legends map[string]string
	reader  *reading.Reader
}

// speaker reads the circuit as it is wired; where a key still lacks its diode, as it will be.
func speaker(made *plan.Plan) chordSpeaker {
	p, chip := made.Panel, (*controller.Chip)(nil)
	if made.Module != nil {
		chip = &made.Module.Chip
	}
	wired := &made.Nets
	if slices.ContainsFunc(made.Findings, lacksDiode) {
		wired = nil
	}
	s := chordSpeaker{&made.Scan, p.Scan, map[string]string{}, reading.New(p, &made.Scan, wired, chip)}
	for _, k := range p.Keys() {
		s.legends[k.ID] = k.Legend
	}
	return s
}

func lacksDiode(f finding.Finding) bool { return f.Code == "net-diode-missing" }

// judge tells from the voltages what a key reads as that nobody holds.
func (s chordSpeaker) judge(pressed []string, key string) hold.Level {
	switch sure, doubtful := s.reader.Read(pressed).Pressed(); {
	case slices.Contains(sure, key):
		return hold.Joins
	case slices.Contains(doubtful, key):
		return hold.Doubt
	}
	return hold.Apart
}

// faint lists the keys that do not read for certain although all of them are held.
func (s chordSpeaker) faint(keys []string) []string {
	sure, _ := s.reader.Read(keys).Pressed()
	return slices.DeleteFunc(slices.Clone(keys), func(k string) bool { return slices.Contains(sure, k) })
}

// key names a key by its legend and its reference.
func (s chordSpeaker) key(id string) string {
	if legend := s.legends[id]; legend != "" {
		return legend + " (" + id + ")"
	}
	return id
}

// short names a key by its legend alone.
func (s chordSpeaker) short(id string) string {
	if legend := s.legends[id]; legend != "" {
		return legend
	}
	return id
}

func (s chordSpeaker) names(ids []string, one func(string) string) string {
	words := make([]string, len(ids))
	for i, id := range ids {
		words[i] = one(id)
	}
	return finding.Names(words)
}

// chord says which keys a chord asks for.
func (s chordSpeaker) chord(c panel.Chord) string {
	var words []string
	if len(c.Keys) > 0 {
		words = append(words, s.names(c.Keys, s.short))
	}
	for _, a := range c.Any {
		words = append(words, fmt.Sprintf("any %d of %s", a.Count, s.names(a.Of, s.short)))
	}
	return strings.Join(words, ", with ")
}

// reading says what is read while a chord is held.
func (s chordSpeaker) reading(c panel.Chord) view.Reading {
	got := hold.Of(s.scan, &c, s.judge)
	r := view.Reading{Keys: got.Keys, State: "safe", Ghosts: []view.GhostReading{}}
	if len(got.Keys) < 2 {
		r.State, r.Says = "none", "A chord begins with two keys."
		return r
	}
	for _, g := range got.Ghosts {
		one := s.ghost(g)
		switch {
		case !one.Perhaps:
			r.State = "ghost"
		case r.State == "safe":
			r.State = "perhaps"
		}
		if len(r.Ghosts) < mostGhosts {
			r.Ghosts = append(r.Ghosts, one)
		} else {
			r.More++
		}
	}
	r.Says, r.Fix = s.verdict(got, r.State), s.fix(got)
	if faint := s.faint(got.Keys); got.Sets == 1 && len(faint) > 0 {
		says := fmt.Sprintf("With all of them held, %s %s not read as pressed for certain.", s.names(faint, s.key), doOrDoes(len(faint)))
		if r.State == "safe" {
			r.State, r.Says = "perhaps", says
		} else {
			r.Says += " " + says
		}
	}
	if r.More > 0 {
		r.Fix = strings.TrimSpace(fmt.Sprintf("%s are not listed. %s", countOf(r.More, "more ghost", "more ghosts"), r.Fix))
	}
	return r
}

func doOrDoes(n int) string {
	if n == 1 {
		return "does"
	}
	return "do"
}

// ghost tells of one key that reads as pressed, or may: two silicon diodes on the way leave the line
// between low and high.
func (s chordSpeaker) ghost(g hold.Ghost) view.GhostReading {
	one := view.GhostReading{Key: g.Key, Way: strings.Join(g.Way, " – "), Pressed: g.Pressed, Perhaps: g.Doubt}
	verb := "reads"
	if one.Perhaps {
		verb = "may read"
	}
	one.Says = fmt.Sprintf("%s %s as pressed while %s are down.", s.key(g.Key), verb, s.names(g.Pressed, s.short))
	if g.OnWay {
		one.Says = fmt.Sprintf("%s %s already before it is pressed, while %s are down.", s.key(g.Key), verb, s.names(g.Pressed, s.short))
	}
	return one
}

// verdict is the sentence above the ghosts.
func (s chordSpeaker) verdict(got hold.Reading, state string) string {
	if got.Sets > 1 || !got.Whole {
		return s.manySets(got)
	}
	here := 0
	for _, g := range got.Ghosts {
		if !g.OnWay {
			here++
		}
	}
	switch {
	case len(got.Ghosts) == 0:
		return fmt.Sprintf("Safe: in whatever order these %d keys go down, only they read.", len(got.Keys))
	case state == "perhaps":
		return "Possible ghost: what the line reads then is neither low nor high for certain."
	case here == 0:
		return "All down, they read right. On the way there a ghost joins in:"
	case here == 1:
		return "Ghost: a key that nobody presses joins in."
	}
	return "Ghosts: keys that nobody presses join in."
}

func (s chordSpeaker) manySets(got hold.Reading) string {
	sets, of := countOf(got.Sets, "set of keys", "sets of keys"), "Stands for "
	if !got.Whole {
		of = "Stands for so many sets of keys that not all were looked at. Of the first "
		return fmt.Sprintf("%s%d, %d are safe.", of, got.Sets, got.Safe)
	}
	switch got.Safe {
	case got.Sets:
		return of + sets + "; all of them are safe."
	case 0:
		return of + sets + "; none of them is safe."
	case 1:
		return of + sets + "; 1 of them is safe."
	}
	return fmt.Sprintf("%s%s; %d of them are safe.", of, sets, got.Safe)
}

// fix says what would take the ghosts away.
func (s chordSpeaker) fix(got hold.Reading) string {
	switch {
	case len(got.Ghosts) == 0:
		return ""
	case !got.Cured:
		return "No further diode would stop it: every key on the way has its own. Give one of the keys a pin of its own."
	}
	text := fmt.Sprintf("A diode at %s would stop it.", s.names(got.Diodes, s.key))
	if n := len(got.Diodes); n > 1 {
		text = fmt.Sprintf("%d diodes would stop it, at %s.", n, s.names(got.Diodes, s.key))
	}
	if s.wishes.Diodes == "none" {
		return text + " Your wishes allow none."
	}
	return text
}

// diodes says which way they all point and what each is for; nothing where there is none.
func (v *visit) diodes() view.Diodes {
	got := &v.plan.Scan
	guards := hold.Guards(got, v.panel.Chords)
	if len(guards) == 0 {
		return view.Diodes{}
	}
	says := speaker(v.plan)
	d := view.Diodes{Direction: diodeDirection(got), Proved: diodesProved(v.panel.Scan, got)}
	var rest []string
	for _, g := range guards {
		if g.Chord == "" {
			rest = append(rest, g.Key)
			continue
		}
		d.Guards = append(d.Guards, view.Guard{Key: g.Key, Legend: says.legends[g.Key],
			Keys: strings.Join(append([]string{g.Key}, g.Ghost.Pressed...), " "),
			Says: fmt.Sprintf("for %s: without it, %s would make %s read as pressed (%s).", g.Chord,
				says.names(g.Ghost.Pressed, says.short), says.key(g.Ghost.Key), strings.Join(g.Ghost.Way, " – "))})
	}
	d.Others = says.needless(rest)
	return d
}

// needless says why there are diodes that no chord alone needs.
func (s chordSpeaker) needless(keys []string) string {
	if len(keys) == 0 {
		return ""
	}
	names := s.names(keys, s.short)
	switch {
	case s.scan.Style == "lines":
		return "Between two lines every key has one, so that each direction is a key of its own: " + names + "."
	case s.wishes.Diodes == "every key":
		return "Asked for at every key, and needed by no chord: " + names + "."
	}
	return "Needed only together with others: " + names + "."
}

// diodesProved says whether fewer would do.
func diodesProved(w panel.Scan, got *scan.Result) string {
	n := 0
	for _, c := range got.Cells {
		if c.Diode {
			n++
		}
	}
	switch {
	case n == 0 || got.Style == "lines" || w.Diodes == "every key":
		return ""
	case got.DiodesProved:
		return fmt.Sprintf("Proved: no arrangement in these rows and columns does with fewer than %d.", n)
	}
	return fmt.Sprintf("No arrangement in these rows and columns does with fewer than %d; whether one does with fewer than %d is not settled.", got.DiodeBound, n)
}

// diodeDirection states once how every diode lies.
func diodeDirection(got *scan.Result) string {
	switch {
	case got.Style == "lines":
		return "All diodes point the same way: from the key to the line that is driven, the band towards that line."
	case got.Active == "high":
		return "All diodes point the same way: from the column to the key, the band towards the key."
	}
	return "All diodes point the same way: from the key to the column, the band towards the column."
}
