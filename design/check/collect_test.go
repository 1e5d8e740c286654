package check

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/wiring"
	"pgregory.net/rapid"
)

func TestCollectMergesStagesWorstFirst(t *testing.T) {
	d := newDesk()
	d.panel.Find("S3").Key.Legend = ""
	c := d.plan()
	c.Fit = &fit.Result{Findings: []finding.Finding{{Severity: finding.Note, Code: "fit-lead-form", Text: "form"}}}
	c.Scan.Findings = []finding.Finding{{Severity: finding.Mind, Code: "scan-x", Text: "scan"}}
	c.Pins.Findings = []finding.Finding{{Severity: finding.Stop, Code: "pin-x", Text: "pin"}}
	c.Nets.Findings = []finding.Finding{{Severity: finding.Note, Code: "net-x", Text: "net"}, {Severity: finding.Note, Code: "net-x", Text: "net"}}
	c.Wiring = &wiring.Result{Findings: []finding.Finding{{Severity: finding.Stop, Code: "wire-x", Text: "wire"}}}
	var codes []string
	for _, f := range Collect(c) {
		codes = append(codes, f.Severity.String()+" "+f.Code)
	}
	want := []string{"stop pin-x", "stop wire-x", "mind key-legend-missing", "mind scan-x", "note fit-lead-form", "note net-x"}
	if !slices.Equal(codes, want) {
		t.Errorf("got %q, want %q", codes, want)
	}
}

// What a stage has said of a place is not said again; what it has not said stays.
func TestCollectSaysThingsOnce(t *testing.T) {
	d := newDesk()
	d.place("R7", resistorDef()).Value = "1k"
	d.place("R8", resistorDef()).Value = "1k"
	keys("S1", "S8")(d)
	c := d.plan()
	c.Nets.Findings = []finding.Finding{{Severity: finding.Mind, Code: "net-lonely", Where: atParts("R7"), Text: "R7 is alone."}}
	c.Scan.Findings = []finding.Finding{{Severity: finding.Stop, Code: "scan-chord-missing", Where: atKeys("S8"), Text: "S8 is not there."}}
	found := Collect(c)
	if got := said(found, "part-unused"); len(got) != 1 || got[0][:11] != "Resistor R8" {
		t.Errorf("part-unused says %q, want R8 alone", got)
	}
	if got := said(found, "chord-key-missing"); len(got) != 0 {
		t.Errorf("chord-key-missing says %q after the scan has said it", got)
	}
	if got := said(All(c), "part-unused"); len(got) != 2 {
		t.Errorf("by themselves the rules say %q, want both", got)
	}
}

// A part off the board is the fit's to say, and two leads in one hole are no second short.
func TestCollectDropsRepeatsOfStages(t *testing.T) {
	c := newDesk().plan()
	c.Fit = &fit.Result{Findings: []finding.Finding{{Severity: finding.Stop, Code: "fit-off-board", Where: atParts("S1"), Text: "S1 is off."}}}
	c.Wiring = &wiring.Result{Findings: []finding.Finding{
		{Severity: finding.Stop, Code: "wire-off-board", Where: atParts("S1", "S2"), Text: "S1 is off."},
		{Severity: finding.Stop, Code: "wire-off-board", Where: atParts("S4"), Text: "S4 is off."},
		{Severity: finding.Stop, Code: "wire-copper-short", Where: atParts("S4"), Text: "Two nets meet."},
	}}
	c.Pins.Findings = []finding.Finding{{Severity: finding.Stop, Code: "pin-no-module", Where: finding.Where{Net: "row 0"}, Text: "No module."}}
	c.Nets.Findings = []finding.Finding{{Severity: finding.Stop, Code: "net-no-source", Where: atParts("U2"), Text: "No source."}}
	var texts []string
	for _, f := range Collect(c) {
		texts = append(texts, f.Text)
	}
	if want := []string{"S1 is off.", "No module.", "Two nets meet.", "S4 is off."}; !slices.Equal(texts, want) {
		t.Errorf("got %q, want %q", texts, want)
	}
}

// Of an LED that is named for a line that is not there, the reason is said and nothing else.
func TestCollectSaysOnceOfALamp(t *testing.T) {
	for _, code := range []string{"scan-lamp-alone", "scan-lamp-missing", "scan-lamp-many", "net-lamp-unwired"} {
		d := newDesk()
		d.place("D7", ledDef()).Value = "red"
		d.open("D7.A", "D7.K")
		c := d.plan()
		c.Nets.Findings = []finding.Finding{{Severity: finding.Mind, Code: "net-lonely", Where: atParts("D7"), Text: "D7 is alone."}}
		c.Scan.Findings = []finding.Finding{{Severity: finding.Mind, Code: code, Where: atParts("D7"), Text: "D7 has no line."}}
		if found := Collect(c); len(found) != 1 || found[0].Code != code {
			t.Errorf("%s: says %v", code, found)
		}
	}
}

func TestMeet(t *testing.T) {
	a1, b1 := grid.MustHole("A1"), grid.MustHole("B1")
	tests := []struct {
		a, b finding.Where
		want bool
	}{
		{atParts("R1", "D1"), atParts("D1"), true},
		{atParts("R1"), atParts("R2"), false},
		{atKeys("S9.up"), atParts("S9"), true},
		{atKeys("S9.up"), atKeys("S9.down"), true}, // one part
		{finding.Where{Net: "row 0"}, finding.Where{Net: "row 0", Refs: []string{"R1"}}, true},
		{finding.Where{Net: "row 0"}, finding.Where{Net: "row 1"}, false},
		{finding.Where{Pin: "GP4"}, finding.Where{Pin: "GP4"}, true},
		{finding.Where{Holes: []grid.Hole{a1}}, finding.Where{Holes: []grid.Hole{b1, a1}}, true},
		{finding.Where{Holes: []grid.Hole{a1}}, finding.Where{Holes: []grid.Hole{b1}}, false},
		{finding.Where{}, atParts("R1"), true},
	}
	for _, tt := range tests {
		if got := meet(tt.a, tt.b); got != tt.want {
			t.Errorf("meet(%v, %v) = %v, want %v", tt.a, tt.b, got, tt.want)
		}
	}
}

// A case with nothing but a panel, whatever is in it, is looked at without harm.
func TestBareCases(t *testing.T) {
	empty := panel.New("empty")
	lost := panel.New("lost")
	lost.Placed = []panel.Placed{{Ref: "X1", Part: "nowhere"}, {Ref: "U1", Part: "nothing"}}
	lost.Boards = nil
	lost.Chords = []panel.Chord{{}, {Name: "x", Keys: []string{"", "S1"}}}
	for _, p := range []*panel.Panel{&empty, &lost} {
		for _, f := range Collect(&Case{Panel: p}) {
			if f.Text == "" || f.Fix == "" || f.Code == "" {
				t.Errorf("%s: finding without words: %+v", p.Name, f)
			}
		}
	}
	if got := All(&Case{Panel: &empty}); len(got) != 1 || got[0].Code != "key-none" {
		t.Errorf("an empty panel gets %v, want key-none alone", got)
	}
}

// Any of the trials' changes together: no panic, the same twice, whole sentences, writable as JSON.
func TestAnyChangesTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := newDesk()
		for range rapid.IntRange(0, 3).Draw(t, "changes") {
			tt := rapid.SampledFrom(trials).Draw(t, "trial")
			func() {
				defer func() { _ = recover() }() // changes that contradict each other are no panel
				tt.edit(d)
			}()
		}
		c := d.plan()
		found := Collect(c)
		if again := Collect(c); fmt.Sprint(found) != fmt.Sprint(again) {
			t.Fatalf("two looks differ:\n%v\n%v", found, again)
		}
		for _, f := range found {
			if n := len(f.Text); n == 0 || f.Text[n-1] != '.' || len(f.Fix) == 0 || f.Fix[len(f.Fix)-1] != '.' {
				t.Fatalf("%s is no sentence: %q %q", f.Code, f.Text, f.Fix)
			}
		}
		if _, err := json.Marshal(found); err != nil {
			t.Fatal(err)
		}
	})
}

// BenchmarkAll looks at a panel of 60 parts: 40 keys, 8 LEDs with resistors, module, display and more.
func BenchmarkAll(b *testing.B) {
	d := newDesk()
	for i := range 36 {
		ref := fmt.Sprintf("S%d", 10+i)
		d.place(ref, keyDef()).Key = &panel.Key{Legend: ref}
		d.net(fmt.Sprintf("row %d", i/9), "row", ref+".A1", ref+".A2")
		d.net(fmt.Sprintf("column %d", i%9), "column", ref+".B1", ref+".B2")
	}
	leds(5)(d)
	d.encoder("up")
	d.battery()
	d.joystick("3V3")
	d.resistor("R50", "4.7k", "display SDA", "3V3")
	c := d.plan()
	b.ReportMetric(float64(len(c.Panel.Placed)), "parts")
	b.ReportAllocs()
	for b.Loop() {
		Collect(c)
	}
}
