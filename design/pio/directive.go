package pio

import (
	"math"
	"strconv"
)

// directive reads a line that makes no word. Those of the first four are 3.3.2, the others 11.3.2
// (from memory); the latter are taken for version 0 as well where its registers can do it.
func (p *parser) directive() {
	t := p.next()
	switch t.word {
	case ".origin":
		p.draft.program.Origin = p.number(0, Memory-1, "The origin")
	case ".side_set":
		p.sideSet(t)
	case ".wrap_target":
		p.once(t, &p.draft.targeted)
		p.draft.program.WrapTarget = p.here
	case ".wrap":
		p.once(t, &p.draft.wrapped)
		if p.here == 0 {
			p.fail(t, "Move it after the last instruction of the loop.", "No instruction stands before .wrap.")
		}
		p.draft.program.Wrap = max(p.here-1, 0)
	case ".lang_opt": // for the maker of another language's file
		p.at = len(p.tokens)
	case ".clock_div":
		p.draft.program.asked.Divider = p.divider()
	case ".fifo":
		p.join()
	case ".mov_status":
		p.movStatus()
	case ".in":
		p.inPins()
	case ".out":
		c := &p.draft.program.asked
		c.OutCount = p.number(0, 32, "The number of pins")
		c.OutShift, c.AutoPull, c.PullAt = p.shifting()
	case ".set":
		p.draft.program.asked.SetCount = p.number(0, 5, "The number of pins")
	}
}

// once complains about a second directive of a kind; line remembers the first.
func (p *parser) once(t token, line *int) {
	if *line > 0 {
		p.fail(t, "Keep one.", "Line %d already has %s.", *line, t.word)
	}
	*line = p.line
}

// sideSet reads ".side_set count (opt) (pindirs)".
func (p *parser) sideSet(t token) {
	p.once(t, &p.draft.sided)
	if p.here > 0 {
		p.fail(t, "Move it up.", "The side-set must stand before the first instruction.")
	}
	first := p.peek()
	s := SideSet{Pins: p.value()}
	_, s.Optional = p.oneOf("opt", "optional")
	s.Directions = p.accept("pindirs")
	high := 5
	if s.Optional {
		high = 4
	}
	s.Pins = p.within(first, s.Pins, 0, high, "The number of side-set pins")
	if p.fault == nil {
		p.draft.program.Side = s
	}
}

// inPins reads ".in count (left | right) (auto | manual) (threshold)". The count masks inputs in
// version 1 only.
func (p *parser) inPins() {
	c := &p.draft.program.asked
	t := p.peek()
	count := p.number(0, 32, "The number of pins")
	if count != 32 {
		p.needs(RP2350, t, "Reading fewer than 32 pins")
	}
	if count > 0 {
		c.InCount = count
	}
	c.InShift, c.AutoPush, c.PushAt = p.shifting()
}

// shifting reads "(left | right) (auto | manual) (threshold)".
func (p *parser) shifting() (way Shift, auto bool, at int) {
	way, at = Right, 32
	if word, _ := p.oneOf("left", "right"); word == "left" {
		way = Left
	}
	word, _ := p.oneOf("auto", "manual")
	if p.peek().kind != tokenEnd {
		at = p.number(1, 32, "The threshold")
	}
	return way, word == "auto", at
}

// joins are the words after .fifo, and the version that has them.
var joins = []struct {
	word string
	join Join
	v    Version
}{
	{"txrx", JoinNone, RP2040}, {"tx", JoinTX, RP2040}, {"rx", JoinRX, RP2040},
	{"txput", JoinPut, RP2350}, {"txget", JoinGet, RP2350}, {"putget", JoinPutGet, RP2350},
}

func (p *parser) join() {
	t := p.peek()
	for _, one := range joins {
		if p.accept(one.word) {
			p.needs(one.v, t, ".fifo "+one.word)
			p.draft.program.asked.Join = one.join
			return
		}
	}
	p.failHere("Write txrx, tx, rx, txput, txget or putget.", "how the queues are joined")
}

// movStatus reads "txfifo < n", "rxfifo < n" or "irq (prev | next) set n".
func (p *parser) movStatus() {
	c := &p.draft.program.asked
	t := p.peek()
	source, _ := p.oneOf("txfifo", "rxfifo", "irq")
	switch source {
	case "txfifo", "rxfifo":
		p.expect("<", "Write "+source+" < 1.")
		c.Status, c.StatusLevel = StatusTX, p.number(0, 15, "The level")
		if source == "rxfifo" {
			c.Status = StatusRX
		}
	case "irq":
		p.needs(RP2350, t, "mov status of a flag")
		mode := p.neighbour()
		p.expect("set", "Write irq set and the flag.")
		c.Status, c.StatusLevel = StatusFlag, p.number(0, 7, "The flag")
		c.StatusLevel |= map[int]int{previousFlags: 0x08, nextFlags: 0x10}[mode]
	default:
		p.failHere("Write txfifo < 1, rxfifo < 1 or irq set 0.", "what the status is of")
	}
}

// divider reads a whole or broken number of cycles; the break is rounded to the nearest 1/256.
func (p *parser) divider() Divider {
	t := p.next()
	if t.kind != tokenNumber && t.kind != tokenFraction {
		p.at--
		p.failHere("Write a number, as in .clock_div 2.5.", "a divider")
		return Divider{Whole: 1}
	}
	f, err := strconv.ParseFloat(t.text, 64)
	if t.kind == tokenNumber {
		f, err = float64(t.value), nil
	}
	d := math.Round(f * 256)
	if err != nil || !(d >= 256 && d <= 65536*256) {
		p.fail(t, "Write 1 to 65536.", "The divider is %s, which does not fit.", t.text)
		return Divider{Whole: 1}
	}
	return Divider{Whole: int(d) / 256, Frac: int(d) % 256}
}
