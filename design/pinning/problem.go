package pinning

import (
	"slices"

	"fascia/design/search"
)

// A problem is a task, or the part of it that some wishes make, as the search wants it. Slots are
// pins; those after the last pin stand for going without, one for each optional signal.
type problem struct {
	search.Problem
	members []int // the signal of each member, -1 for one that stands for no signal
	task    *task
	closed  []bool      // pins that no signal may take, or only the one locked to it
	member  map[int]int // of each signal
}

// Tokens: instances of I2C, then of SPI, then PWM slices.
const (
	tokenI2C   = 0
	tokenSPI   = 4
	tokenSlice = 8
)

// problem builds the part of the task that the wishes make. It has an answer just when they can all
// hold together.
func (t *task) problem(wishes []wish) *problem {
	p := &problem{task: t, member: map[int]int{}, closed: make([]bool, len(t.pins))}
	p.Slots = len(t.pins)
	copy(p.closed, t.joined)
	locked := make([][]int, len(t.signals)) // pins that active locks ask for
	for _, w := range wishes {
		switch w.kind {
		case wishKept:
			p.closed[w.pin] = true
		case wishLock:
			locked[w.signals[0]] = append(locked[w.signals[0]], w.pin)
		default:
			for _, s := range w.signals {
				p.add(s)
			}
		}
	}
	p.price(owners(locked, len(t.pins)), locked)
	for _, w := range wishes {
		switch w.kind {
		case wishRun:
			p.seatRun(w.signals)
		case wishBus:
			p.seatBus(w.signals)
		case wishPWM:
			p.seatPWM(w.signals[0])
		}
	}
	return p
}

// owners gives the signal that locks give each pin to: -1 for none, -2 when two locks disagree.
func owners(locked [][]int, pins int) []int {
	owner := slices.Repeat([]int{-1}, pins)
	for s, list := range locked {
		for _, pin := range list {
			if owner[pin] != -1 && owner[pin] != s || pin != list[0] {
				owner[pin] = -2
			} else {
				owner[pin] = s
			}
		}
	}
	return owner
}

func (p *problem) add(s int) {
	p.member[s] = len(p.members)
	p.members = append(p.members, s)
	if !p.task.required(s) {
		p.Slots++
	}
}

// price fills in what each member pays for each pin.
func (p *problem) price(owner []int, locked [][]int) {
	t, without := p.task, len(p.task.pins)
	for _, s := range p.members {
		row := make([]int, p.Slots)
		for j := range row {
			row[j] = search.Never
		}
		for pin := range t.pins {
			free := owner[pin] == -1 && len(locked[s]) == 0 || owner[pin] == s
			if free && !p.closed[pin] && t.able(s, pin) {
				row[pin] = t.cost[s][pin]
			}
		}
		if !t.required(s) {
			row[without] = t.weight.leftOut
			without++
		}
		p.Cost = append(p.Cost, row)
	}
	impossible := false
	for pin, o := range owner {
		// Two locks on one pin, or a lock on a pin that is kept, cannot hold whatever else is asked.
		impossible = impossible || o == -2 || o >= 0 && p.closed[pin]
		p.closed[pin] = p.closed[pin] || o != -1
	}
	if impossible {
		p.Cost = append(p.Cost, never(p.Slots))
		p.members = append(p.members, -1)
	}
}

func never(n int) []int {
	row := make([]int, n)
	for j := range row {
		row[j] = search.Never
	}
	return row
}

// holes splits the distance off an answer's cost: what it is, and the least of any assignment that
// gives up as little of the wishes above it.
func (p *problem) holes(a search.Answer) (cost, bound float64) {
	unit := p.task.weight.hole
	above := a.Cost / p.task.weight.above * p.task.weight.above
	cost = float64((a.Cost - above) / unit)
	if a.Bound > above {
		// What is left beyond whole holes is the bound of the levels below, not of the distance.
		bound = float64((a.Bound - above) / unit)
	}
	return cost, min(bound, cost)
}

// reserve adds two members that take the lines of an I2C instance which no bus uses.
func (p *problem) reserve() {
	g := search.Group{Members: []int{len(p.members), len(p.members) + 1}}
	at := make([]int, 0, len(p.task.signals))
	for pin, used := range p.closed {
		if used {
			at = append(at, pin)
		}
	}
	for instance := range instances {
		data, clock := p.task.freeLines(instance, at)
		for _, d := range data {
			for _, c := range clock {
				g.Options = append(g.Options, search.Option{Slots: []int{d, c}, Tokens: 1 << (tokenI2C + instance)})
			}
		}
	}
	p.Groups = append(p.Groups, g)
	p.Cost = append(p.Cost, make([]int, p.Slots), make([]int, p.Slots))
	p.members = append(p.members, -1, -1)
}

// seatReserve adds the slots of the members that reserve added, on pins that no signal has.
func (p *problem) seatReserve(slot []int) []int {
	at := p.at(slot)
	data, clock := p.task.freeLines(p.task.freeBus(at), at)
	return append(slices.Clone(slot), data[0], clock[0])
}

// at gives the pin of each signal, -1 for none.
func (p *problem) at(slot []int) []int {
	at := slices.Repeat([]int{-1}, len(p.task.signals))
	for member, s := range p.members[:len(slot)] {
		if s >= 0 && slot[member] < len(p.task.pins) {
			at[s] = slot[member]
		}
	}
	return at
}
