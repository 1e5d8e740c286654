package scan

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/part"
)

// A metal tells which terminals are one node before any wire is drawn: by the parts' own joins and
// by those the maker asks for.
type metal struct {
	panel  *panel.Panel
	number map[panel.TerminalRef]int
	above  []int
	supply []string // by root: the supply it belongs to by nature, ground before others
}

func metalOf(p *panel.Panel) *metal {
	m := &metal{panel: p, number: map[panel.TerminalRef]int{}}
	for _, j := range p.Joins {
		first := -1
		for _, name := range j.Terminals {
			t, ok := panel.ParseTerminal(name)
			if !ok {
				continue
			}
			if n := m.node(t); first < 0 {
				first = n
			} else {
				m.join(first, n)
			}
		}
	}
	return m
}

// node returns the number of t's terminal, with all that is one metal with it joined to it.
func (m *metal) node(t panel.TerminalRef) int {
	if n, ok := m.number[t]; ok {
		return n
	}
	n := len(m.above)
	m.number[t] = n
	m.above = append(m.above, n)
	m.supply = append(m.supply, "")
	pl := m.panel.Find(t.Ref)
	if pl == nil {
		return n
	}
	d := m.panel.Definition(pl)
	if term, ok := d.Terminal(t.Terminal); ok {
		m.supply[n] = term.Net
	}
	for _, name := range d.Metal(t.Terminal) {
		if name != t.Terminal {
			m.join(n, m.node(panel.TerminalRef{Ref: t.Ref, Terminal: name}))
		}
	}
	return n
}

func (m *metal) root(n int) int {
	for m.above[n] != n {
		n = m.above[n]
	}
	return n
}

func (m *metal) join(a, b int) {
	a, b = m.root(a), m.root(b)
	if a == b {
		return
	}
	m.above[b] = a
	if m.supply[a] == "" || m.supply[b] == part.Ground {
		m.supply[a] = m.supply[b]
	}
}

// A sharing is what the keys' common metal forces.
type sharing struct {
	lines    [2]int // how many forced lines each side has
	supply   map[string]bool
	findings []finding.Finding
}

// share marks every key with the lines that its metal forces on it, the side that its pin would
// have, and whether it may be a key of the matrix or have a pin of its own.
func share(p *panel.Panel, keys []key) sharing {
	m := metalOf(p)
	s := sharing{supply: map[string]bool{}}
	roots := make([][2]int, len(keys))
	for i := range keys {
		for side := range 2 {
			m.node(keys[i].terminal(side))
		}
	}
	users := map[int][]int{} // root to keys, in key order
	for i := range keys {
		k := &keys[i]
		for side := range 2 {
			r := m.root(m.node(k.terminal(side)))
			roots[i][side] = r
			if net := m.supply[r]; net != "" {
				k.own, k.pin, k.tied = byNature, 1-side, net
				s.supply[net] = true
			}
		}
		if roots[i][0] == roots[i][1] {
			s.say(finding.Stop, "scan-closed", []string{k.ID}, fmt.Sprintf("Both sides of key %s are joined, so it always reads as pressed.", k.ID),
				"Take the join away, or let the contact be no key.")
			k.own = byNature
			continue
		}
		if k.own != byNature {
			users[roots[i][0]] = append(users[roots[i][0]], i)
			users[roots[i][1]] = append(users[roots[i][1]], i)
		}
	}
	done := map[int]bool{}
	for i := range keys {
		for side := range 2 {
			r := roots[i][side]
			if keys[i].own == byNature || done[r] || len(users[r]) < 2 {
				continue
			}
			done[r] = true
			s.force(keys, users[r], roots, r)
		}
	}
	s.settle(keys, users, roots)
	return s
}

// force puts the keys that share root r on one line.
func (s *sharing) force(keys []key, users []int, roots [][2]int, r int) {
	side := sideOf(roots[users[0]], r)
	for _, i := range users {
		if sideOf(roots[i], r) != side {
			ids := idsOf(keys, users)
			s.say(finding.Stop, "scan-line", ids, fmt.Sprintf("Keys %s share a terminal that is the row side of one and the column side of another.", finding.Names(ids)),
				"Take the join between them away.")
			return
		}
	}
	for _, i := range users {
		keys[i].line[side] = s.lines[side]
	}
	s.lines[side]++
}

// settle decides, for keys that share metal, whether pins of their own are possible: they are when
// the keys share one node alone, which then returns to ground. One that wants a pin takes along
// all that share with it.
func (s *sharing) settle(keys []key, users map[int][]int, roots [][2]int) {
	for i := range keys {
		k := &keys[i]
		shared := [2]bool{len(users[roots[i][0]]) > 1, len(users[roots[i][1]]) > 1}
		switch {
		case k.own == byNature || !shared[0] && !shared[1]:
		case shared[0] && shared[1]:
			if k.own == wanted {
				s.say(finding.Stop, "scan-shared", []string{k.ID}, fmt.Sprintf("Key %s shares both its terminals with other keys, so it can't have a pin of its own.", k.ID),
					"Let it be a key of the matrix.")
			}
			k.own = never
		case shared[0]:
			k.pin = columnSide
		case shared[1]:
			k.pin = rowSide
		}
	}
	for i := range keys {
		for side := range 2 {
			group := users[roots[i][side]]
			if keys[i].own == byNature || len(group) < 2 || group[0] != i {
				continue
			}
			s.takeAlong(keys, group)
		}
	}
}

func (s *sharing) takeAlong(keys []key, group []int) {
	has := func(o ownPin) bool {
		return slices.ContainsFunc(group, func(i int) bool { return keys[i].own == o })
	}
	if has(never) {
		for _, i := range group {
			keys[i].own = never
		}
		return
	}
	if !has(wanted) || !has(either) {
		return
	}
	for _, i := range group {
		keys[i].own = wanted
	}
	ids := idsOf(keys, group)
	s.say(finding.Mind, "scan-shared", ids, fmt.Sprintf("Keys %s share a terminal and one of them wants a pin of its own, so all get one.", finding.Names(ids)),
		"Ask for a pin for all of them, or for none.")
}

func (s *sharing) say(sev finding.Severity, code string, keys []string, text, fix string) {
	s.findings = append(s.findings, finding.Finding{Severity: sev, Code: code, Where: finding.Where{Keys: keys}, Text: text, Fix: fix})
}

func sideOf(roots [2]int, r int) int {
	if roots[0] == r {
		return rowSide
	}
	return columnSide
}

func idsOf(keys []key, list []int) []string {
	ids := make([]string, len(list))
	for i, k := range list {
		ids[i] = keys[k].ID
	}
	return ids
}
