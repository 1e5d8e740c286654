package web

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/wiring"
	"fascia/web/view"
)

// fillWire shows pins, wires, the parts list and the files.
func (s *Server) fillWire(v *visit) error {
	r := view.WireRoom{Conflict: v.plan.Pins.Conflict, PinsSay: nearness("The pins take", "holes of wire", v.plan.Pins.Cost, v.plan.Pins.Bound, v.plan.Pins.Proved),
		WiresSay: v.wiresSay(), KeepOut: holeNames(v.panel.Wires.KeepOut), Ends: v.terminals()}
	if v.plan.Module != nil {
		r.ModuleAs = v.plan.Pins.Module + ", " + v.plan.Module.Chip.Name
		var err error
		if r.Module, err = drawnModule(v); err != nil {
			return err
		}
		for _, pin := range v.plan.Module.Pins {
			r.GPIOs = append(r.GPIOs, pin.Name)
		}
		r.Free = v.freePins()
	}
	for _, p := range v.plan.Pins.Pins {
		r.Pins = append(r.Pins, view.PinRow{Signal: p.Signal, Net: p.Net, GPIO: p.GPIO, ModulePin: p.ModulePin, Function: duty(p),
			Reason: p.Reason, Hole: p.Hole.String(), Locked: v.locked(p)})
	}
	if len(r.Pins) == 0 {
		r.Ties = v.ties()
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

// duty is the function, its direction unless the name has it, and the pull.
func duty(p pinning.Pin) string {
	words := []string{p.Function}
	if !strings.HasSuffix(p.Function, " "+p.Direction) {
		words = append(words, p.Direction)
	}
	if p.Pull == "up" || p.Pull == "down" {
		words = append(words, "pull "+p.Pull)
	}
	return strings.Join(words, ", ")
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

// ties lists what the maker tied to pins, in order of signal.
func (v *visit) ties() []view.Tie {
	var list []view.Tie
	for _, signal := range slices.Sorted(maps.Keys(v.panel.Pins.Locked)) {
		list = append(list, view.Tie{Signal: signal, GPIO: v.panel.Pins.Locked[signal]})
	}
	return list
}

// freePins lists what is left over and what the maker keeps free, in order of number.
func (v *visit) freePins() []view.FreePin {
	var list []view.FreePin
	for _, g := range v.plan.Pins.Free {
		list = append(list, view.FreePin{GPIO: g, Kept: slices.Contains(v.panel.Pins.KeepFree, g)})
	}
	for _, g := range v.panel.Pins.KeepFree {
		if !slices.ContainsFunc(list, func(f view.FreePin) bool { return f.GPIO == g }) {
			list = append(list, view.FreePin{GPIO: g, Kept: true})
		}
	}
	slices.SortStableFunc(list, func(a, b view.FreePin) int {
		return cmp.Or(cmp.Compare(len(a.GPIO), len(b.GPIO)), cmp.Compare(a.GPIO, b.GPIO))
	})
	return list
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
