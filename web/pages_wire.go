package web

import (
	"strings"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/web/view"
)

// fillWire shows pins, wires, the parts list and the files.
func (s *Server) fillWire(v *visit) error {
	var r view.WireRoom
	if err := v.fillPins(&r.PinPart); err != nil {
		return err
	}
	v.fillWires(&r.WirePart)
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

// capital begins a sentence.
func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }
