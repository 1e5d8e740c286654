package scan

import (
	"fmt"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
	"pgregory.net/rapid"
)

// wireOf is the wire that a result takes, from the panel and the result alone.
func wireOf(p *panel.Panel, r *Result) int {
	switch r.Style {
	case "lines":
		return lineWire(p, r)
	case "expander":
		total := 0
		for _, d := range r.Direct {
			if d.Via != "" {
				total += between(metalHoles(p, d.Pin), metalHoles(p, d.Via))
			}
		}
		return total
	}
	return measured(p, r)
}

// lineWire joins, for each line, the row sides of the keys that it reads and the column sides of the
// keys that it is selected for.
func lineWire(p *panel.Panel, r *Result) int {
	ends := make([][][]grid.Hole, r.Rows)
	for _, k := range p.Keys() {
		for _, c := range r.Cells {
			if c.Key == k.ID {
				ends[c.Row] = append(ends[c.Row], legsOf(p, k, rowSide))
				ends[c.Column] = append(ends[c.Column], legsOf(p, k, columnSide))
			}
		}
	}
	total := 0
	for _, line := range ends {
		total += spanning(line)
	}
	return total
}

// spanning is the shortest tree over groups of holes by Borůvka's method, to set against Prim's.
func spanning(groups [][]grid.Hole) int {
	part := make([]int, len(groups))
	for i := range part {
		part[i] = i
	}
	total := 0
	for {
		type wire struct{ length, a, b int }
		best := map[int]wire{}
		for a := range groups {
			for b := range a {
				w := wire{between(groups[a], groups[b]), a, b}
				if part[a] == part[b] {
					continue
				}
				for _, side := range [2]int{part[a], part[b]} {
					if old, ok := best[side]; !ok || w.length < old.length || w.length == old.length && (w.a < old.a || w.a == old.a && w.b < old.b) {
						best[side] = w
					}
				}
			}
		}
		if len(best) == 0 {
			return total
		}
		for i := range groups {
			w, ok := best[i]
			if !ok || part[w.a] == part[w.b] {
				continue
			}
			total += w.length
			from, to := part[w.a], part[w.b]
			for j := range part {
				if part[j] == from {
					part[j] = to
				}
			}
		}
	}
}

func between(a, b []grid.Hole) int {
	least := 1 << 20
	for _, g := range a {
		for _, h := range b {
			least = min(least, g.Steps(h))
		}
	}
	return least
}

func metalHoles(p *panel.Panel, terminal string) []grid.Hole {
	t, _ := panel.ParseTerminal(terminal)
	d := p.Parts[p.Find(t.Ref).Part]
	var holes []grid.Hole
	for _, name := range d.Metal(t.Terminal) {
		h, _ := p.HoleOf(panel.TerminalRef{Ref: t.Ref, Terminal: name})
		holes = append(holes, h)
	}
	return holes
}

// drops is the number of diodes in a row between each line and the one that is selected, by held
// keys alone: 0 for itself, 1 for a line with a held key to it, -1 for a line that nothing joins.
func drops(r *Result, held []string, selected int) []int {
	far := make([]int, r.Rows)
	for l := range far {
		far[l] = -1
	}
	far[selected] = 0
	for step := 1; step <= r.Rows; step++ {
		for _, c := range r.Cells {
			if slices.Contains(held, c.Key) && far[c.Column] == step-1 && far[c.Row] < 0 {
				far[c.Row] = step
			}
		}
	}
	return far
}

// doubtful lists the keys not held whose line lies behind two diodes or more.
func doubtful(r *Result, held []string) []string {
	var list []string
	for _, c := range r.Cells {
		if drops(r, held, c.Column)[c.Row] >= 2 && !slices.Contains(held, c.Key) {
			list = append(list, c.Key)
		}
	}
	return list
}

// hauntedLines lists "chord: phantom" for every set of keys that a chord lets be held and every key
// that the set leaves in doubt.
func hauntedLines(p *panel.Panel, r *Result) map[string]bool {
	found := map[string]bool{}
	for _, c := range p.Chords {
		var keys []string
		for _, k := range c.All() {
			if slices.ContainsFunc(r.Cells, func(c Cell) bool { return c.Key == k }) {
				keys = append(keys, k)
			}
		}
		for part := range 1 << len(keys) {
			var held []string
			for i, k := range keys {
				if part>>i&1 == 1 {
					held = append(held, k)
				}
			}
			if !mayHold(&c, held) {
				continue
			}
			for _, k := range doubtful(r, held) {
				found[c.Name+": "+k] = true
			}
		}
	}
	return found
}

// mayHold reports whether a chord asks for these keys at once, and perhaps for more: by trying which
// choice lets each be held.
func mayHold(c *panel.Chord, held []string) bool {
	room := make([]int, len(c.Any))
	for i, a := range c.Any {
		room[i] = a.Count
	}
	var fits func(i int) bool
	fits = func(i int) bool {
		if i == len(held) || slices.Contains(c.Keys, held[i]) && fits(i+1) {
			return true
		}
		for j, a := range c.Any {
			if room[j] > 0 && slices.Contains(a.Of, held[i]) {
				room[j]--
				ok := fits(i + 1)
				room[j]++
				if ok {
					return true
				}
			}
		}
		return false
	}
	return fits(0)
}

// withChoices declares chords, some of which leave a choice, over n keys.
func withChoices(t *rapid.T, p *panel.Panel, n, most int) {
	for i := range rapid.IntRange(0, most).Draw(t, "chords") {
		names := func(what string, least int) (ids []string) {
			for _, k := range rapid.SliceOfNDistinct(rapid.IntRange(1, max(1, n)), least, 4, rapid.ID[int]).Draw(t, fmt.Sprint(what, i)) {
				ids = append(ids, fmt.Sprint("S", k))
			}
			return ids
		}
		c := panel.Chord{Name: fmt.Sprint("c", i), Keys: names("keys", 0)}
		for range rapid.IntRange(0, 2).Draw(t, "choices") {
			of := names("of", 1)
			c.Any = append(c.Any, panel.AnyOf{Count: rapid.IntRange(1, len(of)).Draw(t, "count"), Of: of})
		}
		p.Chords = append(p.Chords, c)
	}
}
