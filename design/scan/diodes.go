package scan

import "slices"

// diodeBudget bounds the search for the fewest diodes of one arrangement, in keys passed while chords
// with choices are looked through.
const diodeBudget = 200000

// diodes returns the fewest keys that need a diode so that no part of any chord has a ghost, in key
// order, and whether they are proved the fewest. In a matrix without empty cells these are exactly
// the elbows. Else each detour must meet a diode against its current: it is a smallest set that hits
// all detours' backward keys, of which only those are made out that the diodes so far leave open.
func (f *field) diodes(families []*family) (list []int, proved bool) {
	if f.full() {
		return f.elbows(families), true
	}
	c := curing{field: f, has: make([]bool, len(f.cell)), must: make([]bool, len(f.cell)), proved: true, left: diodeBudget}
	for _, fam := range families {
		if len(fam.keys) >= 3 {
			c.families = append(c.families, fam)
		}
	}
	for c.more() {
		c.choose()
	}
	for k, has := range c.has {
		if has {
			list = append(list, k)
		}
	}
	return list, c.proved
}

// curing is the search for the fewest diodes of one arrangement.
type curing struct {
	*field
	families []*family
	has      []bool // keys that have a diode so far
	must     []bool // keys that need one in any case
	sets     [][]int
	proved   bool
	left     int
}

// more adds the detours that are still open, one for each row and column of each chord, and reports
// whether there were any.
func (c *curing) more() bool {
	before := len(c.sets)
	again := false
	for _, fam := range c.families {
		o := newOpenWays(c.field, fam, c.has)
		o.left = c.left
		found, all := o.find()
		c.left = o.left
		if !all {
			c.giveUp(fam)
		}
		for _, path := range found {
			set := detour{path: path}.backward()
			slices.Sort(set)
			again = true
			if len(set) == 1 {
				c.must[set[0]] = true
			} else if !slices.ContainsFunc(c.sets[before:], func(s []int) bool { return slices.Equal(s, set) }) {
				c.sets = append(c.sets, set)
			}
		}
	}
	return again
}

// giveUp sets a diode at every elbow of a chord that can't be looked through: always enough, but
// perhaps not the fewest.
func (c *curing) giveUp(fam *family) {
	for _, k := range c.elbows([]*family{fam}) {
		c.must[k], c.has[k] = true, true
	}
	c.proved = false
}

// choose sets the fewest diodes against all detours known.
func (c *curing) choose() {
	c.sets = slices.DeleteFunc(c.sets, func(set []int) bool {
		return slices.ContainsFunc(set, func(k int) bool { return c.must[k] })
	})
	chosen, all := hit(slices.Clone(c.sets))
	c.proved = c.proved && all
	copy(c.has, c.must)
	for _, k := range chosen {
		c.has[k] = true
	}
}
