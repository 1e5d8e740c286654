// Package check holds the rules of the trade: each looks at the whole plan and says what will not
// work, what works but, and what is worth knowing. One rule, one code. Currents are in
// milliamperes, voltages in volts, resistances in ohms.
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

// A Case is everything that the rules may look at. Module is nil when the panel has none. A stage
// that is nil counts as one that found nothing; Panel must be there.
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
// the rule's own code and severity set.
type Rule struct {
	Code     string
	Severity finding.Severity
	Says     string   // what the rule asks for, in a sentence
	Source   string   // where it comes from
	Instead  []string // codes by which an earlier stage may already have said the same
	Look     func(*Case) []finding.Finding

	look func(*view) []finding.Finding
}

// Rules lists every rule in the order in which a maker would go through a panel: the module, its
// supply and currents, then part by part, keys, chords and wishes last.
func Rules() []Rule {
	var rules []Rule
	for _, group := range [][]Rule{moduleRules, supplyRules, currentRules, wireRules, lampRules, valueRules, busRules,
		steppingRules, pullRules, diodeRules, levelRules, soundRules, powerRules, looseRules, contactRules, keyRules,
		usageRules, chordRules, wishRules} {
		rules = append(rules, group...)
	}
	for i := range rules {
		rules[i].Look = rules[i].on
	}
	return rules
}

// on looks at a case that no other rule shares.
func (r Rule) on(c *Case) []finding.Finding { return r.apply(viewOf(c)) }

func (r Rule) apply(v *view) []finding.Finding {
	found := r.look(v)
	for i := range found {
		found[i].Code, found[i].Severity = r.Code, r.Severity
	}
	return found
}

// All runs every rule and returns what they find, worst first.
func All(c *Case) []finding.Finding {
	var found []finding.Finding
	v := viewOf(c)
	for _, r := range Rules() {
		found = append(found, r.apply(v)...)
	}
	finding.Sort(found)
	return found
}
