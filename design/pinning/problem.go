package pinning

import (
	"fascia/design/part"
	"fascia/design/search"
)

// The weights of the soft wishes, each above all that those below it can add up to: 64 signals at
// most, 2000 holes each, GPIO numbers below 64 times a place of at most 64, under 16 analogue pins.
const (
	weightHole     = 1 << 18
	weightAnalogue = weightHole << 17
	weightSerial   = weightAnalogue << 4
	weightLeftOut  = weightSerial << 2
)

// A problem is a task, or the part of it that some wishes make, as the search wants it. Slots are
// pins; those after the last pin stand for going without, one for each optional signal.
type problem struct {
	search.Problem
	members []int // the signal of each member
	task    *task
	blocked []bool      // pins that no member may take
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
	p := &problem{task: t, member: map[int]int{}, blocked: make([]bool, len(t.pins))}
	p.Slots = len(t.pins)
	copy(p.blocked, t.joined)
	locked := make([][]int, len(t.signals)) // pins that active locks ask for
	for _, w := range wishes {
		switch w.kind {
		case wishKept:
			p.blocked[w.pin] = true
		case wishLock:
			locked[w.signals[0]] = append(locked[w.signals[0]], w.pin)
		default:
			for _, s := range w.signals {
				p.add(s)
			}
		}
	}
	owner := make([]int, len(t.pins)) // signal that a lock gives the pin to, -1 for none, -2 for several
	for i := range owner {
		owner[i] = -1
	}
	for s, pins := range locked {
		for _, pin := range pins {
			if owner[pin] != -1 && owner[pin] != s || pin != pins[0] {
				owner[pin] = -2
			} else {
				owner[pin] = s
			}
		}
	}
	p.price(owner, locked)
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
			if free && !p.blocked[pin] && t.able(s, pin) {
				row[pin] = t.price(s, pin)
			}
		}
		if !t.required(s) {
			row[without] = weightLeftOut
			without++
		}
		p.Cost = append(p.Cost, row)
	}
	for pin, o := range owner {
		// Two locks on one pin, or a lock on a pin that is kept, cannot hold whatever else is asked.
		if o == -2 || o >= 0 && p.blocked[pin] {
			p.Cost = append(p.Cost, never(p.Slots))
			p.members = append(p.members, -1)
			return
		}
	}
}

func never(n int) []int {
	row := make([]int, n)
	for j := range row {
		row[j] = search.Never
	}
	return row
}

// price is what signal s pays for a pin.
func (t *task) price(s, pin int) int {
	place := max(1, search.MaxSlots-s) // higher for earlier signals
	c := weightHole*t.steps[s][pin] + place*t.pins[pin].GPIO
	if t.serial(pin) {
		c += weightSerial
	}
	if t.signals[s].Wants != part.ADC && t.analogue(pin) {
		c += weightAnalogue
	}
	return c
}

// holes splits the distance off an answer's cost: what it is, and the least of any assignment that
// gives up as little of the wishes above it.
func (p *problem) holes(a search.Answer) (cost, bound float64) {
	above := a.Cost / weightAnalogue * weightAnalogue
	cost = float64((a.Cost - above) / weightHole)
	if a.Bound > above {
		// What is left beyond whole holes is the bound of the numbers, not of the distance.
		bound = float64((a.Bound - above) / weightHole)
	}
	return cost, min(bound, cost)
}
