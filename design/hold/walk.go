package hold

import (
	"cmp"
	"slices"
)

// Bounds of one search for paths, which are far more than the keys that hands can hold take.
const (
	mostSteps = 100000
	mostFound = 2000
)

// A path is a way for current through held keys to a line whose crossing with the first one has a key
// that is not on it. Nodes are one more than keys.
type path struct {
	nodes, keys []int
	phantom     int
	doubt       bool
}

// A walk searches depth first for the paths of a chord, passing no line twice.
type walk struct {
	*bench
	held
	more  map[int]bool   // cells to be taken as having a diode
	ways  map[int][]step // from each node
	nodes []int
	keys  []int
	found []path
	left  int
	whole bool // the search came to its end
}

// A step is a held key passed to another line.
type step struct{ key, to int }

// search finds the ghosts of a chord: the paths that contain no smaller one, fewest keys first. Cells in
// more are taken as having a diode, beside those that have one.
func (b *bench) search(h held, more map[int]bool) *walk {
	w := &walk{bench: b, held: h, more: more, ways: map[int][]step{}, left: mostSteps, whole: true}
	var from []int
	for _, k := range h.cells {
		if !slices.Contains(from, b.row[k]) {
			from = append(from, b.row[k])
		}
		w.ways[b.row[k]] = append(w.ways[b.row[k]], step{k, b.column[k]})
		if !b.diode[k] && !more[k] {
			w.ways[b.column[k]] = append(w.ways[b.column[k]], step{k, b.row[k]})
		}
	}
	for _, node := range from {
		w.nodes = append(w.nodes[:0], node)
		w.follow(node)
	}
	w.found = least(w.found)
	return w
}

// follow takes every step from a node that leads to a new one.
func (w *walk) follow(node int) {
	for _, s := range w.ways[node] {
		if slices.Contains(w.nodes, s.to) {
			continue
		}
		if w.left--; w.left < 0 || len(w.found) == mostFound {
			w.whole = false
			return
		}
		w.nodes, w.keys = append(w.nodes, s.to), append(w.keys, s.key)
		if w.together(w.keys) && !w.haunt(s.to) {
			w.follow(s.to)
		}
		w.nodes, w.keys = w.nodes[:len(w.nodes)-1], w.keys[:len(w.keys)-1]
	}
}

// haunt notes the ghost, if any, at the crossing of the first line and the last. A longer path would
// only add keys to those that are enough.
func (w *walk) haunt(node int) bool {
	k, ok := w.at[[2]int{w.nodes[0], node}]
	if !ok || slices.Contains(w.keys, k) {
		return false
	}
	level := w.level(k)
	if level != Apart {
		w.found = append(w.found, path{slices.Clone(w.nodes), slices.Clone(w.keys), k, level == Doubt})
	}
	return level != Apart
}

// level is what cell k reads as, at the end of the path so far.
func (w *walk) level(k int) Level {
	pressed, drops := make([]string, len(w.keys)), 0
	for i, cell := range w.keys {
		pressed[i] = w.bench.cells[cell].Key
		if w.diode[cell] || w.more[cell] {
			drops++
		}
	}
	switch {
	case w.judge != nil && len(w.more) == 0:
		return w.judge(pressed, w.bench.cells[k].Key)
	case drops > 1:
		return Doubt
	}
	return Joins
}

// backward lists the keys of a path that a diode would close to it.
func (b *bench) backward(p path) []int {
	var list []int
	for i, k := range p.keys {
		if b.column[k] == p.nodes[i] {
			list = append(list, k)
		}
	}
	return list
}

// least keeps the paths whose keys contain no other path's, fewest first, then in the order of keys.
func least(all []path) []path {
	type sorted struct {
		path
		set []int
	}
	list := make([]sorted, len(all))
	for i, p := range all {
		list[i] = sorted{p, slices.Sorted(slices.Values(p.keys))}
	}
	slices.SortStableFunc(list, func(a, b sorted) int {
		return cmp.Or(cmp.Compare(len(a.set), len(b.set)), slices.Compare(a.set, b.set), cmp.Compare(a.phantom, b.phantom))
	})
	var kept []path
	shorter := 0 // of kept, those with fewer keys than the one looked at
	for i, p := range list {
		if i > 0 && len(list[i-1].set) < len(p.set) {
			shorter = len(kept)
		}
		again := i > 0 && slices.Equal(list[i-1].set, p.set) && list[i-1].phantom == p.phantom
		if !again && !slices.ContainsFunc(kept[:shorter], func(q path) bool { return within(q.keys, p.set) }) {
			kept = append(kept, p.path)
		}
	}
	return kept
}
