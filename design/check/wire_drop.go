package check

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/part"
)

const wireSource = "wire: ASTM B258 and annealed copper at 20 degrees; currents and volts: the parts' own data sheets, in their definitions"

var wireRules = []Rule{
	{Code: "wire-drop", Severity: finding.Mind, Says: "What supply and ground wires lose leaves every part the volts it needs.", Source: wireSource, look: wireDrop},
	{Code: "wire-loss", Severity: finding.Note, Says: "What the supply wires lose at most is told.", Source: wireSource, look: wireLoss},
}

// wireDrop looks for parts that get too little because of wire alone; too little without any is said
// by supply-low.
func wireDrop(v *view) []finding.Finding {
	var found []finding.Finding
	for _, l := range v.losses() {
		least, gets := l.it.def.Facts.SupplyMinVolts-slackVolts, l.span.low-l.mv/1000
		if l.span.low < least || gets >= least {
			continue
		}
		found = append(found, finding.Finding{Where: finding.Where{Refs: []string{l.it.Ref}, Net: l.net},
			Text: fmt.Sprintf("%s needs %s and may get only %s V: the wires of %s and %s lose %s mV on the way, with everything on.",
				capital(l.it.name()), l.it.wants(), figure(gets), l.net, part.Ground, figure(l.mv)),
			Fix: fmt.Sprintf("Take thicker wire for both, or give %s shorter wires of its own to %s.", l.it.Ref, l.giver.name())})
	}
	return found
}

// wireLoss tells the largest loss on the panel.
func wireLoss(v *view) []finding.Finding {
	var most loss
	for _, l := range v.losses() {
		if l.mv > most.mv {
			most = l
		}
	}
	if most.it == nil {
		return nil
	}
	fix := "Nothing need be done, unless the part can spare less."
	if spare := most.span.low - most.it.def.Facts.SupplyMinVolts + slackVolts; spare < slackVolts || spare*1000 < most.mv {
		fix = "Take thicker wire, or shorter."
	} else if most.it.def.Facts.SupplyMinVolts > 0 {
		fix = fmt.Sprintf("Nothing need be done: the part can spare %s mV.", figure(spare*1000))
	}
	return []finding.Finding{{Where: finding.Where{Refs: []string{most.it.Ref}, Net: most.net},
		Text: fmt.Sprintf("With everything on, the wires of %s and %s lose at most %s mV: between %s and %s, over %s milliohms there and back.",
			most.net, part.Ground, figure(most.mv), most.giver.name(), most.it.name(), figure(1000*most.ohms())),
		Fix: fix}}
}
