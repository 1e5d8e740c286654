package web

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/design/scan"
	"fascia/web/view"
)

// What is told while keys are held is what the scan's own reading of its wires says: three corners of a
// rectangle make the fourth read (common practice, no source).
func TestGhostsAreToldFromThePlan(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) { p.Scan.Rows, p.Scan.Columns, p.Scan.Diodes = 4, 5, "none" })
	_, rev, made, err := b.planOf(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, query, state, says, fix string
		ghosts                        int
	}{
		{"nothing", "", "none", "two keys", "", 0},
		{"one key", "keys=S1", "none", "two keys", "", 0},
		{"a row", "keys=S1,S2,S3", "safe", "Safe", "", 0},
		{"three corners", "keys=S1,S2,S6", "ghost", "Ghost", "A diode at", 1},
		{"four corners", "keys=S1,S2,S6,S7", "ghost", "On the way", "4 diodes", 4},
		{"keys that are gone", "keys=S1,S99", "none", "two keys", "", 0},
		{"any two of three", "any=2:S1,S2,S3", "safe", "3 sets of keys; all", "", 0},
		{"a key with any of others", "keys=S1,S2&any=1:S6,S3", "ghost", "2 sets of keys; 1 of them", "A diode", 1},
	}
	for _, tt := range tests {
		got := decoded[struct {
			Rev int64
			view.Reading
		}](t, b.get("/panels/"+string(id)+"/ghosts?"+tt.query))
		if got.Rev != rev || got.State != tt.state || !strings.Contains(got.Says, tt.says) || len(got.Ghosts) != tt.ghosts || !strings.HasPrefix(got.Fix, tt.fix) {
			t.Errorf("%s: %+v", tt.name, got)
		}
		for _, g := range got.Ghosts {
			if !slices.Contains(scan.Reads(&made.Scan, g.Pressed), g.Key) {
				t.Errorf("%s: with %v down %s does not read", tt.name, g.Pressed, g.Key)
			}
			if strings.Count(g.Way, " – ") != 6 || !strings.HasPrefix(g.Way, "row ") || g.Perhaps {
				t.Errorf("%s: the current goes %q, in doubt %v", tt.name, g.Way, g.Perhaps)
			}
		}
	}
}

// Behind two silicon diodes in a row a line lies between low and high: 0.91 V, where the RP2040's inputs
// read low below 0.8 V and high above 2.0 V (RP2040 data sheet, table 622; voltage by ngspice).
func TestReadingsInDoubtAreCalledPossible(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) { p.Scan.Style = "lines" })
	_, _, made, err := b.planOf(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	held := map[[2]int]string{}
	for _, c := range made.Scan.Cells {
		held[[2]int{c.Row, c.Column}] = c.Key
	}
	got := decoded[view.Reading](t, b.get("/panels/"+string(id)+"/ghosts?keys="+held[[2]int{0, 1}]+","+held[[2]int{1, 2}]))
	if got.State != "perhaps" || len(got.Ghosts) != 1 || !got.Ghosts[0].Perhaps || got.Ghosts[0].Key != held[[2]int{0, 2}] ||
		!strings.Contains(got.Ghosts[0].Says, "may read") || !strings.Contains(got.Fix, "No further diode") {
		t.Errorf("%+v", got)
	}
}

// An LED that hangs on a select line through too little resistance lifts the line while it is low, and a
// key behind a diode there no longer reads for certain: the pin gives at most 0.5 V at its current, and
// 0.5 V and a diode's 0.6 V are more than the 0.8 V that surely read low (RP2040 data sheet, table 622).
func TestHeldKeysInDoubtAreTold(t *testing.T) {
	b := newDesk(t)
	id := b.bring(hive(t), func(p *panel.Panel) {
		p.Scan.Diodes, p.Scan.Lamps = "every key", []string{"D1"}
		p.Find("R1").Value, p.Find("R2").Value = "68", "68"
	})
	at := "/panels/" + string(id)
	offer := attr(b.byID(b.page(at+"/scan"), "offer-part-0"), "data-base")
	if resp := b.postJSON(at+"/edits", `{"id":"d","base":0,"edit":{"do":"together",`+strings.TrimPrefix(offer, "{")+`}`); resp.StatusCode != http.StatusOK {
		t.Fatalf("diodes: %s", text(t, resp))
	}
	_, _, made, err := b.planOf(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, c := range made.Scan.Cells {
		if c.Column == 0 && len(keys) < 2 {
			keys = append(keys, c.Key)
		}
	}
	got := decoded[view.Reading](t, b.get(at+"/ghosts?keys="+strings.Join(keys, ",")))
	if got.State != "perhaps" || got.Mark() != "in doubt" || !strings.Contains(got.Says, "do not read as pressed for certain") {
		t.Errorf("%v: %+v", keys, got)
	}
}

func TestGhostsRefuse(t *testing.T) {
	b := newDesk(t)
	at := "/panels/" + string(b.counter()) + "/ghosts?"
	many := strings.Repeat("S1,", panel.MaxMembers+1)
	tests := []struct {
		name, target string
		status       int
	}{
		{"no panel", "/panels/0000000000000000/ghosts?keys=S1", http.StatusNotFound},
		{"too many keys", at + "keys=" + many, http.StatusBadRequest},
		{"too many choices", at + strings.Repeat("any=1:S1&", panel.MaxAny+1), http.StatusBadRequest},
		{"too many keys of a choice", at + "any=1:" + many, http.StatusBadRequest},
		{"no number", at + "any=S1,S2", http.StatusBadRequest},
		{"none of them", at + "any=0:S1", http.StatusBadRequest},
		{"more than there are", at + "any=3:S1", http.StatusOK},
		{"a choice of none", at + "any=1:", http.StatusOK},
	}
	for _, tt := range tests {
		if resp := b.get(tt.target); resp.StatusCode != tt.status {
			t.Errorf("%s: %d, want %d: %s", tt.name, resp.StatusCode, tt.status, text(t, resp))
		}
	}
	if resp := b.send(http.MethodGet, at+"keys=S1", "", "Sec-Fetch-Site", "cross-site"); resp.StatusCode != http.StatusForbidden {
		t.Errorf("another site's page is told: %d", resp.StatusCode)
	}
}
