package web

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/usage"
	"fascia/web/view"
)

// slip tells about the selection.
func (v *visit) slip() view.Slip {
	s := view.Slip{Notes: v.panel.Notes, Refs: strings.Join(v.selected, " ")}
	switch len(v.selected) {
	case 0:
	case 1:
		one := v.slipPart(v.panel.Find(v.selected[0]))
		s.Part = &one
	default:
		s.Many = v.selected
	}
	return s
}

func (v *visit) slipPart(pl *panel.Placed) view.SlipPart {
	d := v.panel.Definition(pl)
	s := view.SlipPart{
		Ref: pl.Ref, Name: d.Name, Kind: string(d.Kind), At: pl.At.String(), Face: pl.Face, Outline: view.OutlineOf(d),
		Turn:  [...]string{"not turned", "turned right by a quarter", "turned half round", "turned left by a quarter"}[pl.Turn%4],
		Value: pl.Value, Values: d.Facts.Values, ValueLabel: valueLabel(d),
		Address: pl.Address, Addresses: d.Facts.I2CAddresses, Facts: figures(d), ID: pl.Part, OwnID: ownID(pl.Part),
	}
	if s.Address == "" && len(s.Addresses) > 0 {
		s.Address = s.Addresses[0]
	}
	for _, c := range d.Contacts {
		s.Contacts = append(s.Contacts, v.contact(pl, d, c))
	}
	for _, t := range d.Terminals {
		s.Ends = append(s.Ends, v.end(pl, t))
	}
	text, err := json.Marshal(d)
	if err != nil {
		panic(err) // a definition of a valid panel always encodes
	}
	s.Definition = string(text)
	return s
}

func valueLabel(d part.Definition) string {
	switch d.Kind {
	case part.Resistor:
		return "Resistance"
	case part.Capacitor:
		return "Capacitance"
	case part.LED:
		return "Colour"
	case part.Module:
		return "Stepping"
	}
	if len(d.Facts.Values) > 0 {
		return "Value"
	}
	return ""
}

// figures are the ones worth knowing while placing.
func figures(d part.Definition) []string {
	var list []string
	for _, b := range d.Bodies {
		if b.Height > 0 {
			list = append(list, fmt.Sprintf("%s %.1f mm high on its %s.", bodyName(b), b.Height, b.Face))
		}
	}
	if worst := d.WorstResidual(); worst >= 0.05 {
		list = append(list, fmt.Sprintf("Its legs miss the holes by up to %.2f mm.", float64(worst)))
	}
	if f := d.Facts; f.SupplyMaxVolts > 0 {
		list = append(list, fmt.Sprintf("Supply %g to %g V, %g mA.", f.SupplyMinVolts, f.SupplyMaxVolts, f.CurrentMA))
	}
	return list
}

func bodyName(b part.Body) string {
	if b.Label == "" {
		return "Body"
	}
	return strings.ToUpper(b.Label[:1]) + b.Label[1:]
}

// ownID is a short name to save a copy of a part under: the built-in ones keep theirs.
func ownID(id string) string {
	if _, taken := part.BuiltIn()[id]; !taken {
		return id
	}
	return id[:min(len(id), 43)] + "-mine"
}

func (v *visit) contact(pl *panel.Placed, d part.Definition, c part.Contact) view.Contact {
	out := view.Contact{ID: pl.Ref}
	key, is := panel.Key{}, false
	if len(d.Contacts) == 1 {
		if pl.Key != nil {
			key, is = *pl.Key, true
		}
	} else {
		out.ID, out.Name = pl.Ref+"."+c.Name, c.Name
		key, is = pl.Keys[c.Name]
	}
	out.Is, out.Legend, out.Direct = is, key.Legend, key.Direct
	if key.Usage != "" {
		out.Usage = usageShown(key.Usage)
	}
	if u, ok := usage.Suggest(key.Legend); ok && is && key.Usage == "" {
		out.Suggested = &view.Usage{Code: u.Code(), Name: u.Name}
	}
	for _, cell := range v.plan.Scan.Cells {
		if cell.Key == out.ID {
			out.Place = fmt.Sprintf("row %d, column %d", cell.Row, cell.Column)
		}
	}
	for _, direct := range v.plan.Scan.Direct {
		if direct.Key == out.ID {
			out.Place = "a pin of its own"
			if pin, ok := v.pinOf(out.ID); ok {
				out.Place = pin.GPIO + " alone"
			}
		}
	}
	return out
}

func (v *visit) pinOf(signal string) (pinning.Pin, bool) {
	i := slices.IndexFunc(v.plan.Pins.Pins, func(p pinning.Pin) bool { return p.Signal == signal })
	if i < 0 {
		return pinning.Pin{}, false
	}
	return v.plan.Pins.Pins[i], true
}

// end says where a terminal goes: its net, and the pin that the net is on.
func (v *visit) end(pl *panel.Placed, t part.Terminal) view.End {
	ref := panel.TerminalRef{Ref: pl.Ref, Terminal: t.Name}
	e := view.End{Name: t.Name, Hole: pl.Pose().Hole(t.Offset()).String()}
	for _, n := range v.plan.Nets.Nets {
		for _, other := range n.Terminals {
			if other.TerminalRef == ref {
				e.Net = n.Name
			}
		}
	}
	for _, open := range v.plan.Nets.Open {
		if open.TerminalRef == ref {
			e.Why = open.Why
		}
	}
	for _, pin := range v.plan.Pins.Pins {
		if pin.Net == e.Net && e.Net != "" {
			e.Pin, e.Locked = pin.GPIO, v.locked(pin)
		}
	}
	return e
}

// locked reports whether the maker tied the signal to its pin, under any of its names.
func (v *visit) locked(p pinning.Pin) bool {
	if _, ok := v.panel.Pins.Locked[p.Signal]; ok {
		return true
	}
	for _, t := range p.Serves {
		if _, ok := v.panel.Pins.Locked[t.String()]; ok {
			return true
		}
	}
	return false
}
