package fit

import (
	"slices"
	"testing"

	"fascia/design/grid"
	"fascia/design/panel"
)

func turn(ref string, quarters grid.Turn) func(*panel.Panel) {
	return func(p *panel.Panel) { p.Find(ref).Turn = quarters }
}

func faces(f panel.Faces) func(*panel.Panel) {
	return func(p *panel.Panel) { p.Boards[0].Faces, p.Boards[0].Plated = f, false }
}

// join splits the picture's board before column at, and makes the right part a board of its own.
func join(at int, across, along float64) func(*panel.Panel) {
	return func(p *panel.Panel) {
		a := &p.Boards[0]
		b := *a
		b.ID, b.At, b.Columns = "B", grid.Hole{Col: at}, a.Columns-at
		b.Seam = &panel.Seam{Board: "A", Side: "right", AcrossMM: across, AlongMM: along}
		a.Columns = at
		p.Boards = append(p.Boards, b)
	}
}

const form = "note fit-lead-form "

// Every rule firing and silent. The lists are all that is said, worst first.
func TestExamine(t *testing.T) {
	tests := []struct {
		name  string
		panel *panel.Panel
		want  []string
	}{
		{"an empty board", picture("....", "...."), nil},
		{"a switch in the middle", picture(
			"......",
			".s....",
			"......",
			"......",
			"......"), []string{form + "S1"}},

		{"two switches side by side", picture(
			"..........",
			".s...s....",
			"..........",
			"..........",
			".........."), []string{form + "S1+S2"}},
		{"two switches that overlap", picture(
			"..........",
			".s.s......",
			"..........",
			"..........",
			".........."), []string{"stop fit-body-overlap S1+S2", form + "S1+S2"}},
		{"two switches back to back", picture(
			"...........",
			".s.......S.",
			"...........",
			"...........",
			"..........."), []string{form + "S1+S2"}},
		{"round bodies pass each other at the corner", picture(
			"........",
			"..l.....",
			"........",
			"....l...",
			"........"), nil},
		{"round bodies meet", picture(
			"........",
			"..l.....",
			"........",
			"...l....",
			"........"), []string{"stop fit-body-overlap D1+D2"}},
		{"a round body and a straight side", picture(
			".........",
			"..l......",
			"..r......",
			"........."), []string{"stop fit-body-overlap D1+R1"}},

		{"a resistor under a module on high pins", picture(
			".........",
			"...h.....",
			"..r......",
			".........",
			"........."), nil},
		{"a resistor under a module on low pins", picture(
			".........",
			"...p.....",
			"..r......",
			".........",
			"........."), []string{"stop fit-body-overlap R1+U1"}},
		{"a resistor under a module on sockets", picture(
			"........",
			".k......",
			".r......",
			"........",
			"........"), []string{"stop fit-body-overlap R1+U1"}}, // its ends meet the sockets

		{"two leads in one hole", picture(
			"............",
			"............",
			".r...R......",
			"............"), []string{"stop fit-hole-shared R1+R2"}},
		{"two leads in neighbouring holes", picture(
			"...........",
			".r........R",
			"..........."), nil},

		{"a joint under a flat part on the other face", picture(
			".......",
			".s..F..", // mirrored: the module covers B to E
			".......",
			".......",
			"......."), []string{"stop fit-hole-shared S1+U1", form + "S1"}},
		{"joints under a flat module", picture(
			"........",
			"......F.",
			"..r.....",
			"........",
			"........",
			"........"), []string{"stop fit-lead-under-body R1+U1"}},
		{"joints under a module on pins", picture(
			"........",
			"......P.",
			"..r.....",
			"........",
			"........",
			"........"), []string{"note fit-joint-covered U1+R1"}},
		{"joints under a module on sockets", picture(
			"........",
			"......K.",
			".r......",
			"........",
			"........",
			"........"), nil},
		{"a joint under the socket itself", picture(
			"........",
			"......K.",
			"..r.....",
			"........",
			"........",
			"........"), []string{"stop fit-lead-under-body R1+U1"}},
		{"a lead that comes up beneath a body on its own face", picture(
			"........",
			"...f....",
			".r......",
			"........",
			"........"), []string{"stop fit-body-overlap R1+U1"}},

		{"a bent lead that comes up beneath a flat body on its own face", picture(
			"..........",
			".....f....",
			".r........",
			"..........",
			".........."), []string{"stop fit-lead-under-body R1+U1"}},
		{"the same beneath a body that leaves room", picture(
			"..........",
			".....p....",
			".r........",
			"..........",
			".........."), nil},

		{"two modules that each cover the other's joints", picture(
			"........",
			".p......",
			"......P.",
			"........",
			"........",
			"........"), []string{"stop fit-order-cycle U1+U2", "note fit-joint-covered U1+U2", "note fit-joint-covered U2+U1"}},

		{"a switch over the left edge", change(picture(
			".......",
			"s......",
			".......",
			".......",
			"......."), turn("S1", 1)), []string{"stop fit-off-board S1", form + "S1"}},
		{"an LED at the edge", picture(
			".....",
			"l....",
			"....."), []string{"mind fit-overhang D1"}},
		{"a plug that should reach out", picture(
			".....",
			"j....",
			".....",
			"....."), []string{"note fit-lead-bend J1"}},
		{"the same plug turned away", change(picture(
			".....",
			".....",
			"j....",
			".....",
			"....."), turn("J1", 2)), []string{"mind fit-overhang J1", "note fit-lead-bend J1"}},
		{"the same plug turned to the top", change(picture(
			"......",
			"......",
			"......"), func(p *panel.Panel) {
			p.Parts["j"] = shelf()['j']
			p.Placed = []panel.Placed{{Ref: "J1", Part: "j", At: grid.MustHole("D1"), Turn: 1}}
		}), []string{"note fit-lead-bend J1"}},
		{"the plug on the back reaches out at the right", picture(
			".....",
			"....J",
			".....",
			"....."), []string{"note fit-lead-bend J1"}},

		{"a part on the bare face of a single-sided board", change(picture(
			".....R.",
			"......."), faces(panel.BackOnly)), []string{"stop fit-wrong-face R1"}},
		{"a part on the right face of a single-sided board", change(picture(
			".r......",
			"........"), faces(panel.BackOnly)), nil},
		{"copper on the front", change(picture(
			".r......",
			"........"), faces(panel.FrontOnly)), []string{"stop fit-wrong-face R1"}},

		{"a module over an aligned seam", change(picture(
			"........",
			"..h.....",
			"........",
			"........",
			"........",
			"........"), join(4, 0, 0)), []string{"mind fit-over-seam U1"}},
		{"a module beside the seam", change(picture(
			"..........",
			".....h....",
			"..........",
			"..........",
			"..........",
			".........."), join(4, 0, 0)), nil},
		{"a module over a seam that misses by 0.6", change(picture(
			"........",
			"..h.....",
			"........",
			"........",
			"........",
			"........"), join(4, 0.6, 0)), []string{
			"mind fit-over-seam U1", "mind fit-seam-misfit E1", "note fit-lead-bend U1", "note fit-seam-edges E1"}},

		{"a key switch whose pin is half a hole off", picture(
			"........",
			"........",
			"..w.....",
			"........",
			"........",
			"........",
			"........"), []string{"mind fit-lead-drill K1", "mind fit-lead-thick K1"}},
		{"a lug that wants a hole", picture(
			"........",
			".e......",
			"........",
			"........"), []string{"note fit-drill E1"}},
		{"a lug's hole through another part's lead", picture(
			"...........",
			".e.........",
			"....R......",
			"..........."), []string{"stop fit-drill-hits E1+R1", "note fit-drill E1"}},

		{"keys three steps apart", change(picture(
			"..........",
			".s........",
			"..........",
			"..........",
			".s........",
			"..........",
			"..........",
			".........."), func(*panel.Panel) {}), []string{"note fit-keys-close S1+S2", form + "S1+S2"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := Examine(tt.panel)
			if got := short(r.Findings); !slices.Equal(got, append([]string{}, tt.want...)) {
				for _, f := range r.Findings {
					t.Logf("%s %s", f.Text, f.Fix)
				}
				t.Errorf("got  %q\nwant %q", got, tt.want)
			}
		})
	}
}
