package bench

import (
	"fmt"
	"slices"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/wiring"
)

// boards asks for what is done to the laminate before any part goes in.
func boards(p *panel.Panel) []Step {
	var steps []Step
	for i := range p.Boards {
		b := &p.Boards[i]
		text := fmt.Sprintf("%d x %d holes. Mark the front, hole %s at its top left, and the letters and numbers along two edges.", b.Columns, b.Rows, b.At)
		if b.Seam != nil {
			text += fmt.Sprintf(" It joins board %s at its %s side: push a long pin header through both while fixing them, so that the holes keep step.", b.Seam.Board, b.Seam.Side)
		}
		if len(b.Cuts) > 0 {
			text += " Cut the strips at " + grid.JoinHoles(b.Cuts) + "."
		}
		steps = append(steps, Step{ID: fmt.Sprintf("board %s %dx%d", b.ID, b.Columns, b.Rows), Stage: Prepare, Title: "Board " + b.ID, Text: text, Face: grid.Front, Holes: b.Cuts})
	}
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Definition(pl)
		for k, drill := range d.Drills {
			at := grid.Nearest(pl.Pose().Point(grid.Point{X: grid.Millimetre(drill.MM[0]), Y: grid.Millimetre(drill.MM[1])}))
			steps = append(steps, Step{
				ID: fmt.Sprintf("drill %s %d %s", pl.Ref, k, pl.At), Stage: Prepare, Title: fmt.Sprintf("Drill for %s near %s", pl.Ref, at),
				Text: fmt.Sprintf("%.1f mm, for %s.", drill.Diameter, drill.Why), Caution: "Wear glasses. Keep the dust wet and off your lungs.",
				Face: grid.Front, Refs: []string{pl.Ref}, Holes: []grid.Hole{at},
			})
		}
	}
	return steps
}

// cuts asks for the cuts that the plan makes in strips; those of the maker's own are told with the board.
func cuts(p *panel.Panel, w *wiring.Result) []Step {
	var steps []Step
	for i := range p.Boards {
		b := &p.Boards[i]
		var holes []grid.Hole
		for _, c := range w.Cuts {
			if c.Board == b.ID {
				holes = append(holes, c.Hole)
			}
		}
		if len(holes) == 0 {
			continue
		}
		face := grid.Back
		if !b.HasCopper(face) {
			face = grid.Front
		}
		steps = append(steps, Step{ID: "cuts " + b.ID + " " + grid.JoinHoles(holes), Stage: Prepare, Title: "Cut the strips of board " + b.ID,
			Text:    "Cut the copper right through at " + grid.JoinHoles(holes) + ", as wide as the strip.",
			Caution: "Measure across each cut: there must be no tone.", Face: face, Holes: holes})
	}
	return steps
}

// plugging is what waits until the meter has said that nothing is shorted.
func plugging(p *panel.Panel) []Step {
	steps := []Step{{
		ID: "meter", Stage: Plug, Title: "Check with a meter before anything is plugged in",
		Text:    fmt.Sprintf("Cell and USB unplugged. No beep between supply and ground; less than 1 ohm along each net; every key open when released and closed when pressed. %s", "The net list names each end."),
		Caution: "Never probe or solder with a cell or USB connected.",
	}}
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Definition(pl)
		if slices.ContainsFunc(d.Bodies, func(b part.Body) bool { return b.Plugged }) {
			steps = append(steps, Step{ID: "plug " + pl.Ref, Stage: Plug, Title: "Plug in " + pl.Ref, Text: fmt.Sprintf("%s, %s at %s. Check its direction twice.", d.Name, firstLead(d), pl.At), Face: pl.Face, Refs: []string{pl.Ref}, Holes: []grid.Hole{pl.At}})
		}
	}
	return steps
}
