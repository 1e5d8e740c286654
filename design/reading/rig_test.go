package reading_test

import (
	"fmt"
	"math/rand/v2"

	"fascia/design/circuit"
	"fascia/design/controller"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/reading"
	"fascia/design/scan"
)

// A rig is the keys of a panel in plain figures, from which the panel and, apart from it, the deck
// for the other simulator are written.
type rig struct {
	style         string // matrix or lines
	rows, columns int
	keys          []rigKey
	high          bool
	chip          string
	stepping      string
	pull          float64 // of a resistor on every line that is read; 0 for the chip's own
	contact       float64 // most ohms of a closed key
	lamps         []rigLamp
	held          []int // of keys
	hear          bool  // select lines leak too
}

type rigKey struct {
	row, column int
	diode       string // part number, "" for none
}

type rigLamp struct {
	column int
	colour string
	ohms   float64 // 0 when it is wired straight
}

func (k rigKey) id(i int) string { return fmt.Sprintf("S%d", i+1) }

func (r *rig) id(i int) string { return r.keys[i].id(i) }

func (r *rig) heldIDs() []string {
	list := []string{}
	for _, i := range r.held {
		list = append(list, r.id(i))
	}
	return list
}

// reader builds the panel, its scan and its netlist.
func (r *rig) reader() *reading.Reader {
	p, s, n, c := r.stages()
	f := reading.FiguresOf(c, r.stepping)
	f.SelectsHear = r.hear
	return reading.NewWith(p, s, n, f)
}

func (r *rig) stages() (*panel.Panel, *scan.Result, *netlist.Result, *controller.Chip) {
	p := panel.New("rig")
	s := &scan.Result{Style: r.style, Rows: r.rows, Columns: r.columns, Active: "low", Pulls: "internal"}
	n := &netlist.Result{}
	if r.high {
		s.Active = "high"
	}
	p.Parts["switch"] = part.Definition{Name: "switch", Kind: part.Switch, Facts: part.Facts{Ohms: r.contact},
		Contacts: []part.Contact{{Name: "press", Between: [2]string{"A", "B"}}}}
	p.Parts["module"] = part.Definition{Name: "module", Kind: part.Module, Facts: part.Facts{Chip: r.chip}}
	p.Parts["led"] = part.Definition{Name: "LED", Kind: part.LED, Facts: part.Facts{ForwardMA: 2}}
	p.Parts["resistor"] = part.Definition{Name: "resistor", Kind: part.Resistor}
	place := func(ref, def, value string) {
		p.Placed = append(p.Placed, panel.Placed{Ref: ref, Part: def, Value: value})
	}
	place("U1", "module", r.stepping)
	for i, k := range r.keys {
		place(r.id(i), "switch", "")
		p.Placed[len(p.Placed)-1].Key = &panel.Key{Legend: r.id(i)}
		s.Cells = append(s.Cells, scan.Cell{Key: r.id(i), Row: k.row, Column: k.column, Diode: k.diode != ""})
		if k.diode != "" {
			ref := fmt.Sprintf("V%d", i+1)
			p.Parts[k.diode] = part.Definition{Name: "Diode " + k.diode, Kind: part.Diode}
			place(ref, k.diode, "")
			n.Pairs = append(n.Pairs, netlist.Pair{Of: r.id(i), With: ref})
		}
	}
	if r.pull > 0 {
		s.Pulls = "external"
		for i := range r.rows {
			ref := fmt.Sprintf("R%d", i+1)
			place(ref, "resistor", fmt.Sprintf("%g", r.pull))
			n.Pairs = append(n.Pairs, netlist.Pair{Of: s.RowNet(i), With: ref})
		}
	}
	for i, l := range r.lamps {
		led, resistor := fmt.Sprintf("D%d", i+1), ""
		place(led, "led", l.colour)
		s.Lamps = append(s.Lamps, scan.Lamp{Line: l.column, LED: led})
		if l.ohms > 0 {
			resistor = fmt.Sprintf("R%d", 100+i)
			place(resistor, "resistor", fmt.Sprintf("%g", l.ohms))
		}
		n.Pairs = append(n.Pairs, netlist.Pair{Of: led, With: resistor})
	}
	chip, _ := controller.ChipNamed(r.chip)
	return &p, s, n, &chip
}

// full returns a matrix with a key in every cell and the same diode at each, "" for none.
func full(rows, columns int, diode string) *rig {
	r := &rig{style: "matrix", rows: rows, columns: columns, chip: "RP2040", contact: 100}
	for i := range rows {
		for j := range columns {
			r.keys = append(r.keys, rigKey{i, j, diode})
		}
	}
	return r
}

// lines returns n lines with a key and a diode for every ordered pair.
func lines(n int, diode string) *rig {
	r := &rig{style: "lines", rows: n, columns: n, chip: "RP2040", contact: 100}
	for i := range n {
		for j := range n {
			if i != j {
				r.keys = append(r.keys, rigKey{i, j, diode})
			}
		}
	}
	return r
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// randomRig draws a panel of up to 6 x 8 keys, some cells empty, and some keys to hold.
func randomRig(r *rand.Rand) *rig {
	diodes := pick(r, []string{""}, []string{"1N4148"}, []string{"BAT85"}, []string{"", "1N4148", "BAT85"})
	g := full(1+r.IntN(6), 1+r.IntN(8), "")
	if r.IntN(5) == 0 {
		g = lines(2+r.IntN(4), "")
		diodes = pick(r, []string{"1N4148"}, []string{"BAT85"})
	}
	g.high = r.IntN(2) == 0
	g.chip = pick(r, "RP2040", "RP2350")
	g.stepping = "A4"
	g.pull = pick(r, 0, 0, 0, 10e3, 4.7e3)
	g.contact = pick(r, 0.1, 2, 100)
	var kept []rigKey
	for i, k := range g.keys {
		if i == 0 || r.IntN(8) > 0 {
			k.diode = pick(r, diodes...)
			kept = append(kept, k)
		}
	}
	g.keys = kept
	for i := range g.keys {
		if r.IntN(len(g.keys)) < 6 {
			g.held = append(g.held, i)
		}
	}
	if r.IntN(3) == 0 {
		for j := range g.columns {
			if r.IntN(4) > 0 {
				g.lamps = append(g.lamps, rigLamp{j, pick(r, "red", "green", "blue", "white"), pick(r, 330.0, 470, 680, 1000, 0)})
			}
		}
	}
	return g
}

// ends are the figures of one corner, written down from the data sheets: RP2040 data sheet tables 622
// and 625, RP2350 data sheet table 1436; drivers by VOL and VOH at 4 mA, typically 40 ohms.
type ends struct{ pull, contact, driver float64 }

func (r *rig) ends(c reading.Corner) ends {
	pulls := map[string][2]float64{"RP2040": {50e3, 80e3}, "RP2350": {32e3, 86e3}}[r.chip]
	worst := 0.5 / 4e-3
	if r.high {
		worst = (3.3 - 2.62) / 4e-3
		pulls = map[string][2]float64{"RP2040": {50e3, 80e3}, "RP2350": {36e3, 113e3}}[r.chip]
	}
	if r.pull > 0 {
		pulls = [2]float64{r.pull * 0.95, r.pull * 1.05}
	}
	if c == reading.Strong {
		return ends{pulls[0], r.contact, worst}
	}
	return ends{pulls[1], min(0.1, r.contact), 40}
}

// forward is what the LED of each colour drops at 2 mA: planning values, from memory.
var forward = map[string]float64{"red": 1.8, "green": 2.0, "blue": 2.8, "white": 2.9}

var numbers = map[string]circuit.Diode{"1N4148": circuit.Small1N4148, "BAT85": circuit.SchottkyBAT85}

func (r *rig) ids() []string {
	list := make([]string, len(r.keys))
	for i := range list {
		list[i] = r.id(i)
	}
	return list
}
