package wiring

import (
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
)

// layCopper joins spots by the boards' own metal.
func (fd *field) layCopper() {
	fd.class = make([]spot, 2*len(fd.holes))
	for s := range fd.class {
		fd.class[s] = fd.canon(spot(s))
	}
	for i := range fd.boards {
		b := &fd.boards[i]
		switch b.Copper {
		case panel.Groups:
			for _, g := range b.Groups {
				fd.join(b, g)
			}
		case panel.Strips:
			done := map[grid.Hole]bool{}
			for c := range b.Columns * b.Rows {
				h := fd.holes[fd.first[i]+int32(c)]
				if done[h] {
					continue
				}
				strip := b.Mates(h)
				for _, m := range strip {
					done[m] = true
				}
				fd.join(b, strip)
			}
		}
	}
}

// join makes holes that are one piece of copper one class on each face that has its own node.
func (fd *field) join(b *panel.Board, holes []grid.Hole) {
	if len(holes) < 2 {
		return
	}
	for face := grid.Front; face <= grid.Back; face++ {
		if b.OneNode() && face == grid.Back {
			break
		}
		if !b.OneNode() && !b.HasCopper(face) {
			continue
		}
		class := nowhere
		var all []spot
		for _, h := range holes {
			s := fd.at(h, face)
			if s == nowhere || fd.group[fd.class[s]] != nil {
				continue // a hole is in the first group that names it
			}
			if class == nowhere {
				class = fd.class[s]
			}
			all = append(all, s)
			if b.OneNode() {
				all = append(all, s|1)
			}
		}
		for _, s := range all {
			fd.class[s] = class
		}
		if class != nowhere {
			fd.group[class] = all
		}
	}
}

// members lists the spots of a class.
func (fd *field) members(class spot) []spot {
	if g, ok := fd.group[class]; ok {
		return g
	}
	if fd.oneNode(class) {
		return []spot{class, class | 1}
	}
	return []spot{class}
}

// jointsOf lists the places of a class on which a wire may end.
func (fd *field) jointsOf(class spot) []spot {
	var list []spot
	for _, s := range fd.members(class) {
		if c := fd.canon(s); fd.joint[c] && !slices.Contains(list, c) {
			list = append(list, c)
		}
	}
	return list
}
