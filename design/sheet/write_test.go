package sheet

import (
	"bytes"
	"flag"
	"math"
	"os"
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
	"fascia/design/scan"
	"fascia/design/wiring"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGoldenDrawings(t *testing.T) {
	module := func(d Drawing) []byte {
		var b bytes.Buffer
		if err := Module(&b, d); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	tests := []struct {
		file string
		svg  []byte
	}{
		{"front-screen.svg", write(t, example(), View{Room: "place"})},
		{"back-screen.svg", write(t, example(), View{Face: grid.Back, Room: "wire", Built: 1})},
		{"back-print.svg", write(t, example(), View{Face: grid.Back, Style: Print, Room: "wire"})},
		{"picture.svg", write(t, example(), View{Style: Picture})},
		{"bench.svg", write(t, example(), View{Style: Bench, Face: grid.Back, Holes: []grid.Hole{grid.MustHole("E2"), grid.MustHole("O3")}, Wire: 3, Built: 2})},
		{"module.svg", module(example())},
	}
	for _, tt := range tests {
		name := "testdata/" + tt.file
		if *update {
			if err := os.WriteFile(name, tt.svg, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(tt.svg, want) {
			t.Errorf("%s has changed; look at the difference, then run with -update", tt.file)
		}
	}
}

func TestWriteGivesTheSameBytesEachTime(t *testing.T) {
	for _, v := range views() {
		first := write(t, example(), v)
		for range 3 {
			if !bytes.Equal(first, write(t, example(), v)) {
				t.Errorf("%+v: two drawings of one panel differ", v)
			}
		}
	}
}

// What may stand in a drawing at all. Anything with a reference, a script or a style in it is not
// on the list.
var (
	elements   = strings.Fields("svg g title rect circle path text")
	attributes = strings.Fields(`class transform x y width height rx cx cy r d font-size viewBox xmlns
		text-anchor font-family font-weight fill fill-opacity stroke stroke-width stroke-dasharray
		stroke-linecap stroke-linejoin paint-order opacity`)
	data = strings.Fields(`face mirror pitch board at columns rows ref part turn part-face name terminal key
		wire index net from to code finding pin gpio signal`)
)

func checkAllowed(t rapid.TB, svg []byte) {
	t.Helper()
	known := Classes()
	for _, n := range parse(t, svg).all() {
		if !slices.Contains(elements, n.name) {
			t.Fatalf("a drawing holds <%s>", n.name)
		}
		for name, value := range n.attr {
			own, isData := strings.CutPrefix(name, "data-")
			if isData && !slices.Contains(data, own) || !isData && !slices.Contains(attributes, name) {
				t.Fatalf("<%s> has the attribute %s=%q", n.name, name, value)
			}
			if !isData && strings.Contains(value, "url") {
				t.Fatalf("<%s> %s=%q refers to something", n.name, name, value)
			}
		}
		for _, c := range strings.Fields(n.attr["class"]) {
			if !slices.Contains(known, c) {
				t.Fatalf("class %s is not in Classes()", c)
			}
		}
	}
}

func TestOnlyAllowedElementsAndAttributes(t *testing.T) {
	for _, d := range []Drawing{example(), catalogued(0, grid.Front), catalogued(3, grid.Back), boarded()} {
		for _, v := range views() {
			checkAllowed(t, write(t, d, v))
		}
	}
}

// catalogued places one of every part in the catalogue, in a row that no board is large enough for.
func catalogued(turn grid.Turn, face grid.Face) Drawing {
	p := panel.New("Catalogue")
	p.Parts = part.BuiltIn()
	cells := &scan.Result{}
	for i, id := range part.BuiltIn().IDs() {
		d := p.Parts[id]
		pl := panel.Placed{Ref: d.Prefix + strconv.Itoa(i), Part: id, At: grid.Hole{Col: 5 + i*8, Row: 30}, Turn: turn, Face: face, Keys: map[string]panel.Key{}}
		for _, c := range d.Contacts {
			pl.Keys[c.Name] = panel.Key{Legend: c.Name}
			pl.Key = &panel.Key{Legend: c.Name}
			cells.Cells = append(cells.Cells, scan.Cell{Key: pl.Ref, Row: i, Column: 1})
		}
		p.Placed = append(p.Placed, pl)
	}
	return Drawing{Panel: &p, Scan: cells}
}

// boarded is three boards of each kind of copper, joined with a misfit.
func boarded() Drawing {
	p := panel.New("Boards")
	p.Boards = []panel.Board{
		{ID: "A", Columns: 10, Rows: 8, Copper: panel.Pads, Plated: true},
		{ID: "B", Columns: 10, Rows: 8, At: grid.MustHole("L1"), Copper: panel.Strips, Faces: panel.BackOnly, Cuts: []grid.Hole{grid.MustHole("N3")},
			Seam: &panel.Seam{Board: "A", Side: "right", AcrossMM: 0.5, AlongMM: 0.2}},
		{ID: "C", Columns: 10, Rows: 4, At: grid.MustHole("A10"), Copper: panel.Groups, Groups: [][]grid.Hole{{grid.MustHole("B11"), grid.MustHole("C11"), grid.MustHole("E11")}},
			Seam: &panel.Seam{Board: "A", Side: "bottom"}},
	}
	p.Wires.KeepOut = []grid.Hole{grid.MustHole("C3")}
	p.Tidy()
	return Drawing{Panel: &p}
}

// Hostile texts in every place that a file from a stranger may fill must stay text.
func TestHostileTextsStayText(t *testing.T) {
	nasty := []string{`<script>alert(1)</script>`, `"><image href="javascript:x"/>`, `' onload='x`, "&amp;&#x0;&bogus;", "]]>", "<!--", "a\u202Eb\u2066c\u200D",
		"\x00\x1b[31m\uFFFE", "\xff\xfe", "<?xml?>", "日本語の長い凡例です", strings.Repeat("W", 400), ""}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.SampledFrom(nasty), rapid.String())
		d := example()
		p := d.Panel
		p.Name, p.Boards[0].ID = text.Draw(t, "name"), text.Draw(t, "board")
		for i := range p.Placed {
			pl := &p.Placed[i]
			def := p.Parts[pl.Part]
			def.Name, def.Facts.Chip = text.Draw(t, "definition"), text.Draw(t, "chip")
			if rapid.Bool().Draw(t, "kind too") {
				def.Kind = part.Kind(rapid.OneOf(text, rapid.Map(rapid.SampledFrom(part.Kinds), func(k part.Kind) string { return string(k) })).Draw(t, "kind"))
			}
			def.Terminals = slices.Clone(def.Terminals)
			for j := range def.Terminals {
				term := &def.Terminals[j]
				term.Name, term.GPIO, term.Pin, term.Net = text.Draw(t, "terminal"), text.Draw(t, "gpio"), text.Draw(t, "pin"), text.Draw(t, "net")
			}
			id := text.Draw(t, "id")
			p.Parts[id] = def
			pl.Ref, pl.Part, pl.Value = text.Draw(t, "ref"), id, text.Draw(t, "value")
			pl.Key = &panel.Key{Legend: text.Draw(t, "legend")}
		}
		for i := range d.Wiring.Wires {
			w := &d.Wiring.Wires[i]
			w.Net, w.Class, w.Colour, w.Kind = text.Draw(t, "net"), netlist.Class(text.Draw(t, "class")), text.Draw(t, "colour"), wiring.Kind(text.Draw(t, "wire"))
		}
		d.Pins.Module, d.Pins.Pins[0].Net = p.Placed[0].Ref, text.Draw(t, "pin net")
		d.Findings = append(d.Findings, finding.Finding{Code: text.Draw(t, "code"), Text: text.Draw(t, "text"), Where: finding.Where{Holes: []grid.Hole{{}}}})
		for _, v := range views() {
			var b bytes.Buffer
			if err := d.Write(&b, v); err != nil {
				t.Fatal(err)
			}
			checkAllowed(t, b.Bytes())
		}
		var b bytes.Buffer
		if err := Module(&b, d); err == nil {
			checkAllowed(t, b.Bytes())
		}
	})
}

// Whatever way a part lies, its leads are drawn at their holes: as they are from the front, at
// mirror - x from the back.
func TestLeadsAreDrawnAtTheirHoles(t *testing.T) {
	c := part.BuiltIn()
	rapid.Check(t, func(t *rapid.T) {
		id := rapid.SampledFrom(c.IDs()).Draw(t, "part")
		def := c[id]
		p := panel.New("x")
		p.Boards[0].At = grid.Hole{Col: rapid.IntRange(0, 9).Draw(t, "board")}
		pl := panel.Placed{Ref: "X1", Part: id, At: grid.Hole{Col: rapid.IntRange(0, 40).Draw(t, "col"), Row: rapid.IntRange(0, 40).Draw(t, "row")},
			Turn: grid.Turn(rapid.IntRange(0, 3).Draw(t, "turn")), Face: rapid.SampledFrom([]grid.Face{grid.Front, grid.Back}).Draw(t, "face")}
		p.Parts[id], p.Placed = def, []panel.Placed{pl}
		for _, face := range []grid.Face{grid.Front, grid.Back} {
			var b bytes.Buffer
			if err := (Drawing{Panel: &p}).Write(&b, View{Face: face}); err != nil {
				t.Fatal(err)
			}
			root := parse(t, b.Bytes())
			mirror := Mirror(&p)
			leads := map[string]grid.Point{}
			for _, n := range root.with("part")[0].all() {
				if name := n.attr["data-terminal"]; name != "" {
					leads[name] = leadPlace(t, n)
				}
			}
			for _, term := range def.Terminals {
				want := pl.Pose().Hole(term.Offset()).Centre()
				if face == grid.Back {
					want.X = mirror - want.X
				}
				if got, ok := leads[term.Name]; !ok || got.Distance(want) > 0.02 {
					t.Fatalf("%s %s seen from the %s is drawn at %v (%v); want %v", id, term.Name, face, got, ok, want)
				}
			}
		}
	})
}

// leadPlace is the middle of a lead on the sheet, its part's place added.
func leadPlace(t *rapid.T, n *node) grid.Point {
	num := func(n *node, name string) grid.Millimetre {
		v, err := strconv.ParseFloat(n.attr[name], 64)
		if err != nil {
			t.Fatalf("%s=%q", name, n.attr[name])
		}
		return grid.Millimetre(v)
	}
	var at grid.Point
	if n.name == "circle" {
		at = grid.Point{X: num(n, "cx"), Y: num(n, "cy")}
	} else {
		at = grid.Point{X: num(n, "x") + num(n, "width")/2, Y: num(n, "y") + num(n, "height")/2}
	}
	for m := n; m != nil; m = m.parent {
		moved, ok := strings.CutPrefix(m.attr["transform"], "translate(")
		if !ok {
			continue
		}
		x, y, _ := strings.Cut(strings.TrimSuffix(moved, ")"), " ")
		fx, _ := strconv.ParseFloat(x, 64)
		fy, _ := strconv.ParseFloat(y, 64)
		at = at.Add(grid.Point{X: grid.Millimetre(fx), Y: grid.Millimetre(fy)})
	}
	return at
}

func TestBackIsMirroredButReadable(t *testing.T) {
	d := example()
	root := parse(t, write(t, d, View{Face: grid.Back}))
	if got, want := root.attr["data-mirror"], string(appendMM(nil, Mirror(d.Panel))); got != want {
		t.Errorf("data-mirror = %q, want %q", got, want)
	}
	if front := parse(t, write(t, d, View{})); front.attr["data-mirror"] != "" {
		t.Errorf("the front has data-mirror %q", front.attr["data-mirror"])
	}
	for _, n := range root.all() {
		if tr := n.attr["transform"]; strings.Contains(tr, "scale") || strings.Contains(tr, "matrix") {
			t.Errorf("<%s transform=%q> would mirror its text", n.name, tr)
		}
	}
	labels := map[string]float64{}
	for _, n := range root.with("grid-label") {
		labels[n.text] = n.number(t, "x")
	}
	if !(labels["A"] > labels["B"] && labels["B"] > labels["P"]) {
		t.Errorf("columns do not run from right to left on the back: %v", labels)
	}
}

func TestBothFacesFillTheSameRoom(t *testing.T) {
	d := Drawing{Panel: boarded().Panel}
	front, back := parse(t, write(t, d, View{})), parse(t, write(t, d, View{Face: grid.Back}))
	if front.attr["viewBox"] != back.attr["viewBox"] {
		t.Errorf("view boxes differ: %q and %q", front.attr["viewBox"], back.attr["viewBox"])
	}
}

func TestPartsSayWhatThePageNeeds(t *testing.T) {
	root := parse(t, write(t, example(), View{Room: "place"}))
	parts := root.with("part")
	if len(parts) != 4 {
		t.Fatalf("%d parts drawn, want 4", len(parts))
	}
	for _, n := range parts {
		if n.attr["data-ref"] != "S1" {
			continue
		}
		if n.attr["data-at"] != "B2" || n.attr["data-turn"] != "0" || n.attr["data-part"] != "key" || n.attr["data-part-face"] != "front" || !n.has("this-face") || !n.has("kind-switch") {
			t.Errorf("S1 says %v", n.attr)
		}
		if got, want := n.children[0].text, "S1, key +1, 6 x 6 mm tactile switch at B2"; n.children[0].name != "title" || got != want {
			t.Errorf("S1 is called %q, want %q", got, want)
		}
		hit := n.with("hit")[0]
		if w, h := hit.number(t, "width"), hit.number(t, "height"); w < 6 || h < 6 {
			t.Errorf("S1 can be hit on %v x %v mm, less than its body", w, h)
		}
		if keys := n.with("key"); len(keys) != 1 || keys[0].attr["data-key"] != "S1" {
			t.Errorf("S1 holds %d keys", len(keys))
		}
	}
	if far := root.with("other-face"); len(far) != 1 || far[0].attr["data-ref"] != "U1" || len(far[0].with("mask")) != 0 {
		t.Errorf("the module on the back is not a dashed outline")
	}
	if overlay := root.with("overlay"); len(overlay) != 1 || len(overlay[0].children) != 0 {
		t.Errorf("want one empty overlay")
	}
}

func TestWiresSayWhatTheyAre(t *testing.T) {
	root := parse(t, write(t, example(), View{Face: grid.Back, Room: "wire", Built: 2}))
	byStep := map[string]*node{}
	for _, n := range root.with("wire") {
		byStep[n.attr["data-wire"]] = n
	}
	tests := []struct {
		step    string
		classes []string
		net     string
	}{
		{"0", []string{"wire-leg", "net-ground", "built"}, "ground"},
		{"1", []string{"wire-bare", "net-ground", "face-back", "built"}, "ground"},
		{"2", []string{"wire-solder", "net-link", "built"}, "R1 link"},
		{"3", []string{"wire-insulated", "net-signal", "pencil"}, "key S1"},
	}
	for _, tt := range tests {
		n := byStep[tt.step]
		if n == nil {
			t.Fatalf("wire %s is not drawn", tt.step)
		}
		for _, c := range tt.classes {
			if !n.has(c) {
				t.Errorf("wire %s has classes %q, not %s", tt.step, n.attr["class"], c)
			}
		}
		if n.attr["data-net"] != tt.net {
			t.Errorf("wire %s is on net %q, want %q", tt.step, n.attr["data-net"], tt.net)
		}
	}
	if got := byStep["3"].words(); strings.Count(got, "WH") != 3 { // its name and both ends
		t.Errorf("wire 3 says %q; want its colour at both ends", got)
	}
	if len(byStep["3"].with("colour-WH")) != 1 {
		t.Error("wire 3 is not white")
	}
	front := parse(t, write(t, example(), View{Room: "wire"}))
	for _, n := range front.with("wire") {
		if !n.has("wire-leg") && len(n.with("far-wire")) != 1 {
			t.Errorf("wire %s of the back is not dashed on the front", n.attr["data-wire"])
		}
	}
}

func TestMarksPointAtFindings(t *testing.T) {
	d := example()
	d.Findings = []finding.Finding{
		{Severity: finding.Stop, Code: "a", Where: finding.Where{Holes: []grid.Hole{grid.MustHole("C3")}}, Text: "One.", Fix: "Two."},
		{Severity: finding.Note, Code: "b", Where: finding.Where{Keys: []string{"S1"}}},
		{Severity: finding.Mind, Code: "c", Where: finding.Where{Net: "ground"}},
		{Severity: finding.Mind, Code: "d", Where: finding.Where{Refs: []string{"Q9"}}},
	}
	marks := parse(t, write(t, d, View{})).with("mark")
	if len(marks) != 2 {
		t.Fatalf("%d marks, want 2: a finding without a place in view has none", len(marks))
	}
	if marks[0].attr["data-code"] != "a" || len(marks[0].with("note-stop")) == 0 || marks[0].children[0].text != "One. Two." {
		t.Errorf("the first mark is %v", marks[0].attr)
	}
	hit := marks[0].with("hit")[0]
	if x, y := hit.number(t, "cx"), hit.number(t, "cy"); math.Abs(x-5.08) > 0.01 || math.Abs(y-5.08) > 0.01 {
		t.Errorf("the mark of C3 is at %v, %v", x, y)
	}
	if len(marks[1].with("note-note")) == 0 {
		t.Error("the second mark is not a note")
	}
}

func TestScanRoomSaysWhereKeysAreRead(t *testing.T) {
	d := example()
	d.Scan = &scan.Result{Cells: []scan.Cell{{Key: "S1", Row: 1, Column: 3}}, Direct: []scan.Direct{{Key: "S2"}}}
	got := parse(t, write(t, d, View{Room: "scan"})).words()
	if !strings.Contains(got, "S1 r1 c3") || !strings.Contains(got, "S2 own pin") {
		t.Errorf("the Scan room does not name the cells: %s", got)
	}
	d.Scan = &scan.Result{Style: "lines", Cells: []scan.Cell{{Key: "S1", Row: 1, Column: 3}}, Direct: []scan.Direct{{Key: "S2", Via: "U3.GPA0"}}}
	got = parse(t, write(t, d, View{Room: "scan"})).words()
	if !strings.Contains(got, "S1 l1 l3") || !strings.Contains(got, "S2 U3.GPA0") {
		t.Errorf("the Scan room does not name lines and the expander: %s", got)
	}
	if strings.Contains(parse(t, write(t, d, View{Room: "place"})).words(), "l1 l3") {
		t.Error("the Place room names cells")
	}
}

func TestRotatedTextOnly(t *testing.T) {
	for _, n := range parse(t, write(t, catalogued(1, grid.Front), View{})).all() {
		if strings.Contains(n.attr["transform"], "rotate") && n.name != "text" {
			t.Errorf("<%s> is rotated", n.name)
		}
	}
}
