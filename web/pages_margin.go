package web

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"slices"
	"strings"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/lend"
	"fascia/design/part"
	"fascia/design/usage"
	"fascia/web/view"
)

// notes lists the findings: those of this room, those of the others, and what is only worth knowing.
func (v *visit) notes() view.Notes {
	var n view.Notes
	seen := map[string]int{}
	for i, f := range v.plan.Findings {
		one := v.note(f)
		one.Index = i
		seen[one.ID]++
		if k := seen[one.ID]; k > 1 {
			one.ID = fmt.Sprintf("%s-%d", one.ID, k)
		}
		switch {
		case f.Severity == finding.Note:
			n.Aside = append(n.Aside, one)
		case one.Room == v.room:
			n.Here = append(n.Here, one)
		default:
			n.Elsewhere = append(n.Elsewhere, one)
		}
	}
	n.Offer = v.offer()
	n.Empty = len(v.panel.Placed) == 0
	return n
}

// offer proposes places for diodes that the keys lack.
func (v *visit) offer() view.Offer {
	lacks := func(f finding.Finding) bool { return f.Code == "net-diode-missing" }
	if !slices.ContainsFunc(v.plan.Findings, lacks) {
		return view.Offer{}
	}
	edit := lend.Diodes(&v.panel, &v.plan.Fit, &v.plan.Scan, &v.plan.Nets)
	if edit == nil {
		return view.Offer{}
	}
	text, err := json.Marshal(edit)
	if err != nil {
		return view.Offer{} // the notes still say what to do by hand
	}
	return view.Offer{Label: edit.What + " near the keys that want one", Edit: string(text)}
}

func (v *visit) note(f finding.Finding) view.Note {
	n := view.Note{
		Severity: f.Severity.String(), Code: f.Code, Text: f.Text, Fix: f.Fix, Room: roomOf(f),
		Refs: strings.Join(f.Where.Refs, " "), Keys: strings.Join(f.Where.Keys, " "),
		Holes: grid.JoinHoles(f.Where.Holes), Net: f.Where.Net, Where: f.Where.String(),
	}
	sum := fnv.New32a()
	fmt.Fprint(sum, f.Code, f.Where.String(), f.Text)
	n.ID = fmt.Sprintf("note-%08x", sum.Sum32())
	selected := v.selected
	if len(f.Where.Refs) > 0 {
		selected = slices.DeleteFunc(slices.Clone(f.Where.Refs), func(ref string) bool { return v.panel.Find(ref) == nil })
	}
	n.Href = v.address(n.Room, v.face, selected)
	return n
}

// usages are what a key may mean, in the order of the tables.
func usages() []view.Usage {
	var list []view.Usage
	for _, u := range usage.All() {
		list = append(list, view.Usage{Code: u.Code(), Name: u.Name})
	}
	return list
}

// usageShown writes a code as the picker does.
func usageShown(code string) string {
	if u, ok := usage.Named(code); ok {
		return view.Usage{Code: u.Code(), Name: u.Name}.Shown()
	}
	return code
}

// facts are what the scripts need to know of where things are.
func (v *visit) facts() view.Facts {
	f := view.Facts{Panel: string(v.id), Name: v.panel.Name, Rev: v.rev, Room: v.room, Face: v.face.String(),
		Boards: []view.BoardFact{}, Parts: []view.PartFact{}}
	for _, b := range v.panel.Boards {
		f.Boards = append(f.Boards, view.BoardFact{ID: b.ID, Col: b.At.Col, Row: b.At.Row, Columns: b.Columns, Rows: b.Rows})
	}
	keys := map[string][]view.KeyFact{}
	for _, k := range v.panel.Keys() {
		keys[k.Ref] = append(keys[k.Ref], view.KeyFact{ID: k.ID, Legend: k.Legend, Is: true})
	}
	for i := range v.panel.Placed {
		pl := &v.panel.Placed[i]
		d := v.panel.Definition(pl)
		one := view.PartFact{Ref: pl.Ref, Name: d.Name, Kind: string(d.Kind), Face: pl.Face.String(),
			At: [2]int{pl.At.Col, pl.At.Row}, Holes: [][2]int{}, Ends: []string{}, Keys: keys[pl.Ref]}
		if one.Keys == nil {
			one.Keys = []view.KeyFact{}
		}
		box := grid.RectOf(pl.At.Centre(), pl.At.Centre())
		for _, t := range d.Terminals {
			h := pl.Pose().Hole(t.Offset())
			one.Holes = append(one.Holes, [2]int{h.Col, h.Row})
			one.Ends = append(one.Ends, t.Name)
			box = box.Union(grid.RectOf(h.Centre(), h.Centre()))
		}
		box = box.Grown(1)
		if b, ok := chiefBody(d); ok {
			box = pl.Pose().Rect(b.Rectangle())
		}
		one.Box = [4]float64{float64(box.Min.X), float64(box.Min.Y), float64(box.Max.X), float64(box.Max.Y)}
		f.Parts = append(f.Parts, one)
	}
	return f
}

// chiefBody is the largest body, by which a part is known.
func chiefBody(d part.Definition) (part.Body, bool) {
	var best part.Body
	area := -1.0
	for _, b := range d.Bodies {
		r := b.Rectangle()
		if a := float64(r.Width() * r.Height()); a > area {
			best, area = b, a
		}
	}
	return best, area >= 0
}
