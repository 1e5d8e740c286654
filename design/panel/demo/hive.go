package demo

import (
	"fmt"

	"fascia/design/grid"
	"fascia/design/panel"
)

// hive is a bee-keeper's notebook: one hand holds the frame, the other presses what was seen. Its
// twenty keys form a matrix of plain rows and columns without a diode, since never more than two
// are pressed together. The module sits on sockets on the back, beside the display.
func hive() Demo {
	l := layOut("Hive notebook", panel.Board{ID: "A", Columns: 30, Rows: 45, Copper: panel.Pads, Plated: true})
	l.do(&panel.SetScan{Scan: panel.Scan{Style: "matrix", Active: "auto", Pulls: "auto", Diodes: "none", Reader: "pio"}})
	l.put("U1", "module40-rp2040-sockets", "J2", 0, grid.Back)
	l.put("U2", "oled096-i2c", "S3", 0, grid.Front)
	l.valued("D1", "led3", "E4", 0, "green")
	l.valued("D2", "led3", "E8", 0, "red")
	l.valued("R1", "resistor-small", "D12", 0, "680")
	l.valued("R2", "resistor-small", "D14", 0, "750")
	l.put("LS1", "piezo12", "E18", 0, grid.Front)
	legends := []string{
		"Queen", "Eggs", "Larvae", "Capped", "Drones",
		"Honey", "Pollen", "Mites", "Swarm", "Calm",
		"Frames -", "Frames +", "Feed", "Treat", "Super",
		"Hive -", "Hive +", "Weigh", "Note", "Save",
	}
	for i, legend := range legends {
		at := grid.Hole{Col: 3 + i%5*5, Row: 24 + i/5*5}
		l.key(fmt.Sprintf("S%d", i+1), "tact6", at, panel.Key{Legend: legend, Usage: fmt.Sprintf("07:%02X", 0x04+i)})
	}
	l.chord("new apiary", "S17", "S20")
	l.do(&panel.SetNotes{Notes: "Worn on a strap. Gloves on: the keys stand half an inch apart."})
	return Demo{"hive-notebook", "20 keys for a bee-keeper's inspections, OLED, two LEDs, piezo; matrix without diodes, module on sockets", l.panel}
}
