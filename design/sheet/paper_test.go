package sheet

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"fascia/design/grid"
)

func viewBox(t *testing.T, n *node) (x, y, w, h float64) {
	t.Helper()
	f := strings.Fields(n.attr["viewBox"])
	if len(f) != 4 {
		t.Fatalf("viewBox %q", n.attr["viewBox"])
	}
	var v [4]float64
	for i := range f {
		var err error
		if v[i], err = strconv.ParseFloat(f[i], 64); err != nil {
			t.Fatalf("viewBox %q", n.attr["viewBox"])
		}
	}
	return v[0], v[1], v[2], v[3]
}

func TestPaperIsTrueSize(t *testing.T) {
	for _, face := range []grid.Face{grid.Front, grid.Back} {
		for _, d := range []Drawing{example(), bare(80, 60), bare(2, 2)} {
			root := parse(t, write(t, d, View{Style: Print, Face: face}))
			_, _, w, h := viewBox(t, root)
			if root.attr["width"] != strconv.FormatFloat(w, 'f', -1, 64)+"mm" || root.attr["height"] != strconv.FormatFloat(h, 'f', -1, 64)+"mm" {
				t.Errorf("%s by %s for a view box of %v by %v mm", root.attr["width"], root.attr["height"], w, h)
			}
			bars := 0
			for _, n := range root.all() {
				var a, b grid.Point
				if lineOf(n.attr["d"], &a, &b) && math.Abs(float64(a.Distance(b))-100) < 0.001 {
					bars++
				}
			}
			if bars != 2 {
				t.Errorf("%s has %d check bars of 100 mm, want one along each axis", d.Panel.Name, bars)
			}
			if !strings.Contains(root.words(), d.Panel.Name) {
				t.Errorf("%s is not in the title", d.Panel.Name)
			}
			for _, n := range root.all() {
				if n.attr["class"] != "" {
					t.Fatalf("paper relies on class %s", n.attr["class"])
				}
			}
		}
	}
}

// lineOf reads the first line of a path's data.
func lineOf(d string, a, b *grid.Point) bool {
	rest, ok := strings.CutPrefix(d, "M")
	if !ok {
		return false
	}
	from, rest, ok := strings.Cut(rest, "L")
	if !ok {
		return false
	}
	to, _, _ := strings.Cut(rest, "M")
	return pointOf(from, a) && pointOf(to, b)
}

func pointOf(s string, p *grid.Point) bool {
	x, y, ok := strings.Cut(s, " ")
	fx, errX := strconv.ParseFloat(x, 64)
	fy, errY := strconv.ParseFloat(y, 64)
	*p = grid.Point{X: grid.Millimetre(fx), Y: grid.Millimetre(fy)}
	return ok && errX == nil && errY == nil
}

func TestPictureIsSmallAndFourByThree(t *testing.T) {
	for _, d := range []Drawing{example(), keys24(), boarded(), bare(80, 60), bare(3, 60)} {
		svg := write(t, d, View{Style: Picture, Face: grid.Back})
		root := parse(t, svg)
		if _, _, w, h := viewBox(t, root); math.Abs(w/h-4.0/3) > 0.01 {
			t.Errorf("%s: %v by %v is not four by three", d.Panel.Name, w, h)
		}
		if len(svg) > 40_000 {
			t.Errorf("%s takes %d bytes, want 40,000 at most", d.Panel.Name, len(svg))
		}
		if root.attr["data-face"] != "front" {
			t.Errorf("the picture shows the %s", root.attr["data-face"])
		}
	}
	if got := parse(t, write(t, example(), View{Style: Picture})).words(); !strings.Contains(got, "+1") || strings.Contains(got, "A1") {
		t.Errorf("the picture says %q: legends it must, details it must not", got)
	}
}

func TestBenchShowsOneStep(t *testing.T) {
	from, to := grid.MustHole("E2"), grid.MustHole("O3")
	root := parse(t, write(t, example(), View{Style: Bench, Face: grid.Back, Holes: []grid.Hole{from, to}, Wire: 3, Built: 2}))
	x, y, w, h := viewBox(t, root)
	mirror := Mirror(example().Panel)
	for _, hole := range []grid.Hole{from, to} {
		at := hole.Centre()
		at.X = mirror - at.X
		if float64(at.X) < x+2.54 || float64(at.X) > x+w-2.54 || float64(at.Y) < y+2.54 || float64(at.Y) > y+h-2.54 {
			t.Errorf("%s is not well inside the view", hole)
		}
		found := false
		for _, n := range root.with("ring") {
			found = found || math.Hypot(n.number(t, "cx")-float64(at.X), n.number(t, "cy")-float64(at.Y)) < 0.02
		}
		if !found || !strings.Contains(root.words(), hole.String()) {
			t.Errorf("%s is not ringed and named", hole)
		}
	}
	for _, n := range root.with("wire") {
		switch step := n.attr["data-wire"]; {
		case step == "3" && !n.has("lit"), step != "3" && !n.has("faint"):
			t.Errorf("wire %s has classes %s", step, n.attr["class"])
		case step == "4":
			t.Error("a wire of a later step is drawn")
		}
	}
	for _, n := range root.with("part") {
		if !n.has("faint") {
			t.Errorf("%s is not faint while a wire is the step", n.attr["data-ref"])
		}
	}
}

func TestBenchLightsThePartOfAStep(t *testing.T) {
	d := example()
	var holes []grid.Hole
	pl := d.Panel.Find("S1")
	for _, term := range d.Panel.Parts["key"].Terminals {
		holes = append(holes, pl.Pose().Hole(term.Offset()))
	}
	for _, n := range parse(t, write(t, d, View{Style: Bench, Holes: holes})).with("part") {
		if want := n.attr["data-ref"] == "S1"; n.has("lit") != want {
			t.Errorf("%s lit: %v, want %v", n.attr["data-ref"], n.has("lit"), want)
		}
	}
}
