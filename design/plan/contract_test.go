package plan_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/keymap"
	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/pinning"
	"fascia/design/plan"
	"fascia/design/scan"
	"fascia/design/wiring/randompanel"
)

// The columns of the contract, in order.
var columns = map[string]string{
	"findings.csv": "severity,code,where,text,fix",
	"scan.csv":     "key,legend,row,column,code,diode,usage",
	"pins.csv":     "signal,gpio,module_pin,function,direction,pull,hole,reason",
	"nets.csv":     "net,ref,terminal,hole,face",
	"wiring.csv":   "step,net,kind,face,from,to,path,length_mm,cut_mm,colour,gauge",
	"bom.csv":      "line,quantity,part,value,refs,note,have,need",
}

func filesOf(t testing.TB, pl *plan.Plan) map[string]plan.File {
	t.Helper()
	files, err := pl.Files()
	if err != nil {
		t.Fatal(err)
	}
	byName := map[string]plan.File{}
	for _, f := range files {
		byName[f.Name] = f
	}
	return byName
}

// rows reads a CSV file with Go's reader of RFC 4180 and returns its records by column.
func rows(t testing.TB, f plan.File) []map[string]string {
	t.Helper()
	if bytes.Contains(bytes.ReplaceAll(f.Data, []byte("\r\n"), nil), []byte("\r")) || !bytes.HasSuffix(f.Data, []byte("\r\n")) {
		t.Errorf("%s: lines must end in CRLF (RFC 4180, 2.1)", f.Name)
	}
	records, err := csv.NewReader(bytes.NewReader(f.Data)).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", f.Name, err)
	}
	if got := strings.Join(records[0], ","); got != columns[f.Name] {
		t.Fatalf("%s has columns %s; want %s", f.Name, got, columns[f.Name])
	}
	var out []map[string]string
	for _, r := range records[1:] {
		row := map[string]string{}
		for i, name := range records[0] {
			row[name] = plan.Unguard(r[i])
		}
		out = append(out, row)
	}
	return out
}

func TestDemosPlanWithoutAStop(t *testing.T) {
	for _, d := range demo.All() {
		p := d.Panel
		pl := plan.Make(&p)
		for _, f := range pl.Findings {
			if f.Severity == finding.Stop {
				t.Errorf("%s: %s %s: %s", d.ID, f.Code, f.Where, f.Text)
			}
		}
		files := filesOf(t, pl)
		for name := range columns {
			if n := len(rows(t, files[name])); n == 0 {
				t.Errorf("%s: %s is empty", d.ID, name)
			}
		}
		for _, name := range []string{"plan.json", "keymap.json"} {
			if !json.Valid(files[name].Data) {
				t.Errorf("%s: %s is not JSON", d.ID, name)
			}
		}
	}
}

// The same panel gives the same files to the byte, also after a trip through its project file.
func TestPlansDoNotVary(t *testing.T) {
	for _, d := range demo.All() {
		text, err := panel.Encode(d.Panel)
		if err != nil {
			t.Fatal(err)
		}
		again, err := panel.Decode(text)
		if err != nil {
			t.Fatal(err)
		}
		p := d.Panel
		first, second := filesOf(t, plan.Make(&p)), filesOf(t, plan.Make(&again))
		for name, f := range first {
			if !bytes.Equal(f.Data, second[name].Data) {
				t.Errorf("%s: %s differs between two runs", d.ID, name)
			}
		}
	}
}

// A node is a hole on a face; both faces are one where the board says so.
type node struct {
	hole grid.Hole
	face string
}

// The contract of a wiring plan, checked from the files alone: union-find over wiring.csv, the
// boards' copper and the parts' inner metal gives exactly nets.csv.
func TestWiringFilesGiveTheNets(t *testing.T) {
	panels := map[string]panel.Panel{}
	for _, d := range demo.All() {
		panels[d.ID] = d.Panel
		bare := d.Panel.Clone()
		for i := range bare.Boards {
			bare.Boards[i].Plated = false
		}
		panels[d.ID+" on a board that is not plated"] = bare
	}
	for seed := range uint64(60) { // of every style of reading, on boards of every kind of copper
		if p := randompanel.Make(seed); len(p.Modules()) > 0 && len(p.Keys()) > 2 {
			panels[p.Name] = p
		}
	}
	if len(panels) < 30 {
		t.Errorf("only %d panels", len(panels))
	}
	for name, p := range panels {
		t.Run(name, func(t *testing.T) {
			files := filesOf(t, plan.Make(&p))
			parent := map[node]node{}
			var find func(n node) node
			find = func(n node) node {
				up, ok := parent[n]
				if !ok || up == n {
					return n
				}
				root := find(up)
				parent[n] = root
				return root
			}
			union := func(a, b node) { parent[find(a)] = find(b) }
			at := func(h grid.Hole, face string) node {
				if b := p.BoardAt(h); b != nil && b.OneNode() {
					face = ""
				}
				return node{h, face}
			}
			terminal := func(pl *panel.Placed, name string) node {
				h, _ := p.HoleOf(panel.TerminalRef{Ref: pl.Ref, Terminal: name})
				return at(h, pl.Face.Other().String())
			}
			for i := range p.Placed {
				pl := &p.Placed[i]
				for _, metal := range p.Definition(pl).Joined {
					for _, name := range metal[1:] {
						union(terminal(pl, metal[0]), terminal(pl, name))
					}
				}
			}
			for i := range p.Boards {
				b := &p.Boards[i]
				for c := range b.Columns * b.Rows {
					h := b.At.Add(grid.Offset{Cols: c % b.Columns, Rows: c / b.Columns})
					for _, mate := range b.Mates(h) {
						for face := grid.Front; face <= grid.Back; face++ {
							if b.HasCopper(face) {
								union(at(h, face.String()), at(mate, face.String()))
							}
						}
					}
				}
			}
			for _, w := range rows(t, files["wiring.csv"]) {
				var path []grid.Hole
				for _, name := range strings.Fields(w["path"]) {
					path = append(path, grid.MustHole(name))
				}
				if path[0].String() != w["from"] || path[len(path)-1].String() != w["to"] {
					t.Fatalf("step %s: path %s does not lead from %s to %s", w["step"], w["path"], w["from"], w["to"])
				}
				for k := 1; k < len(path); k++ {
					if w["kind"] == "bare" && path[k].Steps(path[k-1]) != 1 {
						t.Errorf("step %s: a bare run jumps from %s to %s", w["step"], path[k-1], path[k])
					}
					union(at(path[k-1], w["face"]), at(path[k], w["face"]))
				}
				if w["face"] == "both" {
					union(at(path[0], "front"), at(path[0], "back"))
				}
			}
			netOf, rootOf := map[node]string{}, map[string]node{}
			for _, n := range rows(t, files["nets.csv"]) {
				where := find(at(grid.MustHole(n["hole"]), n["face"]))
				if other, ok := netOf[where]; ok && other != n["net"] {
					t.Errorf("%s and %s are shorted at %s", other, n["net"], n["hole"])
				}
				if root, ok := rootOf[n["net"]]; ok && root != where {
					t.Errorf("%s is open at %s", n["net"], n["hole"])
				}
				netOf[where], rootOf[n["net"]] = n["net"], where
			}
			if len(rootOf) < 5 {
				t.Errorf("only %d nets", len(rootOf))
			}
		})
	}
}

// Every optimised stage of plan.json states its cost, bound, gap and proof.
func TestStagesSayHowGoodTheyAre(t *testing.T) {
	for _, d := range demo.All() {
		p := d.Panel
		var whole map[string]json.RawMessage
		if err := json.Unmarshal(filesOf(t, plan.Make(&p))["plan.json"].Data, &whole); err != nil {
			t.Fatal(err)
		}
		for _, stage := range []string{"scan", "pins", "wiring"} {
			var says struct {
				Cost, Bound, Gap *float64
				Proved           *bool
			}
			if err := json.Unmarshal(whole[stage], &says); err != nil || says.Cost == nil || says.Bound == nil || says.Gap == nil || says.Proved == nil {
				t.Fatalf("%s: %s lacks a figure: %v", d.ID, stage, err)
			}
			if *says.Bound > *says.Cost+1e-9 || *says.Proved && *says.Gap > 1e-9 {
				t.Errorf("%s: %s has cost %v, bound %v, gap %v, proved %v", d.ID, stage, *says.Cost, *says.Bound, *says.Gap, *says.Proved)
			}
		}
	}
}

// An empty panel, and one whose parts are all in the wrong place, still plan.
func TestHardPanelsPlan(t *testing.T) {
	empty := panel.New("empty")
	crowd := demo.All()[0].Panel.Clone()
	for i := range crowd.Placed {
		crowd.Placed[i].At = grid.MustHole("A1")
	}
	off := demo.All()[1].Panel.Clone()
	for i := range off.Placed {
		off.Placed[i].At = grid.MustHole("ZZ702")
	}
	for name, p := range map[string]panel.Panel{"empty": empty, "crowd": crowd, "off": off} {
		pl := plan.Make(&p)
		filesOf(t, pl)
		if stops := pl.Stops(); (stops == 0) != (name == "empty") {
			t.Errorf("%s: %d stops", name, stops)
		}
	}
}

// Texts that a spreadsheet would take for a formula (OWASP, CSV Injection) are guarded and read
// back; negative numbers stay numbers.
func TestCSVGuard(t *testing.T) {
	p := demo.All()[0].Panel.Clone()
	legends := []string{"+1", "-1", "=1+2", "@x", `a,"b"`, "＝1"}
	for i, l := range legends {
		p.Find("S" + string(rune('1'+i))).Key.Legend = l
	}
	files := filesOf(t, plan.Make(&p))
	for i, record := range func() [][]string {
		r, err := csv.NewReader(bytes.NewReader(files["scan.csv"].Data)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return r[1:]
	}() {
		if cell := record[1]; cell != "" && strings.ContainsRune("=+-@＝", []rune(cell)[0]) {
			t.Errorf("line %d: cell %q is not guarded", i+2, cell)
		}
	}
	var got []string
	for _, r := range rows(t, files["scan.csv"]) {
		got = append(got, r["legend"])
	}
	for _, l := range legends {
		if !slices.Contains(got, l) {
			t.Errorf("legend %q is not read back from %q", l, got)
		}
	}
}

// Keys of lines have row and column as those of a matrix do; keys on an expander have neither, and
// keymap.json says which line reads them. Legends of any script come back as they were.
func TestScanFilesOfEveryStyle(t *testing.T) {
	p := panel.New("styles")
	tests := []struct {
		name string
		scan scan.Result
		want []string // key, row, column, code, diode
		via  string   // of S2
	}{
		{"lines", scan.Result{Style: "lines", Rows: 3, Columns: 3, Cells: []scan.Cell{
			{Key: "S1", Legend: "←é", Row: 0, Column: 1, Code: 1, Diode: true}, {Key: "S2", Legend: "音", Row: 2, Column: 0, Code: 6, Diode: true}}},
			[]string{"S1 ←é 0 1 1 yes", "S2 音 2 0 6 yes"}, ""},
		{"expander", scan.Result{Style: "expander", Direct: []scan.Direct{
			{Key: "S1", Legend: "-", Code: 0, Via: "U3.GPA0"}, {Key: "S2", Legend: "’", Code: 1, Via: "U3.GPB6"}}},
			[]string{"S1 -   0 no", "S2 ’   1 no"}, "U3.GPB6"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pl := plan.Plan{Panel: &p, Scan: tt.scan, Keymap: keymap.Of(&p, &tt.scan, &pinning.Result{})}
			files := filesOf(t, &pl)
			var got []string
			for _, r := range rows(t, files["scan.csv"]) {
				got = append(got, strings.Join([]string{r["key"], r["legend"], r["row"], r["column"], r["code"], r["diode"]}, " "))
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("scan.csv says %q, want %q", got, tt.want)
			}
			var m struct {
				Rows, Columns int
				Keys          []struct {
					Ref, Expander string
					Row, Column   *int
				}
			}
			if err := json.Unmarshal(files["keymap.json"].Data, &m); err != nil {
				t.Fatal(err)
			}
			if k := m.Keys[1]; m.Rows != tt.scan.Rows || m.Columns != tt.scan.Columns || k.Expander != tt.via || (k.Row == nil) != (tt.via != "") {
				t.Errorf("keymap.json says %+v", m)
			}
		})
	}
}

func BenchmarkMake(b *testing.B) {
	for _, d := range demo.All() {
		b.Run(d.ID, func(b *testing.B) {
			p := d.Panel
			var wires int
			for b.Loop() {
				wires = len(plan.Make(&p).Wiring.Wires)
			}
			b.ReportMetric(float64(wires), "wires")
			b.ReportMetric(float64(len(p.Placed)), "parts")
		})
	}
}
