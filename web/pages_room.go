package web

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/plan"
	"fascia/design/record"
	"fascia/design/sheet"
	"fascia/web/view"
)

// A room is one of the pages of a panel, in the order in which a maker passes them.
type room struct {
	name, label string
	fill        func(*Server, *visit) error // what stands in its column
}

var rooms = []room{
	{"place", "Place", (*Server).fillPlace},
	{"scan", "Scan", (*Server).fillScan},
	{"wire", "Wire", (*Server).fillWire},
	{"build", "Build", (*Server).fillBuild},
}

// A visit is one look at a panel in one room: what is shown, and the page as it fills.
type visit struct {
	ctx      context.Context
	id       record.ID
	rev      int64
	panel    panel.Panel
	plan     *plan.Plan
	ticks    map[string]bool
	room     string
	face     grid.Face
	faceSaid bool
	selected []string
	sort     string // of the wire list; "" for the order of work
	step     string // of the checklist, as asked for
	now      int    // its index; -1 for none
	page     view.Sheet
}

// showFirstRoom leads to the room where work begins.
func (s *Server) showFirstRoom(w http.ResponseWriter, r *http.Request) {
	id, err := panelID(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	http.Redirect(w, r, "/panels/"+string(id)+"/"+rooms[0].name, http.StatusSeeOther)
}

func (s *Server) showRoom(in room) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		v, err := s.visit(r, in.name)
		if err == nil {
			err = in.fill(s, v)
		}
		if err != nil {
			s.fail(w, r, err)
			return
		}
		if err := s.frame(v); err != nil {
			s.fail(w, r, err)
			return
		}
		s.render(w, r, http.StatusOK, view.SheetPage(v.page))
	}
}

// visit reads the address: which panel, which face up, what is selected.
func (s *Server) visit(r *http.Request, name string) (*visit, error) {
	id, err := panelID(r)
	if err != nil {
		return nil, err
	}
	v := &visit{ctx: r.Context(), id: id, room: name, now: -1}
	if v.panel, v.rev, v.plan, err = s.planOf(r.Context(), id); err != nil {
		return nil, err
	}
	if v.ticks, err = s.ticks.Ticks(r.Context(), id); err != nil {
		return nil, err
	}
	q := r.URL.Query()
	v.faceSaid = q.Has("face")
	if q.Get("face") == grid.Back.String() {
		v.face = grid.Back
	}
	v.step, v.sort = q.Get("step"), wireOrder(q.Get("sort"))
	for ref := range strings.SplitSeq(q.Get("select"), ",") {
		if v.panel.Find(ref) != nil && !slices.Contains(v.selected, ref) {
			v.selected = append(v.selected, ref)
		}
	}
	slices.SortFunc(v.selected, panel.CompareRefs)
	return v, nil
}

// frame fills in all of the page but the room's column.
func (s *Server) frame(v *visit) error {
	steps, err := s.panels.Steps(v.ctx, v.id)
	if err != nil {
		return err
	}
	p := &v.page
	p.Head = s.head(v.panel.Name+", "+labelOf(v.room), "main.js")
	p.ID, p.Name, p.Rev, p.Room, p.Face = string(v.id), v.panel.Name, v.rev, v.room, v.face
	p.Undo, p.Redo = steps.Undo, steps.Redo
	p.Front, p.Back = v.address(v.room, grid.Front, v.selected), v.address(v.room, grid.Back, v.selected)
	p.Tabs, p.Notes, p.Block, p.Slip, p.Facts = v.tabs(), v.notes(), v.titleBlock(), v.slip(), v.facts()
	p.BoardLabel = v.boardLabel()
	p.Dialogs = append(p.Dialogs, view.Usages(usages()))
	p.Board, err = board(v)
	return err
}

func labelOf(name string) string {
	for _, r := range rooms {
		if r.name == name {
			return r.label
		}
	}
	return ""
}

// address is the page of a room with a face up and parts selected.
func (v *visit) address(room string, face grid.Face, selected []string) string {
	q := url.Values{}
	if face == grid.Back {
		q.Set("face", face.String())
	} else if room == "build" && v.room == "build" {
		q.Set("face", face.String()) // else the step chooses the face
	}
	if len(selected) > 0 {
		q.Set("select", strings.Join(selected, ","))
	}
	if v.sort != "" && room == "wire" {
		q.Set("sort", v.sort)
	}
	if v.step != "" && room == "build" {
		q.Set("step", v.step)
	}
	path := "/panels/" + string(v.id) + "/" + room
	if len(q) == 0 {
		return path
	}
	return path + "?" + q.Encode()
}

// board is the drawing, written into the page as it is. It is drawn before the page begins, so that
// a failure gets its own status.
func board(v *visit) (templ.Component, error) {
	look := sheet.View{Face: v.face, Style: sheet.Screen, Room: v.room}
	if v.now >= 0 && len(v.plan.Steps[v.now].Holes) > 0 {
		look = benchView(v.plan.Steps, v.now)
		look.Face = v.face
	}
	return drawn(v.plan.Drawing(), look)
}

func drawn(d sheet.Drawing, look sheet.View) (templ.Component, error) {
	var out bytes.Buffer
	if err := d.Write(&out, look); err != nil {
		return nil, fmt.Errorf("draw: %w", err)
	}
	return asIs(out.Bytes()), nil
}

// asIs puts a drawing of ours into a page. Its texts were escaped when it was written.
func asIs(drawing []byte) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		_, err := w.Write(drawing)
		return err
	})
}

func (v *visit) boardLabel() string {
	words := []string{"Board, " + v.face.String()}
	words = append(words, boardsSay(&v.panel)...)
	return strings.Join(append(words, countOf(len(v.panel.Placed), "part", "parts")), ", ")
}

// tabs lead to the rooms, each with its count of open notes.
func (v *visit) tabs() []view.Tab {
	var list []view.Tab
	for i, r := range rooms {
		t := view.Tab{Number: fmt.Sprint(i + 1), Room: r.name, Label: r.label, Current: r.name == v.room,
			Href: v.address(r.name, v.face, v.selected)}
		if r.name == "build" {
			t.Href = v.address(r.name, grid.Front, v.selected)
			if n := len(v.plan.Steps); n > 0 {
				t.Progress = fmt.Sprintf("%d/%d", v.done(), n)
			}
		}
		for _, f := range v.plan.Findings {
			switch {
			case roomOf(f) != r.name:
			case f.Severity == finding.Stop:
				t.Stops++
			case f.Severity == finding.Mind:
				t.Minds++
			}
		}
		list = append(list, t)
	}
	return list
}

func (v *visit) done() int {
	n := 0
	for _, step := range v.plan.Steps {
		if v.ticks[step.ID] {
			n++
		}
	}
	return n
}

// roomOf is the room in which a finding is put right, by the first word of its code.
func roomOf(f finding.Finding) string {
	switch word, _, _ := strings.Cut(f.Code, "-"); word {
	case "fit", "board", "part", "panel":
		return "place"
	case "scan", "key", "chord":
		return "scan"
	}
	return "wire"
}

func countOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// titleBlock sums the panel up.
func (v *visit) titleBlock() view.TitleBlock {
	b := view.TitleBlock{
		Name: v.panel.Name, Rev: v.rev, Boards: boardsSay(&v.panel), Parts: fmt.Sprint(len(v.panel.Placed)),
		Pins: "no module", Face: v.face.String(),
		Stops: finding.Count(v.plan.Findings, finding.Stop), Minds: finding.Count(v.plan.Findings, finding.Mind),
		Notes: finding.Count(v.plan.Findings, finding.Note),
	}
	for i, r := range rooms {
		if r.name == v.room {
			b.Sheet = fmt.Sprintf("%d of %d", i+1, len(rooms))
		}
	}
	if m := v.plan.Module; m != nil {
		b.Pins = fmt.Sprintf("%d of %d", len(v.plan.Pins.Pins), len(m.Pins))
	}
	counts := map[string]int{}
	for _, w := range v.plan.Wiring.Wires {
		counts[string(w.Kind)]++
	}
	for _, kind := range []struct{ kind, says string }{{"leg", "leg"}, {"solder", "solder"}, {"bare", "bare"}, {"insulated", "insulated"}} {
		if n := counts[kind.kind]; n > 0 {
			b.Wires = append(b.Wires, view.WireCount{Kind: kind.says, Count: n})
		}
	}
	return b
}
