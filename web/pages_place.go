package web

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/web/view"
)

// kindLabels head the shelves.
var kindLabels = map[part.Kind]string{
	part.Module: "Modules", part.Switch: "Push switches", part.Selector: "Slide and latching switches",
	part.PowerSwitch: "Power switches", part.Encoder: "Encoders", part.Joystick: "Joysticks", part.Display: "Displays",
	part.LED: "LEDs", part.Resistor: "Resistors", part.Diode: "Diodes", part.Capacitor: "Capacitors",
	part.Transistor: "Transistors", part.Piezo: "Piezo sounders", part.Buzzer: "Buzzers", part.Header: "Headers and sockets",
	part.Battery: "Battery connectors", part.Charger: "Chargers", part.Expander: "Expanders", part.Other: "Other parts",
}

// fillPlace sets out the shelf and the boards.
func (s *Server) fillPlace(v *visit) error {
	shelves, err := s.shelves(v)
	if err != nil {
		return err
	}
	r := view.PlaceRoom{Kinds: shelves, Sizes: sizes(), NewID: freeBoardID(&v.panel)}
	for i := range v.panel.Boards {
		r.Boards = append(r.Boards, boardForm(&v.panel, i))
	}
	v.page.Content = view.PlaceContent(r)
	v.page.Dialogs = append(v.page.Dialogs, view.DefineDialog())
	return nil
}

// shelves hold the maker's own parts and the built-in ones, kind by kind.
func (s *Server) shelves(v *visit) ([]view.Shelf, error) {
	saved, err := s.parts.SavedParts(v.ctx)
	if err != nil {
		return nil, err
	}
	stock, err := s.parts.Stock(v.ctx)
	if err != nil {
		return nil, err
	}
	placed := map[string]int{}
	for _, pl := range v.panel.Placed {
		placed[pl.Part]++
	}
	byKind := map[part.Kind][]view.ShelfPart{}
	seen := map[string]bool{}
	add := func(id string, d part.Definition, own, carried bool) {
		if seen[id] {
			return
		}
		seen[id] = true
		byKind[d.Kind] = append(byKind[d.Kind], shelfPart(id, d, own, carried, placed[id], stock))
	}
	for _, p := range saved {
		add(p.ID, p.Definition, true, true)
	}
	builtIn := part.BuiltIn()
	for _, id := range part.Catalogue(v.panel.Parts).IDs() {
		if _, known := builtIn[id]; !known {
			add(id, v.panel.Parts[id], true, false)
		}
	}
	for _, id := range builtIn.IDs() {
		add(id, builtIn[id], false, false)
	}
	var shelves []view.Shelf
	for _, kind := range part.Kinds {
		if len(byKind[kind]) > 0 {
			shelves = append(shelves, view.Shelf{Kind: string(kind), Label: kindLabels[kind], Parts: byKind[kind]})
		}
	}
	return shelves, nil
}

// shelfPart is one definition to place. A saved one is carried along, since neither the panel nor
// the catalogue may know it.
func shelfPart(id string, d part.Definition, own, carried bool, placed int, stock map[string]int) view.ShelfPart {
	p := view.ShelfPart{ID: id, Name: d.Name, Outline: view.OutlineOf(d), Own: own, OnPanel: placed, Stock: -1,
		Says: strings.ToLower(strings.Join([]string{d.Name, string(d.Kind), id, d.BOM.Text, kindLabels[d.Kind]}, " "))}
	if n, ok := stock[id]; ok {
		p.Stock = n
	}
	if carried {
		text, err := json.Marshal(d)
		if err != nil {
			panic(err) // what was read from JSON goes back into it
		}
		p.Definition = string(text)
	}
	return p
}

// freeBoardID is the first letter that no board has.
func freeBoardID(p *panel.Panel) string {
	for i := range grid.MaxIndex {
		id := grid.ColumnName(i)
		if !slices.ContainsFunc(p.Boards, func(b panel.Board) bool { return b.ID == id }) {
			return id
		}
	}
	return ""
}

func boardForm(p *panel.Panel, i int) view.BoardForm {
	b := &p.Boards[i]
	f := view.BoardForm{
		ID: b.ID, At: b.At.String(), Columns: b.Columns, Rows: b.Rows, Copper: string(b.Copper), Faces: string(b.Faces),
		Along: b.Along, Plated: b.Plated, Cuts: grid.JoinHoles(b.Cuts), Removable: len(p.Boards) > 1, Outline: extent(b),
	}
	if f.Faces == "" {
		f.Faces = string(panel.BothFaces)
	}
	margins := [4]float64{panel.DefaultMargin, panel.DefaultMargin, panel.DefaultMargin, panel.DefaultMargin}
	if b.Margins != nil {
		margins = *b.Margins
	}
	for side, m := range margins {
		f.Margins[side] = decimal(m)
	}
	if b.Seam != nil {
		f.SeamBoard, f.SeamSide = b.Seam.Board, b.Seam.Side
		f.AcrossMM, f.AlongMM = decimal(b.Seam.AcrossMM), decimal(b.Seam.AlongMM)
	}
	text, err := json.Marshal(map[string]*panel.Board{"board": b})
	if err != nil {
		panic(fmt.Sprintf("board %s of a valid panel: %v", b.ID, err))
	}
	f.JSON = string(text)
	return f
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
