package plan

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/controller"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/signal"
)

// A Reach says which pins one signal could be tied to as the other ties stand, and what bars it from
// the rest. What is only in the way, such as a signal that nobody tied, does not count: the plan
// moves it.
type Reach struct {
	Signal string   // its id
	Net    string   // its name
	Ties   []string // the names under which the maker tied it
	GPIO   string   // the pin it has; "" for none
	Able   []string // GPIOs it could be tied to, in order of number
	Bars   []Bar    // why not to the others, one for each reason
}

// A Bar is a reason, in words that go on from "GP4", and the GPIOs that it holds for.
type Bar struct {
	Why   string
	GPIOs []string
}

// Reach lists the reach of every signal that wants a pin, in order of the signals; nil without a
// module.
func (pl *Plan) Reach() []Reach {
	if pl.Module == nil {
		return nil
	}
	r := newReacher(pl)
	list := make([]Reach, len(r.signals))
	for s, want := range r.signals {
		one := Reach{Signal: want.ID, Net: want.Net, Ties: r.names[s]}
		if i := slices.IndexFunc(pl.Pins.Pins, func(p pinning.Pin) bool { return p.Signal == want.ID }); i >= 0 {
			one.GPIO = pl.Pins.Pins[i].GPIO
		}
		for _, pin := range pl.Module.Pins {
			one.note(pin.Name, r.bar(s, pin))
		}
		list[s] = one
	}
	return list
}

// note files a pin under what bars it.
func (r *Reach) note(gpio, why string) {
	if why == "" {
		r.Able = append(r.Able, gpio)
		return
	}
	i := slices.IndexFunc(r.Bars, func(b Bar) bool { return b.Why == why })
	if i < 0 {
		i = len(r.Bars)
		r.Bars = append(r.Bars, Bar{Why: why})
	}
	r.Bars[i].GPIOs = append(r.Bars[i].GPIOs, gpio)
}

// A reacher holds what was looked up once for all signals.
type reacher struct {
	*Plan
	signals []signal.Signal
	runs    []stretch
	joined  []string       // GPIOs that the maker's joins use
	names   [][]string     // of each signal, the names it is tied under
	tied    []string       // of each signal, the GPIO it is tied to; "" for none
	owner   map[string]int // of each GPIO, the signal tied to it
	spots   []spot         // by number
}

func newReacher(pl *Plan) *reacher {
	r := &reacher{Plan: pl, signals: pinning.Signals(pl.Panel, &pl.Scan), owner: map[string]int{}}
	r.runs = runsOf(r.signals)
	r.joined = signal.JoinedGPIOs(pl.Panel, pl.Pins.Module)
	r.names, r.tied = make([][]string, len(r.signals)), make([]string, len(r.signals))
	for s, want := range r.signals {
		r.readTies(s, want)
	}
	r.spots = r.spotsOf()
	return r
}

// readTies finds the names under which a signal is tied.
func (r *reacher) readTies(s int, want signal.Signal) {
	names := []string{want.ID}
	for _, t := range want.Terminals {
		if t.String() != want.ID {
			names = append(names, t.String())
		}
	}
	for _, name := range names {
		gpio, ok := r.Panel.Pins.Locked[name]
		if !ok {
			continue
		}
		r.names[s] = append(r.names[s], name)
		if r.tied[s] == "" {
			r.tied[s], r.owner[gpio] = gpio, s
		}
	}
}

// bar says what keeps signal s from a pin; "" for nothing.
func (r *reacher) bar(s int, pin controller.Pin) string {
	want := r.signals[s]
	f, can := r.Module.Chip.Can(pin.GPIO, want.Wants)
	other, taken := r.owner[pin.Name]
	switch {
	case !can:
		return cannot(want.Wants)
	case slices.Contains(r.joined, pin.Name):
		return "is used by a connection of your own"
	case slices.Contains(r.Panel.Pins.KeepFree, pin.Name):
		return "is kept free by you"
	case taken && other != s:
		return fmt.Sprintf("has %s tied to it by you", r.signals[other].Net)
	}
	if why := r.company(s, f); why != "" {
		return why
	}
	return r.cramped(s, pin.GPIO)
}

// cannot says what a pin lacks.
func cannot(s part.Signal) string {
	switch s {
	case part.ADC:
		return "has no analogue input"
	case part.PWM:
		return "has no PWM output"
	}
	return "cannot be " + string(s)
}

// company says which tied signal would have to share a peripheral with s, or would be parted from
// it, if s had the function f.
func (r *reacher) company(s int, f controller.Function) string {
	want := r.signals[s]
	for o, other := range r.signals {
		if o == s || r.tied[o] == "" {
			continue
		}
		g, ok := r.Module.Can(r.tied[o], other.Wants)
		if !ok {
			continue
		}
		kind, _, _ := strings.Cut(string(want.Wants), " ")
		instanceOf := fmt.Sprintf("%s%d", kind, g.Instance)
		switch {
		case want.Wants == part.PWM && other.Wants == part.PWM && f.Instance == g.Instance:
			return fmt.Sprintf("shares its PWM slice with %s, which is tied by you", other.Net)
		case want.Run+other.Run != "" || want.Bus == "" || !busLine(want.Wants):
		case other.Bus == want.Bus && f.Instance != g.Instance:
			return fmt.Sprintf("is not of %s, to which %s is tied by you", instanceOf, other.Net)
		case other.Bus != want.Bus && strings.HasPrefix(string(other.Wants), kind+" ") && busLine(other.Wants) && f.Instance == g.Instance:
			return fmt.Sprintf("is of %s, to which %s is tied by you", instanceOf, other.Net)
		}
	}
	return ""
}

// busLine reports whether a signal is a line of a peripheral that has instances to choose from.
func busLine(s part.Signal) bool {
	return slices.Contains([]part.Signal{part.I2CSDA, part.I2CSCL, part.SPISCK, part.SPITX, part.SPIRX}, s)
}
