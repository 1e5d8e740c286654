package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fascia/design/grid"
)

func TestEveryClassIsListedOnce(t *testing.T) {
	list := Classes()
	if !slices.IsSorted(list) || len(slices.Compact(slices.Clone(list))) != len(list) {
		t.Error("Classes() is not sorted, or names a class twice")
	}
	seen := map[class]bool{}
	for _, r := range allRules {
		if seen[r.class] {
			t.Errorf("class %s has two looks", r.class)
		}
		seen[r.class] = true
	}
}

// Every class that a drawing of anything carries is of use: it is drawn by some view.
func TestEveryClassIsDrawn(t *testing.T) {
	drawn := map[string]bool{}
	for _, d := range []Drawing{example(), catalogued(0, grid.Front), catalogued(0, grid.Back), boarded()} {
		for _, v := range views() {
			if v.Style == Print || v.Style == Picture {
				continue
			}
			for _, n := range parse(t, write(t, d, v)).all() {
				for _, c := range strings.Fields(n.attr["class"]) {
					drawn[c] = true
				}
			}
		}
	}
	for _, c := range structural {
		onPaper := strings.HasPrefix(string(c), "paper")
		if !drawn[string(c)] && !onPaper && !strings.HasPrefix(string(c), "pin") && !strings.HasPrefix(string(c), "module") && !strings.HasPrefix(string(c), "mark-") {
			t.Errorf("no drawing carries class %s", c)
		}
	}
}

func TestStylesheetCoversEveryLook(t *testing.T) {
	css := Stylesheet()
	for _, r := range allRules {
		if len(r.ink.properties(func(t tint) string { return string(t) })) > 0 && !strings.Contains(css, ".sheet-drawing ."+string(r.class)+" {") {
			t.Errorf("class %s has no rule", r.class)
		}
	}
	for _, w := range swatches {
		if strings.Count(css, "--"+string(w.tint)+": ") != 3 {
			t.Errorf("--%s is not given by day and twice as a blueprint", w.tint)
		}
	}
	if strings.Count(css, "{") != strings.Count(css, "}") {
		t.Error("braces do not pair")
	}
	for _, bad := range []string{"url(", "@import", "http"} {
		if strings.Contains(css, bad) {
			t.Errorf("the stylesheet reaches outside: %s", bad)
		}
	}
}

// On paper and on the page a thing looks the same: of two classes the later rule holds, in whatever
// order an element names them.
func TestLookFollowsTheStylesheet(t *testing.T) {
	a, b := look([]class{"insulated-edge", "heavy-edge"}), look([]class{"heavy-edge", "insulated-edge"})
	if a != b || a.width != 1.14 || a.stroke != "ink" {
		t.Errorf("a heavy edge is %+v or %+v", a, b)
	}
}

// luminance is the relative luminance of a colour such as #1b5e9e. WCAG 2.2, 1.4.3.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 32)
	if err != nil || len(colour) != 7 {
		t.Fatalf("%q is not a colour", colour)
	}
	channel := func(v uint64) float64 {
		c := float64(v&255) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(n>>16) + 0.7152*channel(n>>8) + 0.0722*channel(n)
}

func contrast(t *testing.T, a, b string) float64 {
	la, lb := luminance(t, a), luminance(t, b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

// Text needs 4.5 to 1, lines that matter 3 to 1: WCAG 2.2, 1.4.3 and 1.4.11.
func TestContrast(t *testing.T) {
	pairs := []struct {
		on, over tint
		least    float64
	}{
		{"ink", "sheet", 4.5}, {"pencil", "sheet", 4.5}, {"accent", "sheet", 4.5}, {"stop", "sheet", 4.5}, {"mind", "sheet", 4.5}, {"note", "sheet", 4.5},
		{"ink", "cap", 4.5}, {"ink", "plastic", 4.5}, {"ink", "mask", 4.5}, {"ink", "epoxy", 4.5}, {"ink", "phenolic", 4.5}, {"print", "chip", 4.5},
		{"ink", "steel", 3}, {"ink", "clay", 3}, {"lit", "glass", 3}, {"ink", "tinned", 1.5},
	}
	for _, p := range pairs {
		for _, theme := range []string{"day", "blueprint", "paper"} {
			find := func(name tint) string {
				for _, w := range swatches {
					if w.tint == name {
						return map[string]string{"day": w.day, "blueprint": w.blueprint, "paper": w.paper}[theme]
					}
				}
				t.Fatalf("no tint %s", name)
				return ""
			}
			if got := contrast(t, find(p.on), find(p.over)); got < p.least {
				t.Errorf("%s on %s, %s: %.2f to 1, want %.1f", p.on, p.over, theme, got, p.least)
			}
		}
	}
}
