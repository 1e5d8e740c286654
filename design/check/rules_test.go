package check

import (
	"slices"
	"strings"
	"testing"

	"fascia/design/finding"
)

// A trial changes the sound desk and says which findings of one code follow: one for each entry of
// want, which its text or fix holds. Without want the rule is silent.
type trial struct {
	code, name string
	edit       func(*desk)
	want       []string
}

func TestRules(t *testing.T) {
	for _, tt := range trials {
		t.Run(tt.code+"/"+tt.name, func(t *testing.T) {
			d := newDesk()
			tt.edit(d)
			got := said(All(d.plan()), tt.code)
			if len(got) != len(tt.want) {
				t.Fatalf("says %q, want %d findings", got, len(tt.want))
			}
			for _, want := range tt.want {
				if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, want) }) {
					t.Errorf("says %q, want %q in one of them", got, want)
				}
			}
		})
	}
}

// Every rule has a trial that breaks it and one that keeps it, every trial belongs to a rule.
func TestEveryRuleIsTriedBothWays(t *testing.T) {
	fires, silent := map[string]bool{}, map[string]bool{}
	for _, tt := range trials {
		if len(tt.want) > 0 {
			fires[tt.code] = true
		} else {
			silent[tt.code] = true
		}
	}
	codes := map[string]bool{}
	for _, r := range Rules() {
		if codes[r.Code] {
			t.Errorf("two rules have the code %s", r.Code)
		}
		codes[r.Code] = true
		if !fires[r.Code] || !silent[r.Code] {
			t.Errorf("%s: a trial that fires: %v, one that is silent: %v", r.Code, fires[r.Code], silent[r.Code])
		}
		if r.Says == "" || r.Source == "" || r.Look == nil {
			t.Errorf("%s lacks its sentence, its source or its look", r.Code)
		}
	}
	for _, tt := range trials {
		if !codes[tt.code] {
			t.Errorf("trial %q is of no rule", tt.code)
		}
	}
	if len(codes) < 35 {
		t.Errorf("%d rules, want at least 35", len(codes))
	}
}

// The sound desk gives no rule anything to say.
func TestSoundDeskIsSilent(t *testing.T) {
	for _, f := range All(newDesk().plan()) {
		t.Errorf("%s %s: %s", f.Severity, f.Code, f.Text)
	}
}

// A rule looked at alone says what it says among the others.
func TestLookAloneAgreesWithAll(t *testing.T) {
	for _, tt := range trials {
		d := newDesk()
		tt.edit(d)
		c := d.plan()
		all := All(c)
		for _, r := range Rules() {
			alone := r.Look(c)
			finding.Sort(alone)
			if got, want := said(alone, r.Code), said(all, r.Code); !slices.Equal(got, want) {
				t.Fatalf("%s on %s: alone %q, among all %q", r.Code, tt.name, got, want)
			}
			for _, f := range alone {
				if f.Code != r.Code || f.Severity != r.Severity {
					t.Fatalf("%s sets %s %s", r.Code, f.Severity, f.Code)
				}
			}
		}
	}
}
