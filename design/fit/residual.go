package fit

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/grid"
)

// A residualClass is what has to be done for a lead that misses its hole by up to Most. The bounds
// are computed, and common practice without a source, as the handbook of parts prints them.
type residualClass struct {
	most     grid.Millimetre
	code     string // "" for leads that drop in
	severity finding.Severity
	says     string
	fix      string
}

var residualClasses = []residualClass{
	{0.15, "", finding.Note, "", ""},
	{0.40, "fit-lead-bend", finding.Note, "must bend slightly", "Bend the leads a little while placing; nothing else is needed."},
	{0.80, "fit-lead-form", finding.Note, "must be formed", "Form the leads to the holes with pliers before placing; it is a step of the build list."},
	{1000, "fit-lead-drill", finding.Mind, "do not reach their holes", "Drill new holes where the leads are, or choose a part that suits the holes."},
}

func classOf(residual grid.Millimetre) *residualClass {
	for i := range residualClasses {
		if residual <= residualClasses[i].most+1e-6 {
			return &residualClasses[i]
		}
	}
	return &residualClasses[len(residualClasses)-1]
}

// A batch is parts of one definition with the same thing to be said of them.
type batch struct {
	part  string
	code  string
	refs  []string
	worst grid.Millimetre
}

// gather adds a part to the batch it belongs to, or begins a new one.
func gather(batches []batch, sp *spot, code string, worst grid.Millimetre) []batch {
	for i := range batches {
		if b := &batches[i]; b.part == sp.placed.Part && b.code == code {
			b.refs, b.worst = append(b.refs, sp.placed.Ref), max(b.worst, worst)
			return batches
		}
	}
	return append(batches, batch{sp.placed.Part, code, []string{sp.placed.Ref}, worst})
}

// residuals says once for each kind of part how its leads must be made to fit. A lead for which the
// definition has a drill of its own is left to that.
func (s *scene) residuals() {
	var batches []batch
	for i := range s.spots {
		worst := s.spots[i].worstResidual()
		if class := classOf(worst); class.code != "" {
			batches = gather(batches, &s.spots[i], class.code, worst)
		}
	}
	for _, b := range batches {
		class := classOf(b.worst)
		s.say(class.severity, class.code, finding.Where{Refs: b.refs},
			fmt.Sprintf("The leads of %s (%s) %s: they miss their holes by up to %.2f mm.",
				finding.Names(b.refs), s.panel.Parts[b.part].Name, class.says, b.worst), class.fix)
	}
}

func (sp *spot) worstResidual() grid.Millimetre {
	var worst grid.Millimetre
	for i, l := range sp.leads {
		if l.Board != "" && !sp.drilledFor(i) {
			worst = max(worst, l.Residual)
		}
	}
	return worst
}

// drilledFor reports whether the definition has a drill where the terminal's lead comes down.
func (sp *spot) drilledFor(i int) bool {
	at := sp.def.Terminals[i].Point()
	for _, h := range sp.def.Drills {
		if at.Distance(grid.Point{X: grid.Millimetre(h.MM[0]), Y: grid.Millimetre(h.MM[1])}) <= grid.Millimetre(h.Diameter)/2 {
			return true
		}
	}
	return false
}

// holeDiameter is what a lead must pass: 1.0 drilled (proto-board maker's documentation).
const holeDiameter = 2 * holeRadius

// thickLeads says once for each kind of part when its leads are thicker than the holes.
func (s *scene) thickLeads() {
	var batches []batch
	for i := range s.spots {
		sp := &s.spots[i]
		var most grid.Millimetre
		for j, l := range sp.leads {
			if l.Board != "" && !sp.drilledFor(j) {
				most = max(most, l.Thick)
			}
		}
		if most > holeDiameter+1e-6 {
			batches = gather(batches, sp, "fit-lead-thick", most)
		}
	}
	for _, b := range batches {
		s.say(finding.Mind, b.code, finding.Where{Refs: b.refs},
			fmt.Sprintf("The leads of %s (%s) are %.2f mm thick; the holes are %.1f mm.",
				finding.Names(b.refs), s.panel.Parts[b.part].Name, b.worst, holeDiameter),
			fmt.Sprintf("Open those holes to %.1f mm, or cut the leads narrower. An opened hole has lost its plating: solder it on the face with the wires.", b.worst+0.1))
	}
}
