package demo

import (
	"fmt"

	"fascia/design/grid"
	"fascia/design/panel"
)

// organ plays chords of four notes on thirteen keys in two rows, with six keys for stops above and
// a joystick for swell and vibrato. It is longer than a board, so two are joined with the grid kept.
func organ() Demo {
	l := layOut("Pocket organ",
		panel.Board{ID: "A", Columns: 28, Rows: 22, Copper: panel.Pads, Plated: true},
		panel.Board{ID: "B", Columns: 28, Rows: 22, At: grid.MustHole("AC1"), Copper: panel.Pads, Plated: true,
			Seam: &panel.Seam{Board: "A", Side: "right"}})
	l.do(&panel.SetScan{Scan: panel.Scan{Style: "matrix", Active: "auto", Pulls: "auto", Diodes: "where needed", Reader: "pio"}})
	l.put("U1", "module40-rp2040-sockets", "A2", 3, grid.Back)
	l.put("U2", "oled096-i2c", "AH2", 0, grid.Front)
	l.put("U3", "joystick-carrier", "AQ5", 0, grid.Front)
	notes := []struct {
		name string
		col  int
		row  int
	}{
		{"C", 4, 17}, {"C#", 7, 12}, {"D", 10, 17}, {"D#", 13, 12}, {"E", 16, 17}, {"F", 22, 17}, {"F#", 24, 12},
		{"G", 28, 17}, {"G#", 31, 12}, {"A", 34, 17}, {"A#", 37, 12}, {"B", 40, 17}, {"c", 46, 17},
	}
	for i, n := range notes {
		l.key(fmt.Sprintf("S%d", i+1), "tact6", grid.Hole{Col: n.col, Row: n.row}, panel.Key{Legend: n.name, Usage: fmt.Sprintf("07:%02X", 0x04+i)})
	}
	for i, name := range []string{"Flute", "Reed", "Octave", "Drone", "Tremolo", "Hold"} {
		at := grid.Hole{Col: 3 + 4*i, Row: 4}
		l.key(fmt.Sprintf("S%d", i+14), "tact6", at, panel.Key{Legend: name, Usage: fmt.Sprintf("07:%02X", 0x3A+i)})
	}
	l.chord("C major", "S1", "S5", "S8", "S13")
	l.chord("C7", "S1", "S5", "S8", "S11")
	l.chord("F major 7", "S1", "S5", "S6", "S10")
	l.chord("G7", "S3", "S6", "S8", "S12")
	l.chord("A minor 7", "S1", "S5", "S8", "S10")
	l.chord("D minor 7", "S1", "S3", "S6", "S10")
	return Demo{"pocket-organ", "13 notes in two rows and 6 stops, joystick, OLED; chords of four; two joined boards", l.panel}
}
