package web

import (
	"fmt"
	"strings"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
	"fascia/web/view"
)

// fillWire shows pins, wires, the parts list and the files.
func (s *Server) fillWire(v *visit) error {
	r := view.WireRoom{WiresSay: v.wiresSay(), KeepOut: holeNames(v.panel.Wires.KeepOut), Ends: v.terminals()}
	if err := v.fillPins(&r.PinPart); err != nil {
		return err
	}
	for i, w := range v.plan.Wiring.Wires {
		row := v.wireRow(w)
		row.Index = i
		if w.Kind == wiring.Leg {
			r.Legs = append(r.Legs, row)
			continue
		}
		r.Wires = append(r.Wires, row)
	}
	for _, j := range v.panel.Joins {
		r.Joins = append(r.Joins, view.JoinRow{Name: j.Name, Terminals: strings.Join(j.Terminals, " ")})
	}
	if err := s.fillList(v, &r); err != nil {
		return err
	}
	v.page.Content = view.WireContent(r)
	if r.Module != nil {
		v.page.Dialogs = append(v.page.Dialogs, view.ModuleDialog(r))
	}
	return nil
}

// fillList sets the parts list against the maker's stock, and names the files.
func (s *Server) fillList(v *visit, r *view.WireRoom) error {
	stock, err := s.parts.Stock(v.ctx)
	if err != nil {
		return err
	}
	for _, l := range v.plan.BOM {
		row := view.BOMRow{Line: l.Line, Quantity: l.Quantity, Have: l.Have, Need: l.Need, Part: l.Part, Value: l.Value,
			Refs: strings.Join(l.Refs, " "), Note: l.Note, ID: l.ID}
		if l.ID != "" {
			row.Have = stock[l.ID]
			row.Need = max(0, l.Quantity-row.Have)
		}
		if row.Need > 0 {
			r.Missing++
		}
		r.BOM = append(r.BOM, row)
	}
	at := "/panels/" + string(v.id)
	r.Files = append(r.Files, view.Download{Href: at + "/files.zip", Name: "all files", Says: "every output in one archive"},
		view.Download{Href: at + "/export", Name: "project file", Says: "to import again, here or elsewhere"})
	files, err := v.plan.Files()
	if err != nil {
		return err
	}
	for _, f := range files {
		r.Files = append(r.Files, view.Download{Href: at + "/files/" + f.Name, Name: f.Name, Says: f.Says})
	}
	return nil
}

// nearness says how good an optimised stage is.
func nearness(what, unit string, cost, bound float64, proved bool) string {
	switch {
	case cost == 0:
		return ""
	case proved:
		return fmt.Sprintf("%s %.4g %s; nothing less will do.", what, cost, unit)
	}
	return fmt.Sprintf("%s %.4g %s; no plan needs less than %.4g.", what, cost, unit, bound)
}

func (v *visit) wiresSay() string {
	w := &v.plan.Wiring
	total, work := 0.0, 0
	for _, one := range w.Wires {
		if one.Step > 0 {
			work++
			total += one.CutMM
		}
	}
	says := countOf(work, "wire or bridge to make", "wires and bridges to make")
	if total > 0 {
		says += fmt.Sprintf(", %.2f m of wire to cut", total/1000)
	}
	return says + ". " + nearness("Length, bends and joints together are worth", "holes of bare wire", w.Cost, w.Bound, w.Proved)
}

// kindWords say the four ways to join.
var kindWords = map[wiring.Kind]string{
	wiring.Leg: "leg bridge", wiring.Solder: "solder bridge", wiring.Bare: "bare run", wiring.Insulated: "insulated",
}

// colourWords are the names of the colour letters of IEC 60757.
var colourWords = map[string]string{
	"BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green", "BU": "blue", "VT": "violet",
	"GY": "grey", "WH": "white", "PK": "pink", "GD": "gold", "TQ": "turquoise", "SR": "silver",
}

func (v *visit) wireRow(w wiring.Wire) view.WireRow {
	row := view.WireRow{
		Step: w.Step, Net: w.Net, Kind: string(w.Kind), KindSays: kindWords[w.Kind], Face: w.Face.String(),
		From: w.From.String(), To: w.To.String(), Holes: grid.JoinHoles([]grid.Hole{w.From, w.To}),
		Length: fmt.Sprintf("%.0f mm", w.LengthMM), Colour: w.Colour, ColourSays: colourWords[w.Colour], Gauge: w.Gauge,
	}
	if w.CutMM > 0 {
		row.Cut = fmt.Sprintf("%.0f mm", w.CutMM)
	}
	for _, step := range v.plan.Steps {
		if step.Wire != 0 && step.Wire == w.Step {
			row.Done = v.ticks[step.ID]
		}
	}
	return row
}

// terminals are the ends that a join may name, those of the module last: it has the most.
func (v *visit) terminals() []string {
	var list, last []string
	for i := range v.panel.Placed {
		pl := &v.panel.Placed[i]
		d := v.panel.Definition(pl)
		for _, t := range d.Terminals {
			ref := panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name}.String()
			if _, err := controller.FromDefinition(&d); err == nil {
				last = append(last, ref)
				continue
			}
			list = append(list, ref)
		}
	}
	return append(list, last...)
}

func holeNames(holes []grid.Hole) []string {
	var list []string
	for _, h := range holes {
		list = append(list, h.String())
	}
	return list
}
