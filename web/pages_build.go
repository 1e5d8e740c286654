package web

import (
	"fmt"
	"net/url"
	"strings"

	"fascia/design/bench"
	"fascia/design/grid"
	"fascia/design/sheet"
	"fascia/web/view"
)

// fillBuild sets out the checklist, with one step on the bench: the one asked for, else the first
// that is not done.
func (s *Server) fillBuild(v *visit) error {
	steps := v.plan.Steps
	v.now = v.stepNow()
	r := view.BuildRoom{Total: len(steps), Done: v.done(), Local: bench.Local}
	for i, step := range steps {
		one := v.benchStep(i)
		if n := len(r.Stages); n == 0 || r.Stages[n-1].Name != step.Stage {
			r.Stages = append(r.Stages, view.Stage{Name: step.Stage})
		}
		stage := &r.Stages[len(r.Stages)-1]
		stage.Steps = append(stage.Steps, one)
		if one.Done {
			stage.Done++
		}
		if i == v.now {
			r.Now, r.Number = &one, i+1
		}
	}
	if v.now >= 0 {
		if v.now > 0 {
			r.Before = v.stepAddress(v.now - 1)
		}
		if v.now+1 < len(steps) {
			r.After = v.stepAddress(v.now + 1)
		}
		if !v.faceSaid {
			v.face = steps[v.now].Face
		}
		v.step = steps[v.now].ID
	}
	v.page.Content = view.BuildContent(r)
	return nil
}

func (v *visit) stepNow() int {
	for i, step := range v.plan.Steps {
		if step.ID == v.step {
			return i
		}
	}
	for i, step := range v.plan.Steps {
		if !v.ticks[step.ID] {
			return i
		}
	}
	return len(v.plan.Steps) - 1
}

func (v *visit) benchStep(i int) view.BenchStep {
	step := v.plan.Steps[i]
	one := view.BenchStep{
		ID: step.ID, Title: step.Title, Text: step.Text, Caution: step.Caution, Face: step.Face, Wire: step.Wire,
		Refs: strings.Join(step.Refs, " "), Holes: grid.JoinHoles(step.Holes), Done: v.ticks[step.ID], Now: i == v.now,
		Href: v.stepAddress(i),
	}
	if len(step.Holes) > 0 {
		one.Picture = fmt.Sprintf("/panels/%s/steps/%d.svg?rev=%d", v.id, i+1, v.rev)
	}
	return one
}

// stepAddress is the Build room with a step on the bench; the step chooses the face.
func (v *visit) stepAddress(i int) string {
	return "/panels/" + string(v.id) + "/build?" + url.Values{"step": {v.plan.Steps[i].ID}}.Encode()
}

// benchView is the picture of step i: its holes close up, its wire inked, the wires of the steps
// before it as built.
func benchView(steps []bench.Step, i int) sheet.View {
	v := sheet.View{Face: steps[i].Face, Style: sheet.Bench, Room: "build", Holes: steps[i].Holes, Wire: steps[i].Wire}
	for _, before := range steps[:i] {
		v.Built = max(v.Built, before.Wire)
	}
	return v
}
