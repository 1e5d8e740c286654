package signal

import "fascia/design/part"

// nouns of the kinds that a net may be named after.
var nouns = map[part.Kind]string{
	part.Display: "display", part.Joystick: "joystick", part.Encoder: "encoder", part.Piezo: "piezo",
	part.Buzzer: "buzzer", part.LED: "LED", part.Expander: "expander", part.Selector: "selector",
}

// named gives every gathered signal its net name.
func (l *lister) named() []Signal {
	for i := range l.signals {
		l.signals[i].Net = l.netName(&l.signals[i])
	}
	return l.signals
}

// netName is the bus line when several parts share it, else the part's noun, or its reference when
// it is not the only one of its kind, and the terminal.
func (l *lister) netName(s *Signal) string {
	first := s.Terminals[0]
	for _, t := range s.Terminals[1:] {
		if t.Ref != first.Ref {
			return string(s.Wants) // I2C SDA, SPI SCK
		}
	}
	return l.noun(first.Ref) + " " + first.Terminal
}

func (l *lister) noun(ref string) string {
	pl := l.panel.Find(ref)
	kind := l.panel.Definition(pl).Kind
	if noun := nouns[kind]; noun != "" && len(l.panel.OfKind(kind)) == 1 {
		return noun
	}
	return ref
}
