package wiring

import (
	"cmp"
	"slices"

	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
)

// legs lists the bridges inside parts that the wiring of each net relies on: without them some
// terminals would hang apart, and with all of them there is no ring.
func legs(p *panel.Panel, fd *field, tasks []task, wires []Wire) []Wire {
	byNet := map[string][]*Wire{}
	for i := range wires {
		byNet[wires[i].Net] = append(byNet[wires[i].Net], &wires[i])
	}
	var list []Wire
	for i := range tasks {
		t := &tasks[i]
		c := conductor{parent: map[node]node{}}
		for _, w := range byNet[t.net.Name] {
			c.addWire(fd, w)
		}
		list = append(list, c.bridges(p, fd, t.net)...)
	}
	return list
}

// A node is a class of copper, or the place of a terminal that is off every board.
type node struct {
	class spot
	off   grid.Hole
}

func nodeAt(fd *field, h grid.Hole, f grid.Face) node {
	if s := fd.at(h, f); s != nowhere {
		return node{class: fd.class[s]}
	}
	return node{nowhere, h}
}

type conductor struct{ parent map[node]node }

func (c *conductor) find(n node) node {
	for {
		up, ok := c.parent[n]
		if !ok || up == n {
			return n
		}
		n = up
	}
}

func (c *conductor) unite(a, b node) bool {
	a, b = c.find(a), c.find(b)
	if a == b {
		return false
	}
	c.parent[b] = a
	return true
}

func (c *conductor) addWire(fd *field, w *Wire) {
	first := nodeAt(fd, w.Path[0], w.Face)
	for _, h := range w.Path[1:] {
		c.unite(first, nodeAt(fd, h, w.Face))
	}
	if w.Through {
		c.unite(nodeAt(fd, w.From, grid.Front), nodeAt(fd, w.From, grid.Back))
	}
}

// bridges lists the metal inside parts that unites what is apart, shortest first within a part.
func (c *conductor) bridges(p *panel.Panel, fd *field, net *netlist.Net) []Wire {
	var found []Wire
	for i := 0; i < len(net.Terminals); {
		j := i + 1
		for j < len(net.Terminals) && net.Terminals[j].Ref == net.Terminals[i].Ref {
			j++
		}
		found = append(found, c.inside(p, fd, net, net.Terminals[i:j])...)
		i = j
	}
	return found
}

// inside lists the bridges among the terminals of one part.
func (c *conductor) inside(p *panel.Panel, fd *field, net *netlist.Net, ends []netlist.Terminal) []Wire {
	if len(ends) < 2 {
		return nil
	}
	type pair struct{ a, b netlist.Terminal }
	var pairs []pair
	for i, a := range ends {
		for _, b := range ends[i+1:] {
			if metalOf(p, a.TerminalRef) == metalOf(p, b.TerminalRef) {
				pairs = append(pairs, pair{a, b})
			}
		}
	}
	slices.SortStableFunc(pairs, func(m, n pair) int {
		return cmp.Compare(m.a.Hole.Steps(m.b.Hole), n.a.Hole.Steps(n.b.Hole))
	})
	var found []Wire
	for _, q := range pairs {
		if c.unite(nodeAt(fd, q.a.Hole, q.a.Face), nodeAt(fd, q.b.Hole, q.b.Face)) {
			w := Wire{Net: net.Name, Class: net.Class, Kind: Leg, Face: q.a.Face.Other(),
				From: q.a.Hole, To: q.b.Hole, Path: []grid.Hole{q.a.Hole, q.b.Hole}}
			w.measure(0)
			found = append(found, w)
		}
	}
	return found
}
