package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"fascia/design/bench"
	"fascia/design/panel"
	"fascia/design/wiring"
)

// post sends an edit under a name of its own.
func (b *desk) post(id, name, edit string) *http.Response {
	b.t.Helper()
	return b.postJSON("/panels/"+id+"/edits", fmt.Sprintf(`{"id":%q,"base":0,"edit":%s}`, name, edit))
}

// A wire that would join two nets, or cannot be, is refused before it is stored, alone or among others.
func TestWiresThatCannotBeAreRefused(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(*panel.Panel) {})
	wire := func(from, to, kind string) string {
		return fmt.Sprintf(`{"do":"wire","wire":{"from":%q,"to":%q,"kind":%q,"face":"back"}}`, from, to, kind)
	}
	tests := []struct{ name, edit, says string }{
		{"two nets", wire("D25", "D27", "bare"), "would join row 0 with column 0"},
		{"two nets, insulated", wire("D25", "D27", "insulated"), "would join row 0 with column 0"},
		{"off the board", wire("A1", "ZZ9", "bare"), "off every board"},
		{"solder too far", wire("G25", "L25", "solder"), "solder joins neighbours"},
		{"nothing there", wire("A44", "B44", "bare"), "neither end carries a net"},
		{"between two that can be", `{"do":"together","label":"Two","edits":[` + wire("G25", "I25", "bare") + `,` + wire("D25", "D27", "bare") + `]}`, "would join row 0"},
		{"no hole", wire("A1", "A0", "bare"), ""},
	}
	for i, tt := range tests {
		resp := b.post(string(id), fmt.Sprint("c", i), tt.edit)
		if says := text(t, resp); resp.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(says, tt.says) {
			t.Errorf("%s: %d %s", tt.name, resp.StatusCode, says)
		}
	}
	if _, rev, err := b.store.Panel(t.Context(), id); err != nil || rev != 0 {
		t.Errorf("revision %d, %v", rev, err)
	}
	for i, edit := range []string{wire("G25", "I25", "bare"), wire("G25", "I25", "bare"), wire("G25", "I25", "insulated")} {
		if resp := b.post(string(id), fmt.Sprint("y", i), edit); resp.StatusCode != http.StatusOK {
			t.Errorf("%s: %d %s", edit, resp.StatusCode, text(t, resp))
		}
	}
}

// What is told of a wire while it is drawn is what becomes of the edit.
func TestATrialTellsWhatTheEditDoes(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(*panel.Panel) {})
	tests := []struct {
		query, says string
		can         bool
		path        int
	}{
		{"from=G25&to=I25&kind=bare&face=back", "Bare run of row 0, G25 to I25, 2 holes long", true, 3},
		{"from=G27&to=G32&kind=bare&face=back&path=G27,F27,F32,G32", "Bare run of column 0, G27 to G32, 7 holes long", true, 8},
		{"from=G25&to=I25&kind=solder&face=back", "Solder bridge of row 0", true, 3},
		{"from=D25&to=D30&kind=insulated&face=back", "It would join row 0 with row 1.", false, 0},
		{"from=G27&to=G32&kind=bare&face=back&path=G27,H28,G32", "along a row or a column", false, 0},
	}
	for _, tt := range tests {
		got := decoded[struct {
			Can  bool
			Says string
			Path []string
		}](t, b.get("/panels/"+string(id)+"/wire-trial?"+tt.query))
		if got.Can != tt.can || len(got.Path) != tt.path || !strings.Contains(got.Says, tt.says) {
			t.Errorf("%s: %+v", tt.query, got)
		}
	}
	for _, query := range []string{"", "from=A1&to=B1&kind=bare", "from=A1&to=B1&kind=glue&face=back", "from=A1&to=ZZZ1&kind=bare&face=back", "from=A1&to=B1&kind=bare&face=back&path=A1,%00"} {
		if resp := b.get("/panels/" + string(id) + "/wire-trial?" + query); resp.StatusCode != http.StatusBadRequest {
			t.Errorf("%q: %d %s", query, resp.StatusCode, text(t, resp))
		}
	}
}

// Each wire of the plan that can be locked is locked by its button, as it is: with all of them locked the
// plan is the same.
func TestEveryWireCanBeLocked(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(*panel.Panel) {})
	p, _, made, err := b.planOf(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	v := &visit{panel: p, plan: made}
	for i := range made.Wiring.Wires {
		w := &made.Wiring.Wires[i]
		_, edit := v.wireLock(w)
		if w.Kind == wiring.Leg {
			continue
		}
		e, err := panel.DecodeEdit([]byte(edit))
		if err != nil {
			t.Fatalf("%+v: %q %v", w, edit, err)
		}
		if p, _, err = panel.Apply(p, e); err != nil {
			t.Fatal(err)
		}
	}
	all := wiring.Route(&p, &made.Fit, &made.Nets)
	if all.Cost != made.Wiring.Cost || len(all.Findings) > 0 || slices.ContainsFunc(all.Wires, func(w wiring.Wire) bool { return !w.Locked && w.Kind != wiring.Leg }) {
		t.Errorf("cost %v, want %v; %v", all.Cost, made.Wiring.Cost, all.Findings)
	}
}

// What wishes cost is told under the names by which the page asks, and in holes.
func TestWishesTellWhatTheyCost(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) {
		p.Wires.Nets = []panel.NetWish{{Net: "column 0", Insulated: true}}
	})
	got := decoded[struct{ Says map[string]string }](t, b.get("/panels/"+string(id)+"/wire-prices"))
	if says := got.Says["column 0 insulated"]; !strings.HasPrefix(says, "Without this wish the wiring would cost ") || !strings.HasSuffix(says, " holes less.") {
		t.Errorf("the prices are %q", got.Says)
	}
	page := words(b.byID(b.page("/panels/"+string(id)+"/wire"), "wires"))
	if !strings.Contains(page, "bound") || !strings.Contains(page, "insulated wires") {
		t.Errorf("the page says %.300q", page)
	}
}

// On strips the cuts come before the wires, in the list and at the bench, and the board shows them.
func TestCutsComeFirst(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) {
		p.Boards[0].Copper, p.Boards[0].Along, p.Boards[0].Faces, p.Boards[0].Plated = panel.Strips, "rows", panel.BackOnly, false
	})
	_, _, made, err := b.planOf(t.Context(), id)
	if err != nil || len(made.Wiring.Cuts) == 0 {
		t.Fatalf("%d cuts, %v", len(made.Wiring.Cuts), err)
	}
	doc := b.page("/panels/" + string(id) + "/wire?face=back")
	listed := words(classed(doc, "cut-list")[0])
	for _, c := range made.Wiring.Cuts {
		if !strings.Contains(listed, c.Hole.String()+" "+c.Why) {
			t.Errorf("the cut at %s is not in the list", c.Hole)
		}
	}
	if n := len(classed(doc, "cut-cross")); n != len(made.Wiring.Cuts) {
		t.Errorf("%d cuts are drawn, want %d", n, len(made.Wiring.Cuts))
	}
	step := slices.IndexFunc(made.Steps, func(s bench.Step) bool { return strings.HasPrefix(s.Title, "Cut the strips") })
	if step < 0 || len(made.Steps[step].Holes) != len(made.Wiring.Cuts) || made.Steps[step].Stage != bench.Prepare {
		t.Errorf("at the bench the cuts are step %d of %d", step, len(made.Steps))
	}
}
