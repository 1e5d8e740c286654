package plan

import (
	"fmt"
	"slices"

	"fascia/design/controller"
	"fascia/design/signal"
)

// A stretch is a run of lines that want consecutive GPIOs, in any order.
type stretch struct {
	name    string
	members []int // signals
}

func runsOf(signals []signal.Signal) (runs []stretch) {
	for s, want := range signals {
		if want.Run == "" {
			continue
		}
		i := slices.IndexFunc(runs, func(r stretch) bool { return r.name == want.Run })
		if i < 0 {
			i = len(runs)
			runs = append(runs, stretch{name: want.Run})
		}
		runs[i].members = append(runs[i].members, s)
	}
	return runs
}

// cramped says which run would find no consecutive pins if signal s were tied to a GPIO; "" when
// all of them find some together.
func (r *reacher) cramped(s, gpio int) string {
	starts := make([][]int, len(r.runs))
	for i, run := range r.runs {
		for _, pin := range r.Module.Pins {
			if r.open(run, pin.GPIO, s, gpio) {
				starts[i] = append(starts[i], pin.GPIO)
			}
		}
		switch n := len(run.members); {
		case len(starts[i]) > 0:
		case slices.Contains(run.members, s):
			return fmt.Sprintf("has no %d consecutive pins about it for the %s", n, run.name)
		default:
			return fmt.Sprintf("would leave no %d consecutive pins for the %s", n, run.name)
		}
	}
	if !r.apart(starts, nil) {
		return "would leave no consecutive pins for all lines of the scan"
	}
	return ""
}

// apart reports whether the runs from the first without a start on can lie clear of those before.
func (r *reacher) apart(starts [][]int, chosen []int) bool {
	i := len(chosen)
	if i == len(starts) {
		return true
	}
	for _, first := range starts[i] {
		last := first + len(r.runs[i].members) - 1
		clear := true
		for j, other := range chosen {
			clear = clear && (last < other || other+len(r.runs[j].members)-1 < first)
		}
		if clear && r.apart(starts, append(chosen[:i:i], first)) {
			return true
		}
	}
	return false
}

// open reports whether a run may lie on the GPIOs from first on, with signal s tied to a GPIO in
// place of where it is tied now: it holds the pin of each of its lines that is tied and no pin that
// is spoken for.
func (r *reacher) open(run stretch, first, s, gpio int) bool {
	last := first + len(run.members) - 1
	if last >= len(r.spots) {
		return false
	}
	for n := first; n <= last; n++ {
		spot := r.spots[n]
		owner := spot.owner
		switch {
		case n == gpio:
			owner = s
		case owner == s:
			owner = nobody
		}
		if !spot.out || spot.barred || owner != nobody && !slices.Contains(run.members, owner) {
			return false
		}
	}
	return !slices.ContainsFunc(run.members, func(m int) bool {
		n, tied := controller.ParseGPIO(r.tied[m])
		if m == s {
			n, tied = gpio, true
		}
		return tied && (n < first || n > last)
	})
}

// A spot is a GPIO as a place for signals.
type spot struct {
	out    bool // the module brings it out
	barred bool // kept free, or used by a join of the maker's
	owner  int  // the signal tied to it, or nobody
}

const nobody = -1

// spotsOf lists the GPIOs by number, as the ties stand.
func (r *reacher) spotsOf() (spots []spot) {
	for _, pin := range r.Module.Pins {
		for len(spots) <= pin.GPIO {
			spots = append(spots, spot{owner: nobody})
		}
		one := &spots[pin.GPIO]
		one.out = true
		one.barred = slices.Contains(r.joined, pin.Name) || slices.Contains(r.Panel.Pins.KeepFree, pin.Name)
		if owner, ok := r.owner[pin.Name]; ok {
			one.owner = owner
		}
	}
	return spots
}
