package panel

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"fascia/design/grid"
	"fascia/design/part"

	"pgregory.net/rapid"
)

// twoKeys is a small panel: two switches on the front, one chord, one lock.
func twoKeys(t testing.TB) Panel {
	t.Helper()
	p := New("Two-key counter")
	for _, text := range []string{
		`{"do":"place","placed":{"ref":"","part":"tact6","at":"C5","turn":0,"face":"front"}}`,
		`{"do":"place","placed":{"ref":"","part":"tact6","at":"I5","turn":0,"face":"front"}}`,
		`{"do":"legend","key":"S1","legend":" +1 "}`,
		`{"do":"usage","key":"S1","usage":"07:57"}`,
		`{"do":"chord","name":"reset","keys":["S1","S2"]}`,
		`{"do":"lock-pin","signal":"S1","gpio":"GP4"}`,
	} {
		p = mustApply(t, p, text)
	}
	return p
}

func mustApply(t testing.TB, p Panel, text string) Panel {
	t.Helper()
	e, err := DecodeEdit([]byte(text))
	if err != nil {
		t.Fatalf("DecodeEdit(%s): %v", text, err)
	}
	after, _, err := Apply(p, e)
	if err != nil {
		t.Fatalf("Apply(%s): %v", text, err)
	}
	return after
}

func bytesOf(t testing.TB, p Panel) string {
	t.Helper()
	text, err := Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestApply(t *testing.T) {
	tests := []struct {
		name, edit string
		holds      func(Panel) bool
	}{
		{"place numbers itself", `{"do":"place","placed":{"ref":"","part":"tact6","at":"A1","turn":0,"face":"back"}}`,
			func(p Panel) bool {
				return p.Find("S3") != nil && p.Find("S3").Key != nil && p.Find("S3").Face == grid.Back
			}},
		{"remove cleans chords and locks", `{"do":"remove","refs":["S1"]}`,
			func(p Panel) bool {
				return p.Find("S1") == nil && len(p.Pins.Locked) == 0 && reflect.DeepEqual(p.Chords[0].Keys, []string{"S2"})
			}},
		{"remove the last of a kind forgets its definition", `{"do":"remove","refs":["S1","S2"]}`,
			func(p Panel) bool { return len(p.Parts) == 0 && len(p.Chords) == 0 }},
		{"move", `{"do":"move","refs":["S1","S2"],"columns":2,"rows":-1}`,
			func(p Panel) bool { return p.Find("S1").At.String() == "E4" && p.Find("S2").At.String() == "K4" }},
		{"renumber follows chords and locks", `{"do":"renumber","ref":"S1","to":"S9"}`,
			func(p Panel) bool { return p.Pins.Locked["S9"] == "GP4" && p.Chords[0].Keys[0] == "S9" }},
		{"duplicate leaves the legend to be typed", `{"do":"duplicate","refs":["S1"],"columns":0,"rows":5}`,
			func(p Panel) bool { d := p.Find("S3"); return d != nil && d.At.String() == "C10" && *d.Key == Key{} }},
		{"legends are trimmed", `{"do":"legend","key":"S2","legend":"  Frames "}`,
			func(p Panel) bool { return p.Find("S2").Key.Legend == "Frames" }},
		{"unlock", `{"do":"lock-pin","signal":"S1","gpio":""}`,
			func(p Panel) bool { return len(p.Pins.Locked) == 0 }},
		{"board changes by id", `{"do":"board","board":{"id":"A","columns":18,"rows":24,"at":"A1","copper":"pads","plated":false,"faces":"back"}}`,
			func(p Panel) bool { return len(p.Boards) == 1 && p.Boards[0].Columns == 18 }},
		{"a chord with a choice", `{"do":"chord","name":"reset","keys":["S1"],"any":[{"count":1,"of":["S2"]}]}`,
			func(p Panel) bool { return reflect.DeepEqual(p.Chords[0].All(), []string{"S1", "S2"}) }},
		{"spare less", `{"do":"prefer","spare":["I2C bus"]}`,
			func(p Panel) bool { return reflect.DeepEqual(p.Pins.Prefer, []string{I2CBus}) }},
		{"a wire just so", `{"do":"wire","wire":{"from":"C5","to":"I5","kind":"bare","face":"back","path":["C5","I5"]}}`,
			func(p Panel) bool { return len(p.Wires.Locked) == 1 && len(p.Wires.Locked[0].Path) == 2 }},
		{"wires of a net", `{"do":"net","net":"ground","insulated":true,"colour":"BK","gauge":24}`,
			func(p Panel) bool { return p.Wires.Nets[0] == NetWish{"ground", true, "BK", 24} }},
		{"a wish for nothing", `{"do":"net","net":"ground"}`, func(p Panel) bool { return p.Wires.Nets == nil }},
		{"how wires are laid", `{"do":"wiring","no_runs":["front"],"ends":3,"costs":null}`,
			func(p Panel) bool { return p.Wires.Ends == 3 && len(p.Wires.NoRuns) == 1 && p.Wires.Costs == nil }},
		{"spare nothing", `{"do":"prefer","spare":[]}`, func(p Panel) bool { return len(p.Pins.Prefer) == 0 }},
		{"together", `{"do":"together","label":"Two at once","edits":[{"do":"rename","name":"X"},{"do":"note","notes":"y"}]}`,
			func(p Panel) bool { return p.Name == "X" && p.Notes == "y" }},
		{"flip keeps the holes of a symmetric part", `{"do":"flip","refs":["S1"]}`,
			func(p Panel) bool { s := p.Find("S1"); return s.Face == grid.Back && s.At.String() == "F5" }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before := twoKeys(t)
			was := bytesOf(t, before)
			e, err := DecodeEdit([]byte(tt.edit))
			if err != nil {
				t.Fatal(err)
			}
			after, inverse, err := Apply(before, e)
			if err != nil {
				t.Fatal(err)
			}
			if !tt.holds(after) {
				t.Errorf("after %s the panel is\n%s", tt.edit, bytesOf(t, after))
			}
			if bytesOf(t, before) != was {
				t.Errorf("%s changed the panel it was applied to", tt.edit)
			}
			back, again, err := Apply(after, inverse)
			if err != nil || bytesOf(t, back) != was {
				t.Errorf("the inverse of %s gave %v\n%s", tt.edit, err, bytesOf(t, back))
			}
			redone, _, err := Apply(back, again)
			if err != nil || bytesOf(t, redone) != bytesOf(t, after) {
				t.Errorf("doing %s again gave %v", tt.edit, err)
			}
		})
	}
}

// A wire is found again from either end.
func TestLockedWires(t *testing.T) {
	p := mustApply(t, twoKeys(t), `{"do":"wire","wire":{"from":"C5","to":"I5","kind":"bare","face":"back"}}`)
	p = mustApply(t, p, `{"do":"wire","wire":{"from":"I5","to":"C5","kind":"insulated","face":"back","colour":"RD"}}`)
	if len(p.Wires.Locked) != 1 || p.Wires.Locked[0].Kind != "insulated" {
		t.Errorf("the second wire gave %+v", p.Wires.Locked)
	}
	p = mustApply(t, p, `{"do":"unlock-wire","from":"C5","to":"I5","face":"back"}`)
	if len(p.Wires.Locked) != 0 {
		t.Errorf("%+v is left", p.Wires.Locked)
	}
	e, err := DecodeEdit([]byte(`{"do":"unlock-wire","from":"C5","to":"I5","face":"back"}`))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := Apply(p, e); !errors.Is(err, ErrRefused) {
		t.Errorf("unlocking it again gave %v", err)
	}
}

// Chords and lamps follow parts that are renamed, and forget parts that go.
func TestChoicesFollowParts(t *testing.T) {
	p := mustApply(t, twoKeys(t), `{"do":"place","placed":{"ref":"","part":"led3","at":"C12","turn":0,"face":"front"}}`)
	p = mustApply(t, p, `{"do":"chord","name":"any","keys":[],"any":[{"count":2,"of":["S1","S2"]}]}`)
	s := p.Scan
	s.Lamps = []string{"D1"}
	p, _, err := Apply(p, &SetScan{Scan: s})
	if err != nil {
		t.Fatal(err)
	}
	p = mustApply(t, p, `{"do":"renumber","ref":"D1","to":"D7"}`)
	p = mustApply(t, p, `{"do":"renumber","ref":"S2","to":"S5"}`)
	if !reflect.DeepEqual(p.Scan.Lamps, []string{"D7"}) || !reflect.DeepEqual(p.Chords[1].Any[0], AnyOf{2, []string{"S1", "S5"}}) {
		t.Errorf("after renumbering: lamps %v, chord %v", p.Scan.Lamps, p.Chords[1])
	}
	was := bytesOf(t, p)
	after, inverse, err := Apply(p, &Remove{Refs: []string{"S1", "D7"}})
	if err != nil {
		t.Fatal(err)
	}
	if len(after.Scan.Lamps) != 0 || !reflect.DeepEqual(after.Chords[1].Any[0], AnyOf{1, []string{"S5"}}) {
		t.Errorf("after removal: lamps %v, chord %v", after.Scan.Lamps, after.Chords[1])
	}
	if back, _, err := Apply(after, inverse); err != nil || bytesOf(t, back) != was {
		t.Errorf("undo gave %v\n%s", err, bytesOf(t, back))
	}
}

func TestApplyRefuses(t *testing.T) {
	tests := []struct{ name, edit, want string }{
		{"unknown edit", `{"do":"explode"}`, "no edit is called"},
		{"unknown member", `{"do":"move","refs":["S1"],"cols":1}`, "not known"},
		{"not an object", `[1]`, "not a JSON object"},
		{"a part that is gone", `{"do":"move","refs":["S7"],"columns":1,"rows":0}`, "S7 is not on the panel any more"},
		{"off the grid", `{"do":"move","refs":["S1"],"columns":-9,"rows":0}`, "S1 would leave the grid"},
		{"a huge move", `{"do":"move","refs":["S1"],"columns":9223372036854775807,"rows":0}`, "leaves every board"},
		{"taken reference", `{"do":"renumber","ref":"S1","to":"S2"}`, "already on the panel"},
		{"no reference", `{"do":"renumber","ref":"S1","to":"<b>"}`, "capital letters"},
		{"unknown part", `{"do":"place","placed":{"ref":"","part":"nothing","at":"A1","turn":0,"face":"front"}}`, "no part is called"},
		{"bad turn", `{"do":"place","placed":{"ref":"","part":"tact6","at":"A1","turn":4,"face":"front"}}`, "must be 0, 1, 2 or 3"},
		{"bad hole", `{"do":"place","placed":{"ref":"","part":"tact6","at":"1A","turn":0,"face":"front"}}`, "not a hole name"},
		{"long legend", `{"do":"legend","key":"S1","legend":"` + strings.Repeat("x", 25) + `"}`, "longer than 24"},
		{"hidden direction mark", `{"do":"legend","key":"S1","legend":"a\u202eb"}`, "invisible character U+202E"},
		{"chord of no key", `{"do":"chord","name":"x","keys":["D1"]}`, "no key of this panel"},
		{"choice of no key", `{"do":"chord","name":"x","keys":[],"any":[{"count":1,"of":["D1"]}]}`, "no key of this panel"},
		{"spare what is not known", `{"do":"prefer","spare":["everything"]}`, "none of"},
		{"last board", `{"do":"remove-board","id":"A"}`, "at least one board"},
		{"empty name", `{"do":"rename","name":"  "}`, "empty"},
		{"nested together", `{"do":"together","label":"x","edits":[{"do":"together","label":"y","edits":[]}]}`, "cannot hold others"},
		{"half of together", `{"do":"together","label":"x","edits":[{"do":"rename","name":"New"},{"do":"remove","refs":["S9"]}]}`, "S9 is not"},
		{"join of no terminal", `{"do":"join","name":"j","terminals":["S1.Z","S2.A1"]}`, "no terminal"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := twoKeys(t)
			was := bytesOf(t, p)
			e, err := DecodeEdit([]byte(tt.edit))
			if err == nil {
				_, _, err = Apply(p, e)
			}
			if !errors.Is(err, ErrRefused) || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%s: got %v, want a refusal with %q", tt.edit, err, tt.want)
			}
			if bytesOf(t, p) != was {
				t.Errorf("refusing %s changed the panel", tt.edit)
			}
		})
	}
}

// Four quarter turns and two flips bring every part of the catalogue home.
func TestTurnsComeHome(t *testing.T) {
	for _, id := range part.BuiltIn().IDs() {
		p := New("x")
		p.Boards[0].Columns, p.Boards[0].Rows = 200, 200
		p, _, err := Apply(p, &Place{Placed: Placed{Part: id, At: grid.MustHole("CA90")}})
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		ref := p.Placed[0].Ref
		was := p.Placed[0].At
		for _, edit := range []Edit{&TurnParts{[]string{ref}, 1}, &TurnParts{[]string{ref}, 1}, &TurnParts{[]string{ref}, 1},
			&TurnParts{[]string{ref}, 1}, &Flip{[]string{ref}}, &Flip{[]string{ref}}} {
			if p, _, err = Apply(p, edit); err != nil {
				t.Fatalf("%s: %v", id, err)
			}
		}
		if now := p.Placed[0]; now.At != was || now.Turn != 0 || now.Face != grid.Front {
			t.Errorf("%s came back to %v turn %d %v, was at %v", id, now.At, now.Turn, now.Face, was)
		}
	}
}

// Any run of edits, undone one by one, leads back to the same bytes, and every step survives being
// written as JSON.
func TestUndoReachesTheStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := New("walk")
		start := encodeOrFatal(t, p)
		var inverses []Edit
		refs := func() []string {
			var list []string
			for _, pl := range p.Placed {
				list = append(list, pl.Ref)
			}
			return list
		}
		for range rapid.IntRange(1, 25).Draw(t, "steps") {
			var e Edit
			switch kind := rapid.IntRange(0, 9).Draw(t, "kind"); {
			case kind < 4 || len(refs()) == 0:
				e = &Place{Placed: Placed{Part: "tact6", At: grid.Hole{Col: rapid.IntRange(0, 25).Draw(t, "col"), Row: rapid.IntRange(0, 20).Draw(t, "row")}}}
			case kind == 4:
				e = &Remove{Refs: []string{rapid.SampledFrom(refs()).Draw(t, "ref")}}
			case kind == 5:
				e = &Move{Refs: refs(), Columns: rapid.IntRange(-3, 3).Draw(t, "dc"), Rows: rapid.IntRange(-3, 3).Draw(t, "dr")}
			case kind == 6:
				e = &TurnParts{Refs: []string{rapid.SampledFrom(refs()).Draw(t, "ref")}, Quarters: rapid.IntRange(-5, 5).Draw(t, "q")}
			case kind == 7:
				e = &SetChord{Name: "c", Keys: refs()}
			case kind == 8:
				e = &SetLegend{Key: rapid.SampledFrom(refs()).Draw(t, "ref"), Legend: rapid.StringN(0, 30, -1).Draw(t, "legend")}
			default:
				e = &Duplicate{Refs: refs()[:1], Columns: 4, Rows: 0}
			}
			after, inverse, err := Apply(p, throughJSON(t, e))
			if err != nil {
				if !errors.Is(err, ErrRefused) {
					t.Fatalf("%s: %v", e.Label(), err)
				}
				continue
			}
			p, inverses = after, append(inverses, throughJSON(t, inverse))
			if again, err := Decode([]byte(encodeOrFatal(t, p))); err != nil || encodeOrFatal(t, again) != encodeOrFatal(t, p) {
				t.Fatalf("file of the panel does not read back: %v", err)
			}
		}
		for i := len(inverses) - 1; i >= 0; i-- {
			var err error
			if p, _, err = Apply(p, inverses[i]); err != nil {
				t.Fatalf("undo %s: %v", inverses[i].Label(), err)
			}
		}
		if got := encodeOrFatal(t, p); got != start {
			t.Fatalf("undone to\n%s\nwant\n%s", got, start)
		}
	})
}

func throughJSON(t *rapid.T, e Edit) Edit {
	text, err := EncodeEdit(e)
	if err != nil {
		t.Fatal(err)
	}
	again, err := DecodeEdit(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return again
}

func encodeOrFatal(t *rapid.T, p Panel) string {
	text, err := Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestEveryEditNamesItself(t *testing.T) {
	for name, make := range edits {
		if got := make().Do(); got != name {
			t.Errorf("edit %q calls itself %q", name, got)
		}
		text, err := EncodeEdit(make())
		var head struct {
			Do string `json:"do"`
		}
		if err != nil || json.Unmarshal(text, &head) != nil || head.Do != name {
			t.Errorf("EncodeEdit of %q gave %s, %v", name, text, err)
		}
	}
}

func FuzzDecodeEdit(f *testing.F) {
	f.Add([]byte(`{"do":"move","refs":["S1"],"columns":1,"rows":2}`))
	f.Add([]byte(`{"do":"together","label":"x","edits":[{"do":"flip","refs":["S1","S2"]}]}`))
	f.Add([]byte(`{"do":"restore","label":"x","placed":{"S1":null}}`))
	f.Add([]byte(`{"do":"board","board":{"id":"B","columns":3,"rows":3,"at":"Z9","copper":"strips","plated":false}}`))
	start := twoKeys(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		e, err := DecodeEdit(text)
		if err != nil {
			return
		}
		after, inverse, err := Apply(start, e)
		if err != nil {
			return
		}
		if err := after.Validate(); err != nil {
			t.Fatalf("%s left a panel that is not valid: %v", text, err)
		}
		back, _, err := Apply(after, inverse)
		if err != nil || bytesOf(t, back) != bytesOf(t, start) {
			t.Fatalf("%s cannot be taken back: %v", text, err)
		}
	})
}
