package check

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/reading"
)

const levelSource = "circuit solved at both ends of the figures: RP2040 data sheet table 622, RP2350 data sheet table 1436 for VIL, VIH, pulls and outputs"

var levelRules = []Rule{
	{Code: "level-idle", Severity: finding.Stop, Says: "With no key held every key reads as not pressed.", Source: levelSource, look: levelIdle},
	{Code: "level-press", Severity: finding.Stop, Says: "A key held by itself reads as pressed, and no other does.", Source: levelSource, look: levelPress},
	{Code: "level-chord", Severity: finding.Stop, Says: "While a chord is held its keys read as pressed and no other is in doubt.", Source: levelSource, look: levelChord},
	{Code: "level-lamp", Severity: finding.Stop, Says: "LEDs on select lines leave every reading as it is without them.", Source: levelSource, look: levelLamp},
	{Code: "level-margin", Severity: finding.Mind, Says: "Readings keep 0.1 V from the limits of the inputs.",
		Source: levelSource + "; the tenth of a volt is common practice, no source", look: levelMargin},
}

// leastMargin is how far, in volts, a reading should keep from the limit of an input.
const leastMargin = 0.1

// A holding is what the keys read while some are held.
type holding struct {
	chord string // "" for one key by itself or none
	keys  []string
	got   reading.Reading
}

// levels are the readings that the rules look at: no key, each by itself, each chord. plain are those
// that panel has without the LEDs of its select lines, the same as all when it has none.
type levels struct {
	all, plain []holding
	margins    reading.Margins
}

// mostChordSets bounds how many sets of keys of one chord are read: its choices can stand for thousands.
// Scan's search for ghosts looks at them all; here the first will do, as their circuits are alike.
const mostChordSets = 8

// levels reads the keys, once; nil when there is nothing to read them.
func (v *view) levels() *levels {
	if v.read != nil || v.Module == nil || len(v.scan.Cells)+len(v.scan.Direct) == 0 {
		return v.read
	}
	v.read = &levels{}
	reader := reading.New(v.Panel, v.scan, v.nets, &v.Module.Chip)
	v.read.all = v.holdEach(reader)
	v.read.plain = v.read.all
	if len(v.scan.Lamps) > 0 {
		unlit := *v.scan
		unlit.Lamps = nil
		v.read.plain = v.holdEach(reading.New(v.Panel, &unlit, v.nets, &v.Module.Chip))
	}
	var chords [][]string
	for _, h := range v.read.all {
		if h.chord != "" {
			chords = append(chords, h.keys)
		}
	}
	v.read.margins = reader.Margins(chords)
	return v.read
}

func (v *view) holdEach(r *reading.Reader) []holding {
	list := []holding{{got: r.Read(nil)}}
	for _, k := range list[0].got.Keys {
		list = append(list, holding{"", []string{k.Key}, r.Read([]string{k.Key})})
	}
	for i, c := range v.Panel.Chords {
		for _, set := range firstSets(c, mostChordSets) {
			list = append(list, holding{chordName(c, i), set, r.Read(set)})
		}
	}
	return list
}

// wrong lists the keys that do not read as they are held: those that read as pressed for sure though
// nobody holds them, and those that read either way or not at all.
func (h *holding) wrong() (ghosts, doubtful []reading.Key) {
	for _, k := range h.got.Keys {
		held := slices.Contains(h.keys, k.Key)
		switch {
		case held && k.State != reading.Pressed, k.State == reading.Undefined:
			doubtful = append(doubtful, k)
		case !held && k.State == reading.Pressed:
			ghosts = append(ghosts, k)
		}
	}
	return ghosts, doubtful
}

// limit says what an input takes for a level: the one that a key reads at when held, or at rest.
func (v *view) limit(held bool) string {
	if held == (v.scan.Active == "high") {
		return fmt.Sprintf("%s V or more for a high", figure(v.Module.Chip.VIHVolts))
	}
	return fmt.Sprintf("%s V or less for a low", figure(v.Module.Chip.VILVolts))
}

// span writes the least and the most voltage of a reading.
func voltSpan(k reading.Key) string {
	least, most := figure(k.Volts[0]), figure(k.Volts[1])
	if least == most {
		return most + " V"
	}
	return least + " to " + most + " V"
}

func namesOf(keys []reading.Key) []string {
	var list []string
	for _, k := range keys {
		list = append(list, k.Key)
	}
	return list
}

func levelIdle(v *view) []finding.Finding {
	l := v.levels()
	if l == nil || len(steppingPullDown(v)) > 0 {
		return nil // said there, with the cause
	}
	ghosts, doubtful := l.plain[0].wrong()
	bad := append(ghosts, doubtful...)
	if len(bad) == 0 {
		return nil
	}
	return []finding.Finding{{Where: atKeys(namesOf(bad)...),
		Text: fmt.Sprintf("With no key held the line of %s stands at %s; the input takes %s.", finding.Names(namesOf(bad)), voltSpan(bad[0]), v.limit(false)),
		Fix:  "Give the line a pull resistor, or let the controller's own pulls do it."}}
}

func levelPress(v *view) []finding.Finding {
	l := v.levels()
	if l == nil || len(steppingPullDown(v)) > 0 {
		return nil
	}
	var bad []reading.Key
	for _, h := range l.plain {
		if h.chord != "" || len(h.keys) == 0 {
			continue
		}
		if _, doubtful := h.wrong(); len(doubtful) > 0 && doubtful[0].Key == h.keys[0] {
			bad = append(bad, doubtful[0])
		}
	}
	if len(bad) == 0 {
		return nil
	}
	return []finding.Finding{{Where: atKeys(namesOf(bad)...),
		Text: fmt.Sprintf("Held by itself, %s may not be seen: its line stands at %s, and the input takes %s.", finding.Names(namesOf(bad)), voltSpan(bad[0]), v.limit(true)),
		Fix:  "Take a diode that drops less, such as a 1N4148 or a small Schottky diode, or a weaker pull."}}
}

// levelChord speaks of what logic cannot see: a reading that is in doubt. Ghosts for sure are the
// scan's to tell.
func levelChord(v *view) []finding.Finding {
	l := v.levels()
	if l == nil {
		return nil
	}
	var found []finding.Finding
	said := map[string]bool{}
	for _, h := range l.plain {
		_, doubtful := h.wrong()
		if h.chord == "" || len(doubtful) == 0 || said[h.chord] {
			continue
		}
		said[h.chord] = true
		found = append(found, finding.Finding{Where: atKeys(append(slices.Clone(h.keys), doubtful[0].Key)...),
			Text: fmt.Sprintf("%s: with %s held, %s reads either way, at %s.", h.chord, finding.Names(h.keys), doubtful[0].Key, voltSpan(doubtful[0])),
			Fix:  "Move a key of the chord to another cell, or give it a pin of its own."})
	}
	return found
}

// levelLamp compares with the same panel without the LEDs of its select lines.
func levelLamp(v *view) []finding.Finding {
	l := v.levels()
	if l == nil || len(v.scan.Lamps) == 0 {
		return nil
	}
	for i := range l.all {
		ghosts, doubtful := l.all[i].wrong()
		wasGhosts, wasDoubtful := l.plain[i].wrong()
		if len(ghosts) <= len(wasGhosts) && len(doubtful) <= len(wasDoubtful) {
			continue
		}
		bad := append(doubtful, ghosts...)[0]
		held := "no key"
		if len(l.all[i].keys) > 0 {
			held = finding.Names(l.all[i].keys)
		}
		where := atKeys(bad.Key)
		for _, lamp := range v.scan.Lamps {
			where.Refs = append(where.Refs, lamp.LED)
		}
		return []finding.Finding{{Where: where,
			Text: fmt.Sprintf("The LEDs on the select lines move the reading of %s with %s held to %s; the input takes %s.", bad.Key, held, voltSpan(bad), v.limit(slices.Contains(l.all[i].keys, bad.Key))),
			Fix:  v.dimmer()}}
	}
	return nil
}

func levelMargin(v *view) []finding.Finding {
	l := v.levels()
	if l == nil {
		return nil
	}
	var found []finding.Finding
	for _, m := range []struct {
		reading.Margin
		level string
	}{{l.margins.Low, "a low"}, {l.margins.High, "a high"}} {
		if m.Key == "" || !m.Proper || m.Spare >= leastMargin {
			continue
		}
		found = append(found, finding.Finding{Where: atKeys(m.Key),
			Text: fmt.Sprintf("%s reads %s at %s V, %s V from the limit of the input.", m.Key, m.level, figure(m.Volts), figure(m.Spare)),
			Fix:  "A diode that drops less, or a weaker pull, leaves more."})
	}
	return found
}
