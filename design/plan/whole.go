package plan

import (
	"fascia/design/bench"
	"fascia/design/bom"
	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/keymap"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/wiring"
)

// A document is the shape of plan.json. Lists are never null.
type document struct {
	Version  int               `json:"fascia"`
	Name     string            `json:"name"`
	Findings []finding.Finding `json:"findings"`
	Fit      fitted            `json:"fit"`
	Scan     scan.Result       `json:"scan"`
	Pins     pinning.Result    `json:"pins"`
	Prices   []pinning.Price   `json:"prices"`
	Nets     []netOut          `json:"nets"`
	Open     []openOut         `json:"open"`
	Pairs    []netlist.Pair    `json:"pairs"`
	Wiring   wiring.Result     `json:"wiring"`
	Steps    []bench.Step      `json:"steps"`
	BOM      []bom.Line        `json:"bom"`
	Keymap   keymap.Map        `json:"keymap"`
}

type fitted struct {
	Leads  []leadOut  `json:"leads"`
	Orders []orderOut `json:"orders"`
}

type leadOut struct {
	panel.TerminalRef
	Hole       grid.Hole `json:"hole"`
	Board      string    `json:"board"`
	SolderFace grid.Face `json:"solder_face"`
	Residual   float64   `json:"residual_mm"`
}

type orderOut struct {
	First string    `json:"first"`
	Then  string    `json:"then"`
	Hole  grid.Hole `json:"hole"`
}

type netOut struct {
	Name      string        `json:"name"`
	Class     netlist.Class `json:"class"`
	Terminals []terminalOut `json:"terminals"`
}

type terminalOut struct {
	panel.TerminalRef
	Hole grid.Hole `json:"hole"`
	Face string    `json:"face"`
}

type openOut struct {
	panel.TerminalRef
	Hole grid.Hole `json:"hole"`
	Why  string    `json:"why"`
}

// JSON writes plan.json.
func (pl *Plan) JSON() ([]byte, error) {
	return indented(document{
		Version: panel.FormatVersion, Name: pl.Panel.Name,
		Findings: present(pl.Findings), Fit: fittedOf(&pl.Fit), Scan: scanOf(pl.Scan), Pins: pinsOf(pl.Pins), Prices: present(pl.Prices()),
		Nets: netsOf(pl.Nets.Nets), Open: openOf(pl.Nets.Open), Pairs: present(pl.Nets.Pairs),
		Wiring: wiringOf(pl.Wiring), Steps: present(pl.Steps), BOM: present(pl.BOM), Keymap: pl.Keymap,
	})
}

func present[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func fittedOf(f *fit.Result) fitted {
	out := fitted{[]leadOut{}, []orderOut{}}
	for _, l := range f.Leads {
		out.Leads = append(out.Leads, leadOut{l.TerminalRef, l.Hole, l.Board, l.SolderFace, hundredths(float64(l.Residual))})
	}
	for _, o := range f.Orders {
		out.Orders = append(out.Orders, orderOut{o.First, o.Then, o.Hole})
	}
	return out
}

func scanOf(s scan.Result) scan.Result {
	s.Choices, s.Cells, s.Direct, s.Ghosts, s.Lamps = present(s.Choices), present(s.Cells), present(s.Direct), present(s.Ghosts), present(s.Lamps)
	return s
}

func pinsOf(p pinning.Result) pinning.Result {
	p.Pins, p.Free = present(p.Pins), present(p.Free)
	return p
}

func wiringOf(w wiring.Result) wiring.Result {
	w.Wires = present(w.Wires)
	return w
}

func netsOf(nets []netlist.Net) []netOut {
	out := []netOut{}
	for _, n := range nets {
		o := netOut{n.Name, n.Class, []terminalOut{}}
		for _, t := range n.Terminals {
			o.Terminals = append(o.Terminals, terminalOut{t.TerminalRef, t.Hole, faceOf(t)})
		}
		out = append(out, o)
	}
	return out
}

func openOf(open []netlist.Open) []openOut {
	out := []openOut{}
	for _, o := range open {
		out = append(out, openOut{o.TerminalRef, o.Hole, o.Why})
	}
	return out
}
