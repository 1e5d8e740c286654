package check

import (
	"slices"
	"strconv"

	"fascia/design/finding"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/pinning"
	"fascia/design/scan"
)

// A view is a case with what many rules ask for looked up once. It is read-only once made, but for what is noted at the first asking.
type view struct {
	*Case
	scan  *scan.Result    // never nil
	pins  *pinning.Result // never nil
	nets  *netlist.Result // never nil
	items []item
	byRef map[string]*item
	keys  []panel.KeyRef
	netOf map[panel.TerminalRef]*netlist.Net
	pinOf map[string]*pinning.Pin // by the net that it drives or reads
	lamps []lamp

	keyDiodes []keyDiode
	read      *levels // see levels; worked out when a rule first asks
	lost      *[]loss // see losses; likewise
}

// An item is one placed part with its definition.
type item struct {
	*panel.Placed
	def *part.Definition
}

// natural is the supply net of a terminal by nature, as the part's address sets it.
func (it *item) natural(t part.Terminal) string { return it.def.NetAt(t, it.Address) }

func viewOf(c *Case) *view {
	v := &view{Case: c, scan: c.Scan, pins: c.Pins, nets: c.Nets, keys: c.Panel.Keys()}
	if v.scan == nil {
		v.scan = &scan.Result{}
	}
	if v.pins == nil {
		v.pins = &pinning.Result{}
	}
	if v.nets == nil {
		v.nets = &netlist.Result{}
	}
	v.findParts()
	v.findNets()
	v.lamps = v.findLamps()
	v.keyDiodes = v.findKeyDiodes()
	return v
}

func (v *view) findParts() {
	defs := map[string]*part.Definition{}
	placed := v.Panel.Placed
	v.items, v.byRef = make([]item, len(placed)), make(map[string]*item, len(placed))
	for i := range placed {
		id := placed[i].Part
		if defs[id] == nil {
			d := v.Panel.Parts[id]
			defs[id] = &d
		}
		v.items[i] = item{&placed[i], defs[id]}
		v.byRef[placed[i].Ref] = &v.items[i]
	}
}

func (v *view) findNets() {
	v.netOf = map[panel.TerminalRef]*netlist.Net{}
	for i := range v.nets.Nets {
		for _, t := range v.nets.Nets[i].Terminals {
			v.netOf[t.TerminalRef] = &v.nets.Nets[i]
		}
	}
	v.pinOf = map[string]*pinning.Pin{}
	for i := range v.pins.Pins {
		p := &v.pins.Pins[i]
		name := p.Net
		if n := v.net(v.pins.Module, p.Terminal); n != nil {
			name = n.Name
		}
		v.pinOf[name] = p
	}
}

// net returns the net of a terminal, or nil when it is on none.
func (v *view) net(ref, terminal string) *netlist.Net {
	return v.netOf[panel.TerminalRef{Ref: ref, Terminal: terminal}]
}

// ofKind lists the parts of one of these kinds, in order.
func (v *view) ofKind(kinds ...part.Kind) []*item {
	var found []*item
	for i := range v.items {
		if slices.Contains(kinds, v.items[i].def.Kind) {
			found = append(found, &v.items[i])
		}
	}
	return found
}

// module is the placed module that the plan uses, or nil: the one the pins name, else the first.
func (v *view) module() *item {
	if it := v.byRef[v.pins.Module]; it != nil {
		return it
	}
	if all := v.ofKind(part.Module); len(all) > 0 {
		return all[0]
	}
	return nil
}

// gpio returns the name of a GPIO that is on the net, or "".
func (v *view) gpio(n *netlist.Net) string {
	if n == nil {
		return ""
	}
	for _, t := range n.Terminals {
		if it := v.byRef[t.Ref]; it != nil && it.def.Kind == part.Module {
			if term, _ := it.def.Terminal(t.Terminal); term.GPIO != "" {
				return term.GPIO
			}
		}
	}
	return ""
}

// A link is a two-ended part between a net and another.
type link struct {
	it  *item
	far *netlist.Net // nil when its other end is on no net
}

// links lists the parts of a kind with one end on n, with the net of the other end.
func (v *view) links(n *netlist.Net, kind part.Kind) []link {
	if n == nil {
		return nil
	}
	var found []link
	for _, t := range n.Terminals {
		it := v.byRef[t.Ref]
		if it == nil || it.def.Kind != kind {
			continue
		}
		for _, other := range it.def.Terminals {
			if other.Name != t.Terminal {
				found = append(found, link{it, v.net(t.Ref, other.Name)})
			}
		}
	}
	return found
}

// value is what the maker wrote on the part, else the first value it is sold with.
func (it *item) value() string {
	if it.Value == "" && len(it.def.Facts.Values) > 0 {
		return it.def.Facts.Values[0]
	}
	return it.Value
}

// ohms is the resistance of a resistor; false when it is not known.
func (it *item) ohms() (float64, bool) {
	if it.Value == "" && it.def.Facts.Ohms > 0 {
		return it.def.Facts.Ohms, true
	}
	ohms, err := part.ParseValue(it.value())
	return ohms, err == nil
}

// nouns by which a sentence names a part of a kind.
var nouns = map[part.Kind]string{part.Module: "module", part.Switch: "switch", part.Selector: "switch",
	part.PowerSwitch: "power switch", part.Encoder: "encoder", part.Joystick: "joystick", part.Display: "display",
	part.LED: "LED", part.Resistor: "resistor", part.Diode: "diode", part.Capacitor: "capacitor",
	part.Transistor: "transistor", part.Piezo: "piezo", part.Buzzer: "buzzer", part.Header: "header",
	part.Battery: "battery connector", part.Charger: "charger", part.Expander: "expander"}

// name is how a sentence speaks of the part: display U2.
func (it *item) name() string {
	if noun := nouns[it.def.Kind]; noun != "" {
		return noun + " " + it.Ref
	}
	return it.Ref
}

// capital makes the first letter of a sentence large.
func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-0x20) + s[1:]
	}
	return s
}

// keyName is how a sentence speaks of a key: key Start (S3), or key S3 when it has no legend.
func keyName(k panel.KeyRef) string {
	if k.Legend == "" {
		return "key " + k.ID
	}
	return "key " + k.Legend + " (" + k.ID + ")"
}

// refs and keys point a finding at parts and keys.
func atParts(refs ...string) finding.Where { return finding.Where{Refs: refs} }
func atKeys(keys ...string) finding.Where  { return finding.Where{Keys: keys} }

// figure writes a number with at most two decimals and no more than it needs: 2, 0.5, 12.35.
func figure(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}

// resistance writes ohms as a maker says them: 220 ohms, 4.7 kilohms.
func resistance(ohms float64) string {
	if ohms >= 1000 {
		return figure(ohms/1000) + " kilohms"
	}
	return figure(ohms) + " ohms"
}
