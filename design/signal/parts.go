package signal

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
)

// OfParts lists the signals of all placed parts but modules, in order of parts and of their needs.
// All I2C parts share one bus, and so do all SPI parts, except that a part which is always selected
// has a bus of its own when there are others. A need makes no signal when its terminal belongs to
// a supply net, is one metal with a terminal in a join of the maker's, or is wired as a key, nor when
// it is of an LED that lights with a select line. Of terminals that are one metal only the first need
// counts.
func OfParts(p *panel.Panel) []Signal {
	lister := lister{panel: p, joined: joinedTerminals(p), byRole: map[role]int{}, spiParts: spiParts(p)}
	for i := range p.Placed {
		lister.add(&p.Placed[i])
	}
	return lister.named()
}

// PinsNeeded counts the controller pins that all but the keys take: one for each signal of the
// parts that is not optional, and the pins that the maker's joins use. Pins that are to be kept
// free are not counted.
func PinsNeeded(p *panel.Panel) int {
	n := 0
	for _, s := range OfParts(p) {
		if !s.Optional {
			n++
		}
	}
	if modules := p.Modules(); len(modules) > 0 {
		for _, name := range JoinedGPIOs(p, modules[0].Ref) {
			if !slices.Contains(p.Pins.KeepFree, name) {
				n++
			}
		}
	}
	return n
}

// JoinedGPIOs lists the GPIOs of a module that the maker's joins use, in order of the module's
// terminals. No signal may take them.
func JoinedGPIOs(p *panel.Panel, moduleRef string) []string {
	pl := p.Find(moduleRef)
	if pl == nil {
		return nil
	}
	joined := joinedTerminals(p)
	d := p.Definition(pl)
	var names []string
	for _, t := range d.Terminals {
		if t.GPIO != "" && joined[panel.TerminalRef{Ref: moduleRef, Terminal: t.Name}] && !slices.Contains(names, t.GPIO) {
			names = append(names, t.GPIO)
		}
	}
	return names
}

// joinedTerminals holds every terminal that a join of the maker's reaches, through metal inside
// the part too.
func joinedTerminals(p *panel.Panel) map[panel.TerminalRef]bool {
	joined := map[panel.TerminalRef]bool{}
	for _, j := range p.Joins {
		for _, name := range j.Terminals {
			t, ok := panel.ParseTerminal(name)
			pl := p.Find(t.Ref)
			if !ok || pl == nil {
				continue
			}
			d := p.Definition(pl)
			for _, m := range d.Metal(t.Terminal) {
				joined[panel.TerminalRef{Ref: t.Ref, Terminal: m}] = true
			}
		}
	}
	return joined
}

// spiParts counts the parts that want any line of an SPI bus.
func spiParts(p *panel.Panel) int {
	n := 0
	for i := range p.Placed {
		d := p.Definition(&p.Placed[i])
		if d.Kind != part.Module && slices.ContainsFunc(d.Needs, func(n part.Need) bool { return onSPI(n.Signal) }) {
			n++
		}
	}
	return n
}

func onSPI(s part.Signal) bool { return s == part.SPISCK || s == part.SPITX || s == part.SPIRX }
func onI2C(s part.Signal) bool { return s == part.I2CSDA || s == part.I2CSCL }
