package scan

import "slices"

// openWays looks for detours of one chord that no diode stops.
type openWays struct {
	*walk
	diode []bool // by key
	by    []int  // by line, rows first: the place in the chord of the key over which it was reached, or -1
	queue []int
}

func newOpenWays(f *field, fam *family, diode []bool) *openWays {
	return &openWays{walk: newWalk(f, fam), diode: diode, by: make([]int, f.rows+f.shape.columns)}
}

// find returns one open detour, as short as can be, for each row and each column that cross in a key.
// all is false when the budget ran out: then there may be more.
func (o *openWays) find() (paths [][]int, all bool) {
	all = true
	for row, keys := range o.in[rowSide] {
		if len(keys) == 0 {
			continue
		}
		o.spread(row, noKey)
		reached := slices.Clone(o.by)
		for column := range o.shape.columns {
			by := reached[o.rows+column]
			phantom := o.holder[row*o.shape.columns+column]
			if by < 0 || phantom == noKey {
				continue
			}
			copy(o.by, reached)
			if o.fam.keys[by] == phantom { // it may be held itself; is there another way?
				o.spread(row, by)
			}
			path, whole := o.way(row, column, phantom)
			all = all && whole
			if path != nil {
				paths = append(paths, path)
			}
		}
	}
	return paths, all
}

// spread follows the current from a row, breadth first, but not through the chord's key at place
// barred.
func (o *openWays) spread(row, barred int) {
	for l := range o.by {
		o.by[l] = -1
	}
	o.queue = append(o.queue[:0], row)
	for i := 0; i < len(o.queue); i++ {
		from, side, to := o.queue[i], rowSide, columnSide
		if from >= o.rows {
			from, side, to = from-o.rows, columnSide, rowSide
		}
		for _, k := range o.in[side][from] {
			l := o.line[to][k] + to*o.rows
			if k == barred || o.by[l] >= 0 || l == row || to == rowSide && o.diode[o.fam.keys[k]] {
				continue
			}
			o.by[l] = k
			o.queue = append(o.queue, l)
		}
	}
}

// way returns the keys that lead from a row to a column, if they may be held together; else it looks
// for others that may.
func (o *openWays) way(row, column, phantom int) (path []int, whole bool) {
	at := o.rows + column
	if o.by[at] < 0 {
		return nil, true
	}
	var places []int
	for at != row {
		k := o.by[at]
		places = append(places, k)
		if at >= o.rows {
			at = o.line[rowSide][k]
		} else {
			at = o.rows + o.line[columnSide][k]
		}
	}
	if !o.fam.holds(places) {
		return o.dig(row, column, phantom)
	}
	slices.Reverse(places)
	for _, k := range places {
		path = append(path, o.fam.keys[k])
	}
	return path, true
}

// dig tries all ways from a row to a column whose keys may be held together, the shortest first.
func (o *openWays) dig(row, column, phantom int) (path []int, whole bool) {
	d := digging{openWays: o, column: column, phantom: phantom}
	for o.most = 3; o.most <= min(o.fam.most(), 2*min(o.rows, o.shape.columns)-1) && d.found == nil && o.left > 0; o.most += 2 {
		o.passed[rowSide][row] = true
		d.from(row)
		o.passed[rowSide][row] = false
	}
	return d.found, o.left > 0
}

type digging struct {
	*openWays
	column, phantom int
	found           []int
}

// from goes on from a row.
func (d *digging) from(row int) {
	for _, k := range d.in[rowSide][row] {
		j := d.line[columnSide][k]
		if d.found != nil || d.passed[columnSide][j] || d.fam.keys[k] == d.phantom || !d.enter(k) {
			continue
		}
		d.passed[columnSide][j] = true
		if j == d.column {
			d.found = slices.Clone(d.path)
		} else if len(d.path)+2 <= d.most {
			d.backFrom(j)
		}
		d.passed[columnSide][j] = false
		d.leave(k)
	}
}

// backFrom goes on from a column.
func (d *digging) backFrom(column int) {
	for _, k := range d.in[columnSide][column] {
		r := d.line[rowSide][k]
		if d.found != nil || d.passed[rowSide][r] || d.diode[d.fam.keys[k]] || !d.enter(k) {
			continue
		}
		d.passed[rowSide][r] = true
		d.from(r)
		d.passed[rowSide][r] = false
		d.leave(k)
	}
}
