package pinning

import "slices"

// openPins counts the pins that are open to each signal but one: where it could do its work, its run
// and its bus with it, whatever the others do.
func (t *task) openPins(except int) (n int) {
	open := t.alone()
	for _, run := range t.runs {
		t.closeRun(open, run)
	}
	for _, bus := range t.buses {
		t.closeBus(open, bus)
	}
	for s := range open {
		for _, is := range open[s] {
			if is && s != except {
				n++
			}
		}
	}
	return n
}

// alone tells which pins each signal could have if it were the only one.
func (t *task) alone() [][]bool {
	owned := slices.Repeat([]int{-1}, len(t.pins))
	for _, l := range t.locks {
		owned[l.pin] = l.signal
	}
	open := make([][]bool, len(t.signals))
	for s := range open {
		open[s] = make([]bool, len(t.pins))
		for pin := range t.pins {
			mine := t.lock[s] == pin || t.lock[s] < 0 && owned[pin] < 0
			open[s][pin] = mine && t.able(s, pin) && !t.kept[pin] && !t.joined[pin]
		}
	}
	return open
}

// closeRun closes pins to the lines of a run that lie in no stretch of free pins which is long enough
// and holds those that lines are locked to.
func (t *task) closeRun(open [][]bool, run []int) {
	reach := make([]bool, len(t.pins))
	for first := 0; first+len(run) <= len(t.pins); first++ {
		last := first + len(run) - 1
		if t.pins[last].GPIO-t.pins[first].GPIO != len(run)-1 || !t.seatable(open, run, first, last) {
			continue
		}
		for pin := first; pin <= last; pin++ {
			reach[pin] = true
		}
	}
	for _, s := range run {
		for pin := range open[s] {
			open[s][pin] = open[s][pin] && reach[pin]
		}
	}
}

// seatable reports whether each pin of a stretch is open to a line of the run, and each line has one.
func (t *task) seatable(open [][]bool, run []int, first, last int) bool {
	for pin := first; pin <= last; pin++ {
		if !slices.ContainsFunc(run, func(s int) bool { return open[s][pin] }) {
			return false
		}
	}
	return !slices.ContainsFunc(run, func(s int) bool { return !slices.Contains(open[s][first:last+1], true) })
}

// closeBus closes pins to the lines of a bus on an instance where another line of it has none.
func (t *task) closeBus(open [][]bool, bus []int) {
	var whole [instances]bool
	for instance := range whole {
		whole[instance] = !slices.ContainsFunc(bus, func(s int) bool {
			return t.required(s) && !t.opens(open, s, instance)
		})
	}
	for _, s := range bus {
		for pin := range open[s] {
			open[s][pin] = open[s][pin] && whole[t.can[s][pin].Instance]
		}
	}
}

// opens reports whether a pin of an instance is open to signal s.
func (t *task) opens(open [][]bool, s, instance int) bool {
	for pin, is := range open[s] {
		if is && t.can[s][pin].Instance == instance {
			return true
		}
	}
	return false
}

// closedBy counts the pins that a wish to spare something closes: those open to signals that would
// take something from it. An I2C bus closes no pin by itself.
func (t *task) closedBy(name string) (n int) {
	what := spare(slices.Index(spareNames[:], name))
	for s, row := range t.alone() {
		for pin, is := range row {
			if is && t.lock[s] < 0 && t.spoils(what, s, pin) {
				n++
			}
		}
	}
	return n
}
