package web

import (
	"fmt"
	"math"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/plan"
)

// pinPrices are the prices in words, by kind and then by wish.
type pinPrices map[string]map[string]string

// pricesOf works the prices out; only the Wire room asks for them.
func pricesOf(made *plan.Plan, reach []plan.Reach) pinPrices {
	prices := pinPrices{pinning.PriceOfLock: {}, pinning.PriceOfKeep: {}, pinning.PriceOfSpare: {}}
	nets := map[string]string{}
	for _, r := range reach {
		for _, name := range r.Ties {
			nets[name] = r.Net
		}
	}
	for _, p := range made.Prices() {
		prices[p.Kind][p.Wish] = priceWords(&p, nets[p.Wish])
	}
	return prices
}

// priceWords says what a wish costs as what there would be without it. net is what a lock ties.
func priceWords(p *pinning.Price, net string) string {
	without := map[string]string{pinning.PriceOfLock: "Without this lock", pinning.PriceOfKeep: "If it could be used",
		pinning.PriceOfSpare: "Without this wish"}[p.Kind]
	parts := differences(p)
	if p.Instead != "" && p.Instead != p.GPIO {
		parts = append(parts, fmt.Sprintf("%s would be on %s", net, p.Instead))
	}
	says := "It costs nothing."
	if p.Closed > 0 {
		says = "It costs nothing now."
	}
	if len(parts) > 0 {
		says = without + " " + finding.Names(parts) + "."
	}
	if p.Closed > 0 {
		says += fmt.Sprintf(" %s signals would have %s to go to.", either(len(parts) > 0, "Other", "Without it other"), countOf(p.Closed, "more place", "more places"))
	}
	if !p.Proved && len(parts) > 0 {
		says += " So much was found; it is not proved."
	}
	return says
}

// differences lists what would be otherwise without a wish, each a clause.
func differences(p *pinning.Price) (parts []string) {
	if p.Length != 0 {
		parts = append(parts, fmt.Sprintf("the wires would be %s %s", countOf(int(math.Abs(p.Length)), "hole", "holes"), either(p.Length > 0, "shorter", "longer")))
	}
	if n := p.Crossings; n != 0 {
		parts = append(parts, fmt.Sprintf("there would be %s %s", countOf(max(n, -n), "crossing", "crossings"), either(n > 0, "fewer", "more")))
	}
	if n := p.LeftOut; n != 0 {
		parts = append(parts, fmt.Sprintf("%s would %s a pin", countOf(max(n, -n), "more signal", "more signals"), either(n > 0, "have", "go without")))
	}
	for _, name := range p.Broken {
		parts = append(parts, sparedThing[name]+" would be spared")
	}
	for _, name := range p.Mended {
		parts = append(parts, sparedThing[name]+" would not be spared")
	}
	return parts
}

func either(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

var sparedThing = map[string]string{
	panel.SerialConsole: "the serial console", panel.AnaloguePins: "the analogue pins", panel.I2CBus: "an I2C bus",
}
