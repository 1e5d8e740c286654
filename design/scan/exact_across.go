package scan

import "math/bits"

// finish finds the best lines across those dealt, and keeps them if they are better than the best.
func (x *exactSearch) finish(spent int) {
	for _, at := range x.touched {
		x.after[at] = -1
	}
	x.touched = x.touched[:0]
	all := 1<<len(x.keys) - 1
	if total := spent + x.linesFor(all, x.lines[across]); total >= x.best || x.left <= 0 {
		return
	}
	x.complete(spent, all, x.lines[across])
}

// complete goes through the lines across that are better than the best, and keeps them if they are
// allowed.
func (x *exactSearch) complete(spent, keys, left int) {
	if keys == 0 {
		if cell := x.arranged(); x.allowed == nil || x.allowed(cell) {
			x.best, x.cell = spent, cell
		}
		return
	}
	x.eachAcross(keys, func(set int) {
		more := spent + x.priceOf(set)
		if more+x.linesFor(keys&^set, left-1) < x.best {
			x.chosen = append(x.chosen, set)
			x.complete(more, keys&^set, left-1)
			x.chosen = x.chosen[:len(x.chosen)-1]
		}
	})
}

// arranged gives every key its cell.
func (x *exactSearch) arranged() []int {
	cell := make([]int, len(x.keys))
	for number, set := range x.chosen {
		for ; set != 0; set &= set - 1 {
			k := bits.TrailingZeros(uint(set))
			row, column := x.lineOf[k], number
			if x.side[first] == columnSide {
				row, column = column, row
			}
			cell[k] = row*x.columns + column
		}
	}
	return cell
}

// linesFor is the least wire for some keys on so many lines across, with what their elbows add.
func (x *exactSearch) linesFor(keys, left int) int {
	if keys == 0 {
		return 0
	}
	if left == 0 {
		return far
	}
	at := keys*(x.lines[across]+1) + left
	if x.after[at] < 0 {
		least := far
		x.eachAcross(keys, func(set int) {
			if n := x.priceOf(set); n < least {
				least = min(least, n+x.linesFor(keys&^set, left-1))
			}
		})
		x.after[at] = least
		x.touched = append(x.touched, at)
	}
	return x.after[at]
}

// priceOf is the wire of a line across, with what its elbows add.
func (x *exactSearch) priceOf(set int) int {
	n := x.lengthOf(across, set)
	for rest := set; rest != 0; rest &= rest - 1 {
		if x.barred[bits.TrailingZeros(uint(rest))]&set != 0 {
			n += heavy
		}
	}
	return n
}

// eachAcross gives every line across with the first of some keys and others of them, at most one of
// each line dealt.
func (x *exactSearch) eachAcross(keys int, try func(set int)) {
	lowest := keys & -keys
	x.cross(lowest, keys, 0, x.lineOf[bits.TrailingZeros(uint(lowest))], try)
}

// cross adds keys to a line across, of the lines dealt from the given one on but for own.
func (x *exactSearch) cross(set, keys, line, own int, try func(set int)) {
	for ; line < len(x.dealt) && x.left > 0; line++ {
		if line == own {
			continue
		}
		for more := keys & x.dealt[line]; more != 0; more &= more - 1 {
			x.cross(set|more&-more, keys, line+1, own, try)
		}
	}
	x.left--
	if bits.OnesCount(uint(set)) >= x.least[across] && x.whole(across, set) {
		try(set)
	}
}
