package web

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/plan"
	"fascia/web/view"
)

// fillPins shows which signal is on which pin and why, what the maker's wishes cost, and where each
// signal could go.
func (v *visit) fillPins(r *view.PinPart) error {
	got := &v.plan.Pins
	r.Conflict, r.Lines = got.Conflict, v.expanderLines()
	if v.plan.Module == nil {
		return nil
	}
	r.ModuleAs = got.Module + ", " + v.plan.Module.Chip.Name
	r.Figures, r.Concessions = pinFigures(got), concessions(got)
	var err error
	if r.Module, err = drawnModule(v); err != nil {
		return err
	}
	reach := v.plan.Reach()
	prices := pricesOf(v.plan, reach)
	for _, p := range got.Pins {
		r.Pins = append(r.Pins, v.pinRow(p, reach, prices))
	}
	if len(r.Pins) == 0 {
		r.Ties = v.ties(reach)
	}
	r.Kept, r.Free = v.keptPins(prices), v.freePins()
	r.Wishes = v.spared(prices)
	r.Reach, err = reachFacts(reach)
	return err
}

func (v *visit) pinRow(p pinning.Pin, reach []plan.Reach, prices pinPrices) view.PinRow {
	row := view.PinRow{Signal: p.Signal, Net: p.Net, GPIO: p.GPIO, ModulePin: p.ModulePin, Function: duty(p),
		Reason: sentence(p.Reason), Hole: p.Hole.String(), Locked: v.locked(p)}
	if i := slices.IndexFunc(reach, func(r plan.Reach) bool { return r.Signal == p.Signal }); i >= 0 {
		row.Able = reach[i].Able
		for _, name := range reach[i].Ties {
			row.Price = prices[pinning.PriceOfLock][name]
		}
	}
	for _, pin := range v.plan.Module.Pins {
		if !slices.Contains(row.Able, pin.Name) {
			row.Unable = append(row.Unable, pin.Name)
		}
	}
	return row
}

// pinFigures says in one line what the assignment costs and how near it is to the least.
func pinFigures(got *pinning.Result) view.PinFigures {
	if len(got.Pins) == 0 {
		return view.PinFigures{}
	}
	f := view.PinFigures{Cost: fmt.Sprint(got.Cost)}
	f.Crossings = fmt.Sprint(got.Crossings)
	crossings := "no crossings"
	if got.Crossings > 0 {
		crossings = countOf(got.Crossings, "crossing", "crossings")
	}
	f.Says = fmt.Sprintf("%.4g holes of wire from the pins to what they serve, %s. %s", got.Cost, crossings, pinsProved(got))
	return f
}

// pinsProved says how near the pins are to the best there are.
func pinsProved(got *pinning.Result) string {
	switch {
	case got.Proved && got.Untangled:
		return "Proved: no other pins take less wire, nor cross less with as little."
	case got.Proved:
		return "Proved: no other pins take less wire. Fewer crossings were looked for and not found."
	}
	return fmt.Sprintf("No pins take less than %.4g, so at most %.2g %% could be saved.", got.Bound, 100*(got.Cost-got.Bound)/max(got.Cost, 1))
}

// concessions are the ways out of a conflict, with what each leaves.
func concessions(got *pinning.Result) []view.Concession {
	var list []view.Concession
	for _, c := range got.Concessions {
		leaves := fmt.Sprintf("Then the pins take %.4g holes of wire.", c.Cost)
		list = append(list, view.Concession{Says: c.Change, Leaves: leaves, Edit: string(c.Edit)})
	}
	return list
}

// duty is the function, its direction unless the name has it, and the pull.
func duty(p pinning.Pin) string {
	words := []string{p.Function}
	if !strings.HasSuffix(p.Function, " "+p.Direction) {
		words = append(words, p.Direction)
	}
	if p.Pull == "up" || p.Pull == "down" {
		words = append(words, "pull "+p.Pull)
	}
	return strings.Join(words, ", ")
}

// ties lists what the maker tied to pins, in order of signal.
func (v *visit) ties(reach []plan.Reach) []view.Tie {
	var list []view.Tie
	for _, name := range slices.Sorted(maps.Keys(v.panel.Pins.Locked)) {
		tie := view.Tie{Signal: name, Net: name, GPIO: v.panel.Pins.Locked[name]}
		for _, r := range reach {
			if slices.Contains(r.Ties, name) {
				tie.Net = r.Net
			}
		}
		list = append(list, tie)
	}
	return list
}

// keptPins lists what the maker keeps free, in order of number.
func (v *visit) keptPins(prices pinPrices) []view.KeptPin {
	var list []view.KeptPin
	for _, g := range slices.SortedFunc(slices.Values(v.panel.Pins.KeepFree), byNumber) {
		list = append(list, view.KeptPin{GPIO: g, Price: prices[pinning.PriceOfKeep][g]})
	}
	return list
}

// freePins lists what is left over, in order of number.
func (v *visit) freePins() []string {
	free := slices.DeleteFunc(slices.Clone(v.plan.Pins.Free), func(g string) bool { return slices.Contains(v.panel.Pins.KeepFree, g) })
	slices.SortFunc(free, byNumber)
	return free
}

func byNumber(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) }

// expanderLines lists the keys that are on lines of an expander.
func (v *visit) expanderLines() []view.LineRow {
	var list []view.LineRow
	for _, d := range v.plan.Scan.Direct {
		if d.Via == "" {
			continue
		}
		row := view.LineRow{Key: d.Key, Legend: d.Legend, Net: "key " + d.Key, Line: d.Via}
		if ref, terminal, ok := strings.Cut(d.Via, "."); ok {
			if h, known := v.panel.HoleOf(panel.TerminalRef{Ref: ref, Terminal: terminal}); known {
				row.Hole = h.String()
			}
		}
		list = append(list, row)
	}
	return list
}

// reachFacts writes for the scripts which pins each signal could be tied to.
func reachFacts(reach []plan.Reach) (string, error) {
	type fact struct {
		Net  string            `json:"net"`
		GPIO string            `json:"gpio"`
		Ties []string          `json:"ties"`
		Able []string          `json:"able"`
		Bars map[string]string `json:"bars"` // by GPIO
	}
	facts := map[string]fact{}
	for _, r := range reach {
		f := fact{r.Net, r.GPIO, append([]string{}, r.Ties...), append([]string{}, r.Able...), map[string]string{}}
		for _, b := range r.Bars {
			for _, g := range b.GPIOs {
				f.Bars[g] = b.Why
			}
		}
		facts[r.Signal] = f
	}
	text, err := json.Marshal(facts)
	if err != nil {
		return "", fmt.Errorf("write reach of signals: %w", err)
	}
	return string(text), nil
}
