package bench

import (
	"fascia/design/panel"
	"fascia/design/part"
)

// Local says whose word stands above these cautions.
const Local = "Follow the rules of your place first, and leave mains and damaged cells to licensed people."

// safety opens the work. Fume: UK HSE leaflet INDG248, "Solder fume and you"; cells: safety notes
// of a LiPo product page; the rest: common practice, no source.
func safety(p *panel.Panel) []Step {
	text := "Iron in its stand, cable clear, paper away; never leave it on alone. Rosin fume is a leading cause of occupational asthma: " +
		"keep your head out of the plume and draw it off at the source. Wear glasses: flux spits and cut leads fly. " +
		"With leaded solder wash your hands afterwards, and keep food and drink off the bench."
	steps := []Step{{ID: "safety", Stage: Safety, Title: "Iron, fume, eyes, lead", Text: text, Caution: Local}}
	if len(p.OfKind(part.Battery, part.Charger)) > 0 {
		steps = append(steps, Step{ID: "safety cell", Stage: Safety, Title: "The cell stays away until the end",
			Text:    "Never solder on a cell; never short, bend, crush or pierce it. Charge it only with a charger made for it, attended, at no more than its rated current.",
			Caution: "A swollen, hot or pierced cell: stop, put it outdoors on sand or concrete, do not pierce it, and hand it in for recycling. " + Local})
	}
	return steps
}

func partCaution(d part.Definition) string {
	switch d.Kind {
	case part.Battery:
		return "No cell connected while soldering. A reversed cell destroys the board and can catch fire: measure before you plug it in."
	case part.Charger:
		return "Set the charge current for your cell: many modules give 1 A, too much for cells under 1000 mAh. The load goes to OUT, not to the cell."
	}
	return ""
}
