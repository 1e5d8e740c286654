// Package check holds the rules of the trade: each looks at the whole plan and says what will not
// work, what works but, and what is worth knowing. One rule, one code.
package check

import (
	"fascia/design/controller"
	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/wiring"
)

// A Case is everything that the rules may look at. Module is nil when the panel has none.
type Case struct {
	Panel  *panel.Panel
	Module *controller.Module
	Fit    *fit.Result
	Scan   *scan.Result
	Pins   *pinning.Result
	Nets   *netlist.Result
	Wiring *wiring.Result
}

// A Rule is one rule of the trade. Look returns one finding for each place where it is broken, with
// the rule's own code and severity already set by the caller.
type Rule struct {
	Code     string
	Severity finding.Severity
	Says     string // what the rule asks for, in a sentence
	Source   string // where it comes from
	Look     func(*Case) []finding.Finding
}
