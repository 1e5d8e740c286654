package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/wiring"
)

// The parts of the small example. They are the tests' own, so that a better catalogue does not
// change a golden file.
func exampleParts() map[string]part.Definition {
	at := func(name string, col, row int, net string) part.Terminal {
		return part.Terminal{Name: name, At: [2]int{col, row}, MM: [2]float64{float64(col) * 2.54, float64(row) * 2.54}, Net: net}
	}
	body := func(left, top, right, bottom float64) []part.Body {
		return []part.Body{{Face: grid.Front, Rect: [4]float64{left, top, right, bottom}, Height: 4}}
	}
	key := part.Definition{Name: "6 x 6 mm tactile switch", Kind: part.Switch, Prefix: "S",
		Terminals: []part.Terminal{at("A1", 0, 0, ""), at("A2", 3, 0, ""), at("B1", 0, 2, ""), at("B2", 3, 2, "")},
		Joined:    [][]string{{"A1", "A2"}, {"B1", "B2"}},
		Contacts:  []part.Contact{{Name: "press", Between: [2]string{"A1", "B1"}}},
		Bodies:    body(0.81, -0.46, 6.81, 5.54)}
	resistor := part.Definition{Name: "resistor", Kind: part.Resistor, Prefix: "R",
		Terminals: []part.Terminal{at("1", 0, 0, ""), at("2", 4, 0, "")}, Bodies: body(1.93, -1.2, 8.23, 1.2)}
	module := part.Definition{Name: "6-pin module", Kind: part.Module, Prefix: "U", Facts: part.Facts{Chip: "RP2040"},
		Terminals: []part.Terminal{at("GP0", 0, 0, ""), at("GP1", 0, 1, ""), at("GND", 0, 2, part.Ground), at("GP2", 4, 2, ""), at("GP3", 4, 1, ""), at("3V3", 4, 0, part.Supply3V3)},
		Bodies:    body(-1.5, -1.5, 11.66, 6.58)}
	module.Bodies[0].Overhang = "top"
	for i := range module.Terminals {
		t := &module.Terminals[i]
		t.Pin = strconv.Itoa(i + 1)
		if strings.HasPrefix(t.Name, "GP") {
			t.GPIO = t.Name
		}
	}
	return map[string]part.Definition{"key": key, "resistor": resistor, "module": module}
}

// example is two keys and a resistor on the front, a module on the back, and one wire of each kind.
func example() Drawing {
	p := panel.New("Two-key counter")
	p.Boards[0].Columns, p.Boards[0].Rows = 16, 12
	p.Parts = exampleParts()
	p.Placed = []panel.Placed{
		{Ref: "R1", Part: "resistor", At: grid.MustHole("B11"), Value: "4.7k"},
		{Ref: "S1", Part: "key", At: grid.MustHole("B2"), Key: &panel.Key{Legend: "+1"}},
		{Ref: "S2", Part: "key", At: grid.MustHole("B7"), Key: &panel.Key{Legend: "Start over"}},
		{Ref: "U1", Part: "module", At: grid.MustHole("O3"), Face: grid.Back},
	}
	p.Pins.Locked["S1"] = "GP0"
	p.Tidy()
	wire := func(step int, net string, class netlist.Class, kind wiring.Kind, colour string, path ...string) wiring.Wire {
		w := wiring.Wire{Step: step, Net: net, Class: class, Kind: kind, Face: grid.Back, Colour: colour}
		for _, h := range path {
			w.Path = append(w.Path, grid.MustHole(h))
		}
		w.From, w.To = w.Path[0], w.Path[len(w.Path)-1]
		return w
	}
	return Drawing{
		Panel: &p,
		Wiring: &wiring.Result{Wires: []wiring.Wire{
			wire(0, "ground", netlist.Ground, wiring.Leg, "", "B4", "E4"),
			wire(1, "ground", netlist.Ground, wiring.Bare, "", "B4", "B5", "B6", "B7"),
			wire(2, "R1 link", netlist.Link, wiring.Solder, "", "F11", "G11"),
			wire(3, "key S1", netlist.Signal, wiring.Insulated, "WH", "E2", "O3"),
			wire(4, "ground", netlist.Ground, wiring.Insulated, "BK", "B7", "O5"),
		}},
		Pins: &pinning.Result{Module: "U1", Chip: "RP2040", Free: []string{"GP1", "GP2", "GP3"},
			Pins: []pinning.Pin{{Signal: "S1", Net: "key S1", GPIO: "GP0", Terminal: "GP0", ModulePin: "1", Function: "digital in", Pull: "up", Reason: "Locked by the maker."}}},
		Findings: []finding.Finding{{Severity: finding.Mind, Code: "key-legend", Where: finding.Where{Refs: []string{"S2"}}, Text: "Key S2 has a long legend.", Fix: "Shorten it."}},
	}
}

func write(t *testing.T, d Drawing, v View) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := d.Write(&b, v); err != nil {
		t.Fatalf("Write(%+v): %v", v, err)
	}
	return b.Bytes()
}

// views are one of each style, both faces where it has them, and every room.
func views() []View {
	h := []grid.Hole{grid.MustHole("B4"), grid.MustHole("B7")}
	list := []View{{Style: Picture}, {Style: Bench, Face: grid.Back, Holes: h, Wire: 1}, {Style: Bench, Holes: h}, {Style: Bench}}
	for _, room := range []string{"", "place", "scan", "wire", "build", "prove", "no such room"} {
		for _, f := range []grid.Face{grid.Front, grid.Back} {
			list = append(list, View{Face: f, Room: room, Built: 2}, View{Face: f, Room: room, Style: Print})
		}
	}
	return list
}

// A node is an element of a parsed drawing.
type node struct {
	name     string
	attr     map[string]string
	text     string
	parent   *node
	children []*node
}

// parse reads a drawing with the standard library's strict XML reader.
func parse(t rapid.TB, svg []byte) *node {
	t.Helper()
	root := &node{}
	at := root
	for dec := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, svg)
		}
		switch e := token.(type) {
		case xml.StartElement:
			n := &node{name: e.Name.Local, attr: map[string]string{}, parent: at}
			for _, a := range e.Attr {
				if _, twice := n.attr[a.Name.Local]; twice {
					t.Fatalf("<%s> has attribute %s twice", n.name, a.Name.Local)
				}
				n.attr[a.Name.Local] = a.Value
			}
			at.children = append(at.children, n)
			at = n
		case xml.EndElement:
			at = at.parent
		case xml.CharData:
			at.text += string(e)
		case xml.ProcInst, xml.Directive, xml.Comment:
			t.Fatalf("a drawing holds %T", e)
		}
	}
	if len(root.children) != 1 || root.children[0].name != "svg" {
		t.Fatalf("a drawing is one svg element, got %d", len(root.children))
	}
	return root.children[0]
}

// all lists n and everything in it.
func (n *node) all() []*node {
	list := []*node{n}
	for _, c := range n.children {
		list = append(list, c.all()...)
	}
	return list
}

func (n *node) has(class string) bool {
	return slices.Contains(strings.Fields(n.attr["class"]), class)
}

// with lists the elements of n that carry a class.
func (n *node) with(class string) []*node {
	var list []*node
	for _, e := range n.all() {
		if e.has(class) {
			list = append(list, e)
		}
	}
	return list
}

// number reads a coordinate; a missing or wrong one fails the test.
func (n *node) number(t *testing.T, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(n.attr[name], 64)
	if err != nil {
		t.Fatalf("<%s> %s=%q: %v", n.name, name, n.attr[name], err)
	}
	return v
}

// words is all the text in n.
func (n *node) words() string {
	var list []string
	for _, e := range n.all() {
		if e.text != "" {
			list = append(list, e.text)
		}
	}
	return strings.Join(list, " ")
}
