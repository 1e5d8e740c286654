package demo

import (
	"fascia/design/grid"
	"fascia/design/panel"
)

// lantern is a game held in both hands: a cross of four under the left thumb, two action keys
// under the right, all of which may be down at once in one dash; start and menu have pins of their
// own, so that they can wake the chip.
func lantern() Demo {
	l := layOut("Lantern run", panel.Board{ID: "A", Columns: 45, Rows: 30, Copper: panel.Pads, Plated: true})
	l.do(&panel.SetScan{Scan: panel.Scan{Style: "matrix", Rows: 2, Columns: 3, Active: "auto", Pulls: "auto", Diodes: "where needed", Reader: "pio"}})
	keys := []struct {
		ref, hole string
		key       panel.Key
	}{
		{"S1", "E9", panel.Key{Legend: "Up", Usage: "07:52"}},
		{"S2", "E19", panel.Key{Legend: "Down", Usage: "07:51"}},
		{"S3", "B14", panel.Key{Legend: "Left", Usage: "07:50"}},
		{"S4", "H14", panel.Key{Legend: "Right", Usage: "07:4F"}},
		{"S5", "AJ17", panel.Key{Legend: "Leap", Usage: "07:1D"}},
		{"S6", "AN12", panel.Key{Legend: "Lamp", Usage: "07:1B"}},
		{"S7", "P24", panel.Key{Legend: "Start", Usage: "07:28", Direct: true}},
		{"S8", "U24", panel.Key{Legend: "Menu", Usage: "07:29", Direct: true}},
	}
	for _, k := range keys {
		l.key(k.ref, "tact6", grid.MustHole(k.hole), k.key)
	}
	l.put("U1", "module40-rp2350", "AS27", 1, grid.Back)
	l.do(&panel.SetValue{Ref: "U1", Value: "A4"})
	l.put("U2", "tft18-spi8", "L14", 3, grid.Front)
	l.put("LS1", "piezo12", "C26", 0, grid.Front)
	l.put("D1", "diode-1n4148", "AI4", 0, grid.Front)
	l.chord("lit dash", "S1", "S4", "S5", "S6")
	return Demo{"lantern-run", "a hand-held game: cross of four, two action keys, start and menu, colour display, piezo; one chord of four", l.panel}
}
