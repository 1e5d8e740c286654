package scan

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
)

// twoLegs is a switch with two legs, drawn so that tests can place keys anywhere.
func twoLegs() part.Definition {
	return part.Definition{Name: "two legs", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{{Name: "A"}, {Name: "B", At: [2]int{1, 0}}},
		Contacts:  []part.Contact{{Name: "press", Between: [2]string{"A", "B"}}}}
}

// fiveWay is a navigation switch: five contacts to one common terminal.
func fiveWay() part.Definition {
	d := part.Definition{Name: "five way", Kind: part.Switch, Prefix: "S", Terminals: []part.Terminal{{Name: "COM"}}}
	for i, name := range []string{"up", "left", "press", "right", "down"} {
		d.Terminals = append(d.Terminals, part.Terminal{Name: name, At: [2]int{i + 1, 0}})
		d.Contacts = append(d.Contacts, part.Contact{Name: name, Between: [2]string{"COM", name}})
	}
	return d
}

// fourLegs is the common 6 x 6 mm switch: A1 and A2 are one metal, B1 and B2 another.
func fourLegs() part.Definition {
	return part.Definition{Name: "four legs", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{{Name: "A1"}, {Name: "A2", At: [2]int{3, 0}}, {Name: "B1", At: [2]int{0, 2}}, {Name: "B2", At: [2]int{3, 2}}},
		Joined:    [][]string{{"A1", "A2"}, {"B1", "B2"}},
		Contacts:  []part.Contact{{Name: "press", Between: [2]string{"A1", "B1"}}}}
}

// keysAt is a panel with a key of a kind at each hole, S1 first.
func keysAt(kind string, holes ...grid.Hole) *panel.Panel {
	p := panel.New("test")
	p.Boards[0].Columns, p.Boards[0].Rows = 200, 200
	p.Parts = map[string]part.Definition{"two": twoLegs(), "four": fourLegs(), "five": fiveWay()}
	for i, h := range holes {
		add(&p, kind, h, fmt.Sprintf("S%d", i+1))
	}
	return &p
}

func add(p *panel.Panel, kind string, at grid.Hole, ref string) {
	pl := panel.Placed{Ref: ref, Part: kind, At: at}
	if d := p.Parts[kind]; len(d.Contacts) > 1 {
		pl.Keys = map[string]panel.Key{}
		for _, c := range d.Contacts {
			pl.Keys[c.Name] = panel.Key{Legend: c.Name}
		}
	} else {
		pl.Key = &panel.Key{Legend: ref}
	}
	p.Placed = append(p.Placed, pl)
}

// regularKeys is rows x columns of four-legged keys, five holes apart, numbered as one reads.
func regularKeys(rows, columns int) *panel.Panel {
	var holes []grid.Hole
	for r := range rows {
		for c := range columns {
			holes = append(holes, grid.Hole{Col: 2 + 5*c, Row: 2 + 5*r})
		}
	}
	return keysAt("four", holes...)
}

// scatteredKeys puts n keys in places that follow no pattern, none overlapping.
func scatteredKeys(n int, seed uint64) *panel.Panel {
	r := rand.New(rand.NewPCG(seed, 0))
	side := 2
	for side*side < 2*n {
		side++
	}
	spots := r.Perm(side * side)[:n]
	var holes []grid.Hole
	for _, s := range spots {
		holes = append(holes, grid.Hole{Col: s % side * 5, Row: s/side*4 + r.IntN(2)})
	}
	return keysAt("four", holes...)
}

// withChords declares chords, each as key numbers.
func withChords(p *panel.Panel, chords ...[]int) *panel.Panel {
	for i, c := range chords {
		ch := panel.Chord{Name: fmt.Sprintf("c%d", i+1)}
		for _, k := range c {
			ch.Keys = append(ch.Keys, fmt.Sprintf("S%d", k))
		}
		p.Chords = append(p.Chords, ch)
	}
	return p
}

// wishing sets the scan style and the diodes.
func wishing(p *panel.Panel, style, diodes string) *panel.Panel {
	p.Scan.Style, p.Scan.Diodes = style, diodes
	return p
}

func rp2040() *controller.Chip {
	chip, _ := controller.ChipNamed("RP2040")
	return &chip
}

// drawn writes a matrix as rows of key names, a dot for an empty cell.
func drawn(r *Result) string {
	cells := make([][]string, r.Rows)
	for i := range cells {
		cells[i] = strings.Split(strings.Repeat(".", r.Columns), "")
	}
	for _, c := range r.Cells {
		cells[c.Row][c.Column] = c.Key
	}
	lines := make([]string, len(cells))
	for i, row := range cells {
		lines[i] = strings.Join(row, " ")
	}
	return strings.Join(lines, "\n")
}

func codes(r *Result) map[string]int {
	n := map[string]int{}
	for _, f := range r.Findings {
		n[f.Code]++
	}
	return n
}
