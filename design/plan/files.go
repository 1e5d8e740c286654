package plan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"fascia/design/bom"
	"fascia/design/grid"
	"fascia/design/ipc356"
	"fascia/design/netlist"
	"fascia/design/sheet"
	"fascia/design/wiring"
)

// A File is one output of a plan.
type File struct {
	Name  string // such as wiring.csv
	Media string // media type
	Says  string // what it is, in a few words
	Data  []byte
}

// Media types of the outputs.
const (
	mediaCSV  = "text/csv; charset=utf-8; header=present"
	mediaJSON = "application/json"
	mediaSVG  = "image/svg+xml"
	mediaText = "text/plain; charset=us-ascii"
)

// Files writes every output of the plan, in the order in which a maker needs them.
func (pl *Plan) Files() ([]File, error) {
	writers := []struct {
		name, media, says string
		write             func() ([]byte, error)
	}{
		{"plan.json", mediaJSON, "the whole plan", pl.JSON},
		{"findings.csv", mediaCSV, "what to mend", pl.findingsCSV},
		{"scan.csv", mediaCSV, "keys and cells", pl.scanCSV},
		{"pins.csv", mediaCSV, "signals and pins", pl.pinsCSV},
		{"nets.csv", mediaCSV, "what must be one node", pl.netsCSV},
		{"nets.ipc", mediaText, "the nets as IPC-D-356A, in 0.0001 inch", func() ([]byte, error) { return pl.netsIPC(ipc356.TenThousandthInch) }},
		{"nets-mm.ipc", mediaText, "the nets as IPC-D-356A, in 0.001 mm", func() ([]byte, error) { return pl.netsIPC(ipc356.Micrometre) }},
		{"wiring.csv", mediaCSV, "wires in order of work", pl.wiringCSV},
		{"bom.csv", mediaCSV, "what to buy", func() ([]byte, error) { return BOMFile(pl.BOM) }},
		{"keymap.json", mediaJSON, "what each key means", pl.keymapJSON},
		{"front.svg", mediaSVG, "the front at true size", func() ([]byte, error) { return pl.picture(grid.Front) }},
		{"back.svg", mediaSVG, "the back at true size, as the solderer sees it", func() ([]byte, error) { return pl.picture(grid.Back) }},
	}
	files := make([]File, 0, len(writers))
	for _, w := range writers {
		data, err := w.write()
		if err != nil {
			return nil, fmt.Errorf("write %s: %w", w.name, err)
		}
		files = append(files, File{w.name, w.media, w.says, data})
	}
	return files, nil
}

func (pl *Plan) findingsCSV() ([]byte, error) {
	t := heading("severity", "code", "where", "text", "fix")
	for _, f := range pl.Findings {
		t.add(text(f.Severity.String()), text(f.Code), text(f.Where.String()), text(f.Text), text(f.Fix))
	}
	return t.bytes()
}

func (pl *Plan) scanCSV() ([]byte, error) {
	t := heading("key", "legend", "row", "column", "code", "diode", "usage")
	for _, c := range pl.Scan.Cells {
		diode := "no"
		if c.Diode {
			diode = "yes"
		}
		t.add(text(c.Key), text(c.Legend), whole(c.Row), whole(c.Column), whole(c.Code), text(diode), text(c.Usage))
	}
	for _, d := range pl.Scan.Direct {
		t.add(text(d.Key), text(d.Legend), text(""), text(""), whole(d.Code), text("no"), text(d.Usage))
	}
	return t.bytes()
}

func (pl *Plan) pinsCSV() ([]byte, error) {
	t := heading("signal", "gpio", "module_pin", "function", "direction", "pull", "hole", "reason")
	for _, p := range pl.Pins.Pins {
		t.add(text(p.Signal), text(p.GPIO), text(p.ModulePin), text(p.Function), text(p.Direction), text(p.Pull), text(p.Hole.String()), text(p.Reason))
	}
	return t.bytes()
}

func (pl *Plan) netsCSV() ([]byte, error) {
	t := heading("net", "ref", "terminal", "hole", "face")
	for _, n := range pl.Nets.Nets {
		for _, term := range n.Terminals {
			t.add(text(n.Name), text(term.Ref), text(term.Terminal), text(term.Hole.String()), text(faceOf(term)))
		}
	}
	return t.bytes()
}

// faceOf is blank where both faces of the hole are one node.
func faceOf(t netlist.Terminal) string {
	if t.OneNode {
		return ""
	}
	return t.Face.String()
}

func (pl *Plan) wiringCSV() ([]byte, error) {
	t := heading("step", "net", "kind", "face", "from", "to", "path", "length_mm", "cut_mm", "colour", "gauge")
	for _, w := range pl.Wiring.Wires {
		t.add(whole(w.Step), text(w.Net), text(string(w.Kind)), text(wireFace(w)), text(w.From.String()), text(w.To.String()),
			text(grid.JoinHoles(w.Path)), tenths(w.LengthMM), tenths(w.CutMM), text(w.Colour), text(w.Gauge))
	}
	return t.bytes()
}

// wireFace is both for a link through one hole, which joins its two rings.
func wireFace(w wiring.Wire) string {
	if w.Through {
		return "both"
	}
	return w.Face.String()
}

func tenths(mm float64) number { return number(math.Round(mm*10) / 10) }

// BOMFile writes bom.csv from lines that may carry a maker's stock.
func BOMFile(lines []bom.Line) ([]byte, error) {
	t := heading("line", "quantity", "part", "value", "refs", "note", "have", "need")
	for _, l := range lines {
		t.add(whole(l.Line), whole(l.Quantity), text(l.Part), text(l.Value), text(strings.Join(l.Refs, " ")), text(l.Note), whole(l.Have), whole(l.Need))
	}
	return t.bytes()
}

func (pl *Plan) keymapJSON() ([]byte, error) { return indented(pl.Keymap) }

func (pl *Plan) picture(face grid.Face) ([]byte, error) {
	var out bytes.Buffer
	if err := pl.Drawing().Write(&out, sheet.View{Face: face, Style: sheet.Print, Room: "wire"}); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// indented writes v as the other JSON files are: fixed order, two spaces, a newline at the end.
func indented[T any](v T) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func hundredths(mm float64) float64 { return math.Round(mm*100) / 100 }
