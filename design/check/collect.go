package check

import (
	"slices"
	"strings"

	"fascia/design/finding"
)

// Collect returns what the stages and the rules have to say, worst first, each thing once: what a
// stage has said of a place, the rule that looks for the same does not say again.
func Collect(c *Case) []finding.Finding {
	all := withoutRepeats(stageFindings(c))
	staged := len(all)
	v := viewOf(c)
	for _, r := range Rules() {
		for _, f := range r.apply(v) {
			if !slices.ContainsFunc(all[:staged], func(said finding.Finding) bool { return r.isSaidBy(said, f) }) {
				all = append(all, f)
			}
		}
	}
	finding.Sort(all)
	return slices.CompactFunc(all, func(a, b finding.Finding) bool {
		return a.Code == b.Code && a.Text == b.Text && a.Where.String() == b.Where.String()
	})
}

// stageFindings gathers the findings of the stages that have run.
func stageFindings(c *Case) []finding.Finding {
	var all []finding.Finding
	if c.Fit != nil {
		all = append(all, c.Fit.Findings...)
	}
	if c.Scan != nil {
		all = append(all, c.Scan.Findings...)
	}
	if c.Pins != nil {
		all = append(all, c.Pins.Findings...)
	}
	if c.Nets != nil {
		all = append(all, c.Nets.Findings...)
	}
	if c.Wiring != nil {
		all = append(all, c.Wiring.Findings...)
	}
	return all
}

// A repeat is what a later stage says of a thing that an earlier one has said already.
type repeat struct {
	code, said string
	anywhere   bool // the earlier one speaks of the whole panel, whatever it points at
}

var repeats = []repeat{
	{code: "wire-off-board", said: "fit-off-board"},
	{code: "wire-copper-short", said: "fit-hole-shared"},
	{code: "net-short", said: "scan-closed"},
	{code: "net-lonely", said: "net-lamp-unwired"},
	{code: "net-lonely", said: "scan-lamp-alone"},
	{code: "net-lonely", said: "scan-lamp-missing"},
	{code: "net-lonely", said: "scan-lamp-many"},
	{code: "net-no-source", said: "pin-no-module", anywhere: true},
}

func withoutRepeats(all []finding.Finding) []finding.Finding {
	return slices.DeleteFunc(slices.Clone(all), func(f finding.Finding) bool {
		return slices.ContainsFunc(repeats, func(r repeat) bool {
			return r.code == f.Code && slices.ContainsFunc(all, func(said finding.Finding) bool {
				return said.Code == r.said && (r.anywhere || meet(said.Where, f.Where))
			})
		})
	})
}

// isSaidBy reports whether a stage's finding says what f says: it has one of the codes that the
// rule names, and speaks of the same place.
func (r Rule) isSaidBy(said, f finding.Finding) bool {
	return slices.Contains(r.Instead, said.Code) && meet(said.Where, f.Where)
}

// meet reports whether two places have something in common. The panel as a whole meets everything.
func meet(a, b finding.Where) bool {
	if a.String() == "panel" || b.String() == "panel" || a.Net != "" && a.Net == b.Net || a.Pin != "" && a.Pin == b.Pin {
		return true
	}
	for _, h := range a.Holes {
		if slices.Contains(b.Holes, h) {
			return true
		}
	}
	refs := partsOf(b)
	return slices.ContainsFunc(partsOf(a), func(ref string) bool { return slices.Contains(refs, ref) })
}

// partsOf lists the parts of a place; a key such as S9.up lies on S9.
func partsOf(w finding.Where) []string {
	refs := slices.Clone(w.Refs)
	for _, key := range w.Keys {
		ref, _, _ := strings.Cut(key, ".")
		refs = append(refs, ref)
	}
	return refs
}
