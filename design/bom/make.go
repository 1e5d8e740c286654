package bom

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/wiring"
)

// Of lists what the panel needs: boards, parts by definition and value with what each is bought
// with, then wire by gauge and colour, and solder. Nothing is in stock yet; see WithStock.
func Of(p *panel.Panel, w *wiring.Result) []Line {
	lines := boards(p)
	lines = append(lines, parts(p)...)
	lines = append(lines, wire(w)...)
	for i := range lines {
		lines[i].Line = i + 1
		lines[i].Need = lines[i].Quantity
	}
	return lines
}

// WithStock returns the lines with what the maker has, by Line.ID; Need is what is left to buy.
func WithStock(lines []Line, stock map[string]int) []Line {
	out := slices.Clone(lines)
	for i := range out {
		if out[i].ID == "" {
			continue
		}
		out[i].Have = max(0, stock[out[i].ID])
		out[i].Need = max(0, out[i].Quantity-out[i].Have)
	}
	return out
}

func boards(p *panel.Panel) []Line {
	var lines []Line
	for i := range p.Boards {
		b := &p.Boards[i]
		faces := "both faces"
		if b.HasCopper(0) != b.HasCopper(1) {
			faces = string(b.Faces) + " only"
		}
		plated := "not plated"
		if b.Plated {
			plated = "plated through"
		}
		lines = append(lines, Line{
			Quantity: 1, Part: "perfboard, " + string(b.Copper) + ", 2.54 mm", Value: fmt.Sprintf("%d x %d holes", b.Columns, b.Rows),
			Refs: []string{b.ID}, Note: faces + ", " + plated,
		})
	}
	return lines
}

// parts groups placed parts by definition and value, in order of the shelf, then of reference.
func parts(p *panel.Panel) []Line {
	type group struct{ id, value string }
	refs := map[group][]string{}
	for i := range p.Placed {
		g := group{p.Placed[i].Part, p.Placed[i].Value}
		refs[g] = append(refs[g], p.Placed[i].Ref)
	}
	order := slices.SortedFunc(maps.Keys(refs), func(a, b group) int {
		ka, kb := slices.Index(part.Kinds, p.Parts[a.id].Kind), slices.Index(part.Kinds, p.Parts[b.id].Kind)
		return cmp.Or(cmp.Compare(ka, kb), cmp.Compare(a.id, b.id), panel.CompareRefs(refs[a][0], refs[b][0]))
	})
	var lines, extras []Line
	for _, g := range order {
		d := p.Parts[g.id]
		id := g.id
		if g.value != "" {
			id += ":" + g.value
		}
		lines = append(lines, Line{Quantity: len(refs[g]), Part: d.BOM.Text, Value: g.value, Refs: refs[g], Note: d.BOM.Note, ID: id})
		for _, x := range d.BOM.Extras {
			i := slices.IndexFunc(extras, func(l Line) bool { return l.Part == x })
			if i < 0 {
				extras = append(extras, Line{Part: x, Note: "goes with " + d.Name})
				i = len(extras) - 1
			}
			extras[i].Quantity += len(refs[g])
			extras[i].Refs = append(extras[i].Refs, refs[g]...)
		}
	}
	return append(lines, extras...)
}
