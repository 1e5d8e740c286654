package bench

import (
	"fmt"
	"slices"
	"strings"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
	"fascia/design/wiring"
)

// The headings of the work, in the order in which it is usually done (common practice, no source):
// a stage starts early when something in it lies under a part of a later one.
const (
	Safety  = "Before you start"
	Prepare = "Prepare the boards"
	Low     = "Lowest parts"
	Keys    = "Keys and controls"
	Tall    = "Taller parts"
	Metal   = "Bridges and bare runs"
	Wires   = "Insulated wires"
	Power   = "Cell and supply connectors"
	Plug    = "After the meter"
)

// stages ranks the headings.
var stages = []string{Safety, Prepare, Low, Keys, Tall, Metal, Wires, Power, Plug}

// Order gives the steps to solder by: lowest parts first, every joint before the part that covers
// it, every wire after the leads it is soldered to. Where the panel makes that impossible, the
// usual order is kept and fit says what is wrong.
func Order(p *panel.Panel, f *fit.Result, s *scan.Result, w *wiring.Result) []Step {
	jobs := partJobs(p, f)
	jobs = append(jobs, wireJobs(w)...)
	require(f, jobs)
	steps := safety(p)
	steps = append(steps, boards(p)...)
	steps = append(steps, cuts(p, w)...)
	steps = append(steps, keyDiodes(s)...)
	for _, j := range inOrder(jobs) {
		steps = append(steps, j.step)
	}
	return append(steps, plugging(p)...)
}

// A job is a step still to be put in order.
type job struct {
	step   Step
	rank   int     // of its stage
	height float64 // of the part; wires keep their place in the list
	after  []int   // jobs that come first
}

func partJobs(p *panel.Panel, f *fit.Result) []*job {
	var jobs []*job
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Definition(pl)
		s := partStep(pl, d, f)
		jobs = append(jobs, &job{step: s, rank: slices.Index(stages, s.Stage), height: height(d)})
	}
	return jobs
}

func height(d part.Definition) float64 {
	h := 0.0
	for _, b := range d.Bodies {
		if !b.Plugged {
			h = max(h, b.Height+b.StandOff)
		}
	}
	return h
}

func stageOf(d part.Definition) string {
	switch d.Kind {
	case part.Resistor, part.Diode:
		return Low
	case part.Switch, part.Selector, part.Encoder, part.Joystick:
		return Keys
	case part.Battery, part.Charger, part.PowerSwitch:
		return Power
	}
	return Tall
}

func partStep(pl *panel.Placed, d part.Definition, f *fit.Result) Step {
	var joints, form []grid.Hole
	for _, l := range f.Leads {
		if l.Ref != pl.Ref {
			continue
		}
		joints = append(joints, l.Hole)
		if l.Residual > 0.40 {
			form = append(form, l.Hole)
		}
	}
	text := fmt.Sprintf("From the %s, %s in %s.", pl.Face, firstLead(d), pl.At)
	if len(form) > 0 {
		text += fmt.Sprintf(" Form the leads for %s first: they miss their holes by up to %.2f mm.", grid.JoinHoles(form), float64(d.WorstResidual()))
	}
	if mark := polarity(pl, d); mark != "" {
		text += " " + mark
	}
	if d.Kind == part.Switch && len(joints) > 2 {
		text += fmt.Sprintf(" Solder one leg on the %s, check that it sits flat and straight, then the rest: %s.", pl.Face.Other(), grid.JoinHoles(joints))
	} else {
		text += fmt.Sprintf(" Solder on the %s: %s.", pl.Face.Other(), grid.JoinHoles(joints))
	}
	title := pl.Ref + ", " + d.Name
	if pl.Value != "" {
		title += ", " + pl.Value
	}
	return Step{
		ID:    fmt.Sprintf("part %s %s %d %s", pl.Ref, pl.At, pl.Turn, pl.Face),
		Stage: stageOf(d), Title: title, Text: text, Caution: partCaution(d),
		Face: pl.Face.Other(), Refs: []string{pl.Ref}, Holes: joints,
	}
}

func firstLead(d part.Definition) string {
	t := d.Terminals[0]
	if t.Pin != "" {
		return "pin " + t.Pin
	}
	return "its end " + t.Name
}

func wireJobs(w *wiring.Result) []*job {
	var jobs []*job
	for i := range w.Wires {
		if wire := &w.Wires[i]; wire.Kind != wiring.Leg {
			s := wireStep(wire)
			jobs = append(jobs, &job{step: s, rank: slices.Index(stages, s.Stage), height: float64(wire.Step)})
		}
	}
	return jobs
}

func wireStep(w *wiring.Wire) Step {
	s := Step{
		ID:   fmt.Sprintf("wire %s %s %s-%s %s", w.Net, w.Kind, w.From, w.To, w.Face),
		Face: w.Face, Holes: w.Path, Wire: w.Step,
	}
	s.Title = fmt.Sprintf("%s: %s to %s", w.Net, w.From, w.To)
	switch {
	case w.Through:
		s.ID = fmt.Sprintf("wire %s through %s", w.Net, w.From)
		s.Stage = Metal
		s.Title = fmt.Sprintf("%s: through %s", w.Net, w.From)
		s.Text = fmt.Sprintf("Push %s wire through %s and solder it on both faces; cut it short. The hole is not plated, so this joins its two rings.", w.Gauge, w.From)
	case w.Kind == wiring.Solder:
		s.Stage = Metal
		s.Text = fmt.Sprintf("On the %s, bridge the neighbouring pads %s and %s with solder.", w.Face, w.From, w.To)
	case w.Kind == wiring.Bare:
		s.Stage = Metal
		s.Text = fmt.Sprintf("On the %s, lay %s wire flat along %s. Cut %.0f mm; solder both ends and tack it every few holes.", w.Face, w.Gauge, route(w.Path), w.CutMM)
	default:
		s.Stage = Wires
		s.Text = fmt.Sprintf("On the %s, %s wire, %s. Cut %.0f mm, strip 4 mm at each end.", w.Face, w.Gauge, colourWord(w.Colour), w.CutMM)
		if w.Round {
			s.Text += fmt.Sprintf(" Lead it round the edge: its end at %s is soldered on the %s. Measure the way round before you cut.", w.To, w.Face.Other())
		}
	}
	return s
}

// route names the ends and corners of a run.
func route(path []grid.Hole) string {
	var corners []string
	for i, h := range path {
		if i == 0 || i == len(path)-1 || path[i+1].Minus(h) != h.Minus(path[i-1]) {
			corners = append(corners, h.String())
		}
	}
	return strings.Join(corners, ", ")
}

// colours of IEC 60757 by their letters.
var colours = map[string]string{"BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow",
	"GN": "green", "BU": "blue", "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "TQ": "turquoise"}

func colourWord(letters string) string {
	if word, ok := colours[letters]; ok {
		return word + " (" + letters + ")"
	}
	return "any colour"
}

// Progress counts the steps that are ticked.
func Progress(steps []Step, ticked map[string]bool) (done, all int) {
	for _, s := range steps {
		if ticked[s.ID] {
			done++
		}
	}
	return done, len(steps)
}

// Names lists the stages that occur, in order of first step, for headings.
func Names(steps []Step) []string {
	var names []string
	for _, s := range steps {
		if !slices.Contains(names, s.Stage) {
			names = append(names, s.Stage)
		}
	}
	return names
}
