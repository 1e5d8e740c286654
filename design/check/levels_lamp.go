package check

import (
	"fmt"
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/reading"
	"fascia/design/scan"
)

// dimmer says which resistor would let the LEDs of select lines leave the readings alone: the smallest
// of the series E12 above the present ones with which every reading is as it is without LEDs.
func (v *view) dimmer() string {
	const otherwise = "Place a diode at every key, or light LEDs from pins of their own."
	var refs []string
	least := 0.0
	for i := range v.lamps {
		l := &v.lamps[i]
		if !slices.ContainsFunc(v.scan.Lamps, func(s scan.Lamp) bool { return s.LED == l.it.Ref }) {
			continue
		}
		for _, r := range l.resistors {
			refs = append(refs, r.Ref)
		}
		least = max(least, l.ohms)
	}
	if len(refs) == 0 || least <= 0 {
		return "Place a resistor beside each LED."
	}
	for ohms := part.E12.Next(least * 1.01); ohms <= mostLampOhms; ohms = part.E12.Next(ohms * 1.01) {
		if v.leavesReadings(refs, ohms) {
			return fmt.Sprintf("Give each of them %s or more.", resistance(ohms))
		}
	}
	return otherwise
}

// mostLampOhms is the largest resistor that is worth trying with an LED; see the netlist's own limit.
const mostLampOhms = 2200

// leavesReadings reads the panel with other resistors at its LEDs.
func (v *view) leavesReadings(refs []string, ohms float64) bool {
	other := *v.Panel
	other.Placed = slices.Clone(v.Panel.Placed)
	for i := range other.Placed {
		if slices.Contains(refs, other.Placed[i].Ref) {
			other.Placed[i].Value = fmt.Sprintf("%g", ohms)
		}
	}
	lit := v.holdEachOf(&other)
	for i := range lit {
		ghosts, doubtful := lit[i].wrong()
		wasGhosts, wasDoubtful := v.read.plain[i].wrong()
		if len(ghosts) > len(wasGhosts) || len(doubtful) > len(wasDoubtful) {
			return false
		}
	}
	return true
}

func (v *view) holdEachOf(p *panel.Panel) []holding {
	return v.holdEach(reading.New(p, v.scan, v.nets, &v.Module.Chip))
}

// firstSets lists the first sets of keys that a chord stands for, at most so many.
func firstSets(c panel.Chord, most int) [][]string {
	sets := [][]string{slices.Clone(c.Keys)}
	for _, a := range c.Any {
		var more [][]string
		for _, pick := range firstPicks(a.Of, a.Count, most) {
			for _, set := range sets {
				if len(more) < most {
					more = append(more, withAll(set, pick))
				}
			}
		}
		sets = more
	}
	return slices.DeleteFunc(sets, func(s []string) bool { return len(s) < 2 })
}

// firstPicks lists the first ways to take count of the keys.
func firstPicks(of []string, count, most int) [][]string {
	var picks [][]string
	var pick func(from int, taken []string)
	pick = func(from int, taken []string) {
		switch {
		case len(picks) == most:
		case len(taken) == count:
			picks = append(picks, slices.Clone(taken))
		default:
			for i := from; i <= len(of)-(count-len(taken)); i++ {
				pick(i+1, append(taken, of[i]))
			}
		}
	}
	pick(0, nil)
	return picks
}

// withAll is a set with more keys, each once.
func withAll(set, more []string) []string {
	all := slices.Clone(set)
	for _, k := range more {
		if !slices.Contains(all, k) {
			all = append(all, k)
		}
	}
	return all
}
