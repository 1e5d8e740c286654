package pinning

import (
	"slices"

	"fascia/design/part"
	"fascia/design/search"
)

// group starts a group of the signals' members.
func (p *problem) group(signals []int) search.Group {
	g := search.Group{}
	for _, s := range signals {
		g.Members = append(g.Members, p.member[s])
	}
	return g
}

// seatRun lets signals take consecutive GPIOs, from any first pin that has enough behind it. Lines
// that want the same of a pin may be in any order.
func (p *problem) seatRun(signals []int) {
	g, pins := p.group(signals), p.task.pins
	g.AnyOrder = p.task.alike(signals)
	for first := 0; first+len(signals) <= len(pins); first++ {
		last := first + len(signals) - 1
		if pins[last].GPIO-pins[first].GPIO != last-first {
			continue
		}
		o, twice := search.Option{}, false
		for i, s := range signals {
			token := p.slice(s, first+i)
			twice = twice || o.Tokens&token != 0
			o.Slots, o.Tokens = append(o.Slots, first+i), o.Tokens|token
		}
		if !twice {
			g.Options = append(g.Options, o)
		}
	}
	p.Groups = append(p.Groups, g)
}

// seatBus lets signals take pins of one peripheral instance that no other bus uses. Optional lines
// may go without.
func (p *problem) seatBus(signals []int) {
	g, t := p.group(signals), p.task
	var instances []int
	for pin := range t.pins {
		for _, s := range signals {
			if f := t.can[s][pin]; f.ok && !slices.Contains(instances, f.Instance) {
				instances = append(instances, f.Instance)
			}
		}
	}
	slices.Sort(instances)
	base := tokenSPI
	if w := t.signals[signals[0]].Wants; w == part.I2CSDA || w == part.I2CSCL {
		base = tokenI2C
	}
	for _, instance := range instances {
		token := uint64(1) << (base + instance)
		p.choose(&g, signals, instance, search.Option{Tokens: token})
	}
	if without := p.allWithout(g); without != nil {
		g.Options = append(g.Options, search.Option{Slots: without})
	}
	p.Groups = append(p.Groups, g)
}

// choose adds every way to seat the rest of a bus's signals on an instance, given the slots of o. A
// way that uses no pin at all is left to allWithout.
func (p *problem) choose(g *search.Group, signals []int, instance int, o search.Option) {
	i := len(o.Slots)
	if i == len(signals) {
		if slices.ContainsFunc(o.Slots, func(j int) bool { return j < len(p.task.pins) }) {
			g.Options = append(g.Options, search.Option{Slots: slices.Clone(o.Slots), Tokens: o.Tokens})
		}
		return
	}
	for j, cost := range p.Cost[g.Members[i]] {
		if cost == search.Never || slices.Contains(o.Slots, j) || !p.onInstance(signals[i], j, instance) {
			continue
		}
		p.choose(g, signals, instance, search.Option{Slots: append(slices.Clone(o.Slots), j), Tokens: o.Tokens})
	}
}

func (p *problem) onInstance(s, slot, instance int) bool {
	if slot >= len(p.task.pins) {
		return true
	}
	f := p.task.can[s][slot]
	return f.ok && f.Instance == instance
}

// allWithout gives the slots by which every member of g goes without a pin, nil when one must not.
func (p *problem) allWithout(g search.Group) []int {
	var slots []int
	for _, m := range g.Members {
		j := slices.IndexFunc(p.Cost[m][len(p.task.pins):], func(c int) bool { return c != search.Never })
		if j < 0 {
			return nil
		}
		slots = append(slots, len(p.task.pins)+j)
	}
	return slots
}

// seatPWM lets a signal take any pin whose PWM slice no other takes: a slice has one frequency, and
// the same channel on two pins carries one duty.
func (p *problem) seatPWM(s int) {
	g := p.group([]int{s})
	for j, cost := range p.Cost[g.Members[0]] {
		if cost != search.Never {
			g.Options = append(g.Options, search.Option{Slots: []int{j}, Tokens: p.slice(s, j)})
		}
	}
	p.Groups = append(p.Groups, g)
}

// slice is the token that signal s takes on a slot: that of the pin's PWM slice when it is what the
// signal wants.
func (p *problem) slice(s, slot int) uint64 {
	if slot >= len(p.task.pins) || p.task.signals[s].Wants != part.PWM || !p.task.able(s, slot) {
		return 0
	}
	return 1 << (tokenSlice + p.task.can[s][slot].Instance)
}

// alike reports whether a pin that can carry one of the signals can carry any of them, in place of it.
func (t *task) alike(signals []int) bool {
	return !slices.ContainsFunc(signals, func(s int) bool {
		return t.signals[s].Wants != part.DigitalIn && t.signals[s].Wants != part.DigitalOut
	})
}
