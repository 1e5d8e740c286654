package scan

import (
	"cmp"
	"slices"
)

// Exchanges tried for each key on lines, and at most: by the draft, which also says how many lines
// there are, and by each run that improves it.
const (
	lineDraftMoves, lineDraftMost = 150, 6000
	lineFinalMoves, lineFinalMost = 2000, 60000
)

// lineRuns is how many runs improve a draft of n keys: few keys with many chords gain from more.
func lineRuns(n int) int { return max(2, min(6, 120/n)) }

// lineStarts are the temperatures that the runs of an improvement cool from in turn, in holes, by
// trial on scattered keys: few keys gain from heat, many lose by it.
var lineStarts = [...]float64{mild, 8, 16}

// spareLines is how many lines more than the fewest may be spent on keeping chords apart.
const spareLines = 2

// A lineDraft is how the keys would be read by lines with diodes.
type lineDraft struct {
	*lineTask
	pool   []int // keys on lines, as indices into the planner's
	direct []int // keys with pins of their own beside them
	stuck  []int // keys that can have neither
	lines  int
	pair   []int // by key of the pool
	length int
	doubts int
	exact  bool // all arrangements were tried
}

// draftLines shares the keys out among lines and pins. A diode sits at the column side of each key,
// so keys that share a terminal there get pins of their own.
func (pl *planner) draftLines() *lineDraft {
	d := &lineDraft{}
	at := make([]int, len(pl.keys))
	var keys []key
	for i, k := range pl.keys {
		at[i] = noKey
		switch {
		case k.own == wanted || k.own == byNature:
			d.direct = append(d.direct, i)
		case k.line[columnSide] < 0:
			at[i] = len(keys)
			d.pool, keys = append(d.pool, i), append(keys, k)
		case k.own == never:
			d.stuck = append(d.stuck, i)
		default:
			d.direct = append(d.direct, i)
		}
	}
	if len(keys) == 0 {
		return d
	}
	d.lineTask = newLineTask(keys, familiesOf(pairsUp(pl.declared, at)))
	d.settle(pl.free - len(d.direct))
	return d
}

// pairsUp gives the chords as keys on lines alone, two or more of them. at maps a key to its index
// or noKey.
func pairsUp(chords []chord, at []int) []chord { return restrict(chords, at, 2) }

// settle chooses the number of lines: the fewest, or one or two more that fit in room if that keeps
// more chords apart.
func (d *lineDraft) settle(room int) {
	least := linesFor(len(d.keys))
	for {
		if _, ok := d.place(least); ok {
			break
		}
		least++
	}
	for n := least; n <= least+spareLines && (n == least || n <= room); n++ {
		pair, _ := d.place(n)
		u := d.lineUp(n, pair)
		exact := u.exhaust()
		if !exact {
			u.anneal(d.moves(lineDraftMoves, lineDraftMost), mild, 1)
		}
		if d.pair == nil || u.allDoubts() < d.doubts {
			d.take(u)
			d.exact = exact
		}
		if d.doubts == 0 {
			return
		}
	}
}

func (d *lineDraft) take(u *lineup) {
	d.lines, d.pair, d.length, d.doubts = u.lines, slices.Clone(u.pair), int(u.total), u.allDoubts()
}

// allDoubts counts the possible ghosts of all chords, those behind three held keys and more as well.
func (u *lineup) allDoubts() int {
	n := 0
	for c := range u.chords {
		list, _ := explainDoubts(&u.chords[c], u.pair, u.holder, u.lines, chainBudget/len(u.chords))
		n += len(list)
	}
	return n
}

// moves is how many exchanges a run tries: fewer when each has many chords to look at.
func (d *lineDraft) moves(perKey, most int) int {
	load := 0
	for _, c := range d.chords {
		load += len(c.keys) * len(c.keys)
	}
	n := len(d.keys)
	return min(perKey*n, most) * 16 / (16 + load/n)
}

// improve looks longer at the lines that the draft chose.
func (d *lineDraft) improve() {
	if d.exact {
		return
	}
	for run := range lineRuns(len(d.keys)) {
		u := d.lineUp(d.lines, d.pair)
		u.anneal(d.moves(lineFinalMoves, lineFinalMost), lineStarts[run%len(lineStarts)], uint64(run+2))
		u.polish()
		if doubts := u.allDoubts(); doubts < d.doubts || doubts == d.doubts && int(u.total) < d.length {
			d.take(u)
		}
	}
}

// exhaustUpTo is the most lines for which every arrangement is tried: six keys on three.
const exhaustUpTo = 3

// exhaust leaves u at the best of all arrangements, fewest possible ghosts first, then least wire;
// false when there are too many lines. All pairs are alike before the first key has one, so that key
// stays where it is.
func (u *lineup) exhaust() bool {
	if u.lines > exhaustUpTo {
		return false
	}
	best := u.lineUp(u.lines, u.pair)
	pair, taken := slices.Clone(u.pair), make([]bool, len(u.holder))
	taken[pair[0]] = true
	var deal func(k int)
	deal = func(k int) {
		if k == len(pair) {
			if v := u.lineUp(u.lines, pair); v.doubts < best.doubts || v.doubts == best.doubts && v.total < best.total {
				best = v
			}
			return
		}
		for p := range taken {
			if taken[p] || u.holder[p] == barred || !u.keeps(k, p, pair) {
				continue
			}
			pair[k], taken[p] = p, true
			deal(k + 1)
			taken[p] = false
		}
	}
	deal(1)
	*u = *best
	return true
}

// keeps reports whether key k at pair p is read by the same line as the earlier keys of its group.
func (u *lineup) keeps(k, p int, pair []int) bool {
	for earlier := range k {
		if u.group[k] >= 0 && u.group[earlier] == u.group[k] && pair[earlier]/u.lines != p/u.lines {
			return false
		}
	}
	return true
}

// renumber counts lines from the top of the board, by the average place of the keys that they touch.
func (d *lineDraft) renumber() {
	x, y, n := make([]int, d.lines), make([]int, d.lines), make([]int, d.lines)
	for k, p := range d.pair {
		for _, l := range [2]int{p / d.lines, p % d.lines} {
			x[l], y[l], n[l] = x[l]+d.keys[k].x, y[l]+d.keys[k].y, n[l]+1
		}
	}
	order := make([]int, d.lines)
	for l := range order {
		order[l] = l
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(y[a]*n[b], y[b]*n[a]), cmp.Compare(x[a]*n[b], x[b]*n[a]))
	})
	to := make([]int, d.lines)
	for place, l := range order {
		to[l] = place
	}
	for k, p := range d.pair {
		d.pair[k] = to[p/d.lines]*d.lines + to[p%d.lines]
	}
}
