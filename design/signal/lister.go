package signal

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
)

// A role is one line of one bus.
type role struct {
	bus   string
	wants part.Signal
}

// A lister gathers signals part by part.
type lister struct {
	panel    *panel.Panel
	joined   map[panel.TerminalRef]bool
	spiParts int
	signals  []Signal
	byRole   map[role]int // index in signals of each bus line
}

func (l *lister) add(pl *panel.Placed) {
	d := l.panel.Definition(pl)
	if d.Kind == part.Module || d.Kind == part.LED && slices.Contains(l.panel.Scan.Lamps, pl.Ref) {
		return
	}
	var taken []string // metal that has its pin already
	for _, n := range d.Needs {
		t, ok := d.Terminal(n.Terminal)
		ref := panel.TerminalRef{Ref: pl.Ref, Terminal: n.Terminal}
		metal := d.Metal(n.Terminal)
		if !ok || l.joined[ref] || onSupply(&d, metal) || keyed(pl, &d, metal) || slices.Contains(taken, t.Name) {
			continue
		}
		taken = append(taken, metal...)
		l.want(ref, n, l.bus(n.Signal, pl.Ref, d.Facts.NoChipSelect))
	}
}

// bus names the bus that a signal belongs to, "" for none.
func (l *lister) bus(s part.Signal, ref string, alwaysSelected bool) string {
	switch {
	case onI2C(s):
		return "I2C"
	case onSPI(s) && alwaysSelected && l.spiParts > 1:
		return "SPI " + ref
	case onSPI(s):
		return "SPI"
	}
	return ""
}

// want adds a signal, or one more terminal to the bus line that is there already.
func (l *lister) want(t panel.TerminalRef, n part.Need, bus string) {
	if i, shared := l.byRole[role{bus, n.Signal}]; shared && bus != "" {
		s := &l.signals[i]
		s.Terminals = append(s.Terminals, t)
		s.Optional = s.Optional && n.Optional
		if s.Pull == "" {
			s.Pull = n.Pull
		}
		return
	}
	l.byRole[role{bus, n.Signal}] = len(l.signals)
	l.signals = append(l.signals, Signal{
		ID: t.String(), Wants: n.Signal, Bus: bus, Terminals: []panel.TerminalRef{t},
		Direction: direction(n.Signal), Pull: n.Pull, Optional: n.Optional,
	})
}

func direction(s part.Signal) string {
	switch {
	case onI2C(s):
		return "both"
	case s == part.SPIRX, s == part.ADC, s == part.DigitalIn:
		return "in"
	}
	return "out"
}

func onSupply(d *part.Definition, metal []string) bool {
	return slices.ContainsFunc(metal, func(name string) bool {
		t, ok := d.Terminal(name)
		return ok && t.Net != ""
	})
}

// keyed reports whether the metal is an end of a contact that the maker made a key.
func keyed(pl *panel.Placed, d *part.Definition, metal []string) bool {
	for _, c := range d.Contacts {
		_, named := pl.Keys[c.Name]
		if !named && (pl.Key == nil || len(d.Contacts) != 1) {
			continue
		}
		if slices.Contains(metal, c.Between[0]) || slices.Contains(metal, c.Between[1]) {
			return true
		}
	}
	return false
}
