package netlist

import (
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/scan"
)

// An identity is what a node is: ground, row 0, a part's signal. A node has at most one, so a
// second one that reaches it is a short and is refused.
type identity struct {
	name  string
	class Class
	order int // place among the nets, one of the orders below
}

// Orders of the nets in a list.
const (
	orderSupply = iota
	orderRow
	orderColumn
	orderKey
	orderSignal
	orderLink
)

// An end is one terminal and the part it belongs to.
type end struct {
	Terminal
	of   *panel.Placed
	kind part.Kind
	part part.Terminal
}

// A builder joins ends into nodes (union-find) and keeps each node's identity. Nodes of ends come
// first, in order of the panel's parts; each identity has a node of its own behind them.
type builder struct {
	p    *panel.Panel
	scan *scan.Result
	pins *pinning.Result

	ends   []end
	byRef  map[panel.TerminalRef]int
	keys   map[string]panel.KeyRef
	asked  map[panel.TerminalRef]string // the maker's join that names a terminal
	parent []int
	owner  []int // of a root: its identity, or -1
	idents []identity
	nodeOf map[string]int  // an identity's name to its node
	spent  map[string]bool // parts that a pairing took
	power  power
	result Result
}

func newBuilder(p *panel.Panel, s *scan.Result, pins *pinning.Result) *builder {
	b := &builder{p: p, scan: s, pins: pins, power: powerOf(p),
		byRef: map[panel.TerminalRef]int{}, keys: map[string]panel.KeyRef{},
		asked: map[panel.TerminalRef]string{}, nodeOf: map[string]int{}, spent: map[string]bool{}}
	for i := range p.Placed {
		b.addPart(&p.Placed[i])
	}
	for _, k := range p.Keys() {
		b.keys[k.ID] = k
	}
	return b
}

// addPart lists the terminals of a part and unites those that are one metal.
func (b *builder) addPart(pl *panel.Placed) {
	d := b.p.Definition(pl)
	pose := pl.Pose()
	for _, t := range d.Terminals {
		h := pose.Hole(t.Offset())
		board := b.p.BoardAt(h)
		ref := panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name}
		b.byRef[ref] = len(b.ends)
		b.ends = append(b.ends, end{of: pl, kind: d.Kind, part: t,
			Terminal: Terminal{ref, h, pl.Face.Other(), board == nil || board.OneNode()}})
		b.addNode(-1)
	}
	for _, set := range d.Joined {
		for _, name := range set[1:] {
			b.unite(b.byRef[panel.TerminalRef{Ref: pl.Ref, Terminal: set[0]}],
				b.byRef[panel.TerminalRef{Ref: pl.Ref, Terminal: name}])
		}
	}
}

func (b *builder) addNode(owner int) int {
	b.parent = append(b.parent, len(b.parent))
	b.owner = append(b.owner, owner)
	return len(b.parent) - 1
}

// net returns the node of the identity called name, made when it is new.
func (b *builder) net(name string, class Class, order int) int {
	if n, ok := b.nodeOf[name]; ok {
		return n
	}
	b.idents = append(b.idents, identity{name, class, order})
	n := b.addNode(len(b.idents) - 1)
	b.nodeOf[name] = n
	return n
}

func (b *builder) find(n int) int {
	for b.parent[n] != n {
		b.parent[n] = b.parent[b.parent[n]]
		n = b.parent[n]
	}
	return n
}

// unite makes two nodes one. It refuses, and returns false, when they are two different nets.
func (b *builder) unite(m, n int) bool {
	m, n = b.find(m), b.find(n)
	if m == n {
		return true
	}
	if b.owner[m] >= 0 && b.owner[n] >= 0 {
		return false
	}
	m, n = min(m, n), max(m, n)
	b.parent[n] = m
	b.owner[m] = max(b.owner[m], b.owner[n])
	return true
}

// nameAt returns the name of the net that node n is so far, or "".
func (b *builder) nameAt(n int) string {
	if o := b.owner[b.find(n)]; o >= 0 {
		return b.idents[o].name
	}
	return ""
}

// end returns the node of a terminal; false when there is no such terminal.
func (b *builder) end(ref, terminal string) (int, bool) {
	n, ok := b.byRef[panel.TerminalRef{Ref: ref, Terminal: terminal}]
	return n, ok
}

// metal lists the ends that are one metal with end n, itself included.
func (b *builder) metal(n int) []int {
	e := b.ends[n]
	d := b.p.Definition(e.of)
	var ends []int
	for _, name := range d.Metal(e.Terminal.Terminal) {
		if m, ok := b.end(e.Ref, name); ok {
			ends = append(ends, m)
		}
	}
	return ends
}

// steps is the least distance in holes from the metal of end m to that of end n.
func (b *builder) steps(m, n int) int {
	least := -1
	for _, i := range b.metal(m) {
		for _, j := range b.metal(n) {
			if d := b.ends[i].Hole.Steps(b.ends[j].Hole); least < 0 || d < least {
				least = d
			}
		}
	}
	return least
}
