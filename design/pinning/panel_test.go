package pinning

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// module40 is the 40-pin module: pins 1 to 20 down the left, 21 to 40 up the right, seven columns
// apart. Raspberry Pi Pico datasheet, pinout figure.
func module40() part.Definition {
	d := part.Definition{Name: "40-pin module", Kind: part.Module, Prefix: "U", Facts: part.Facts{Chip: "RP2040"}}
	left := []int{0, 1, -1, 2, 3, 4, 5, -1, 6, 7, 8, 9, -1, 10, 11, 12, 13, -1, 14, 15}
	right := []int{16, 17, -1, 18, 19, 20, 21, -1, 22, -1, 26, 27, -1, 28, -1, -1, -1, -1, -1, -1}
	for i, gpio := range append(left, right...) {
		at := [2]int{0, i}
		if i >= 20 {
			at = [2]int{7, 39 - i}
		}
		t := part.Terminal{Name: fmt.Sprint(i + 1), At: at, MM: [2]float64{float64(at[0]) * 2.54, float64(at[1]) * 2.54}, Pin: fmt.Sprint(i + 1)}
		if gpio >= 0 {
			t.GPIO = fmt.Sprintf("GP%d", gpio)
		}
		d.Terminals = append(d.Terminals, t)
	}
	return d
}

// bench is a panel with the module as U1 at K2 and a part of one terminal, X, for each target hole,
// P1 and up.
func bench(targets ...grid.Hole) (*panel.Panel, *controller.Module) {
	p := panel.New("bench")
	p.Parts["module"] = module40()
	p.Parts["point"] = part.Definition{Name: "point", Kind: part.Other, Prefix: "P", Terminals: []part.Terminal{{Name: "X"}}}
	p.Placed = append(p.Placed, panel.Placed{Ref: "U1", Part: "module", At: grid.MustHole("K2")})
	for i, h := range targets {
		p.Placed = append(p.Placed, panel.Placed{Ref: fmt.Sprintf("P%d", i+1), Part: "point", At: h})
	}
	d := p.Parts["module"]
	m, err := controller.FromDefinition(&d)
	if err != nil {
		panic(err)
	}
	return &p, &m
}

// wants makes the signals of a bench: the i-th serves P(i+1).
func wants(list ...signal.Signal) []signal.Signal {
	for i := range list {
		ref := panel.TerminalRef{Ref: fmt.Sprintf("P%d", i+1), Terminal: "X"}
		list[i].Terminals = []panel.TerminalRef{ref}
		if list[i].ID == "" {
			list[i].ID = ref.String()
		}
		if list[i].Net == "" {
			list[i].Net = list[i].ID
		}
	}
	return list
}

// crowd draws signals: two runs, two buses, analogue, PWM and plain ones.
func crowd(rows, columns, spi, i2c, adc, pwm, plain int) []signal.Signal {
	var list []signal.Signal
	add := func(n int, s signal.Signal) {
		for range n {
			list = append(list, s)
		}
	}
	add(rows, signal.Signal{Wants: part.DigitalIn, Direction: "in", Run: "rows"})
	add(columns, signal.Signal{Wants: part.DigitalOut, Direction: "out", Run: "columns"})
	for i := range spi {
		bus := fmt.Sprintf("SPI %d", i)
		add(1, signal.Signal{Wants: part.SPISCK, Bus: bus, Direction: "out"})
		add(1, signal.Signal{Wants: part.SPITX, Bus: bus, Direction: "out"})
	}
	for i := range i2c {
		bus := fmt.Sprintf("I2C %d", i)
		add(1, signal.Signal{Wants: part.I2CSDA, Bus: bus, Direction: "both"})
		add(1, signal.Signal{Wants: part.I2CSCL, Bus: bus, Direction: "both"})
	}
	add(adc, signal.Signal{Wants: part.ADC, Direction: "in"})
	add(pwm, signal.Signal{Wants: part.PWM, Direction: "out"})
	add(plain, signal.Signal{Wants: part.DigitalOut, Direction: "out"})
	return wants(list...)
}

func scatter(seed uint64, n, wide, high int) []grid.Hole {
	r := rand.New(rand.NewPCG(seed, 7))
	holes := make([]grid.Hole, n)
	for i := range holes {
		holes[i] = grid.Hole{Col: r.IntN(wide), Row: r.IntN(high)}
	}
	return holes
}

func BenchmarkAssign(b *testing.B) {
	for _, c := range []struct {
		name    string
		signals []signal.Signal
	}{
		{"8 signals", crowd(0, 0, 1, 1, 0, 1, 3)},
		{"12 signals", crowd(3, 4, 0, 1, 0, 1, 2)},
		{"16 signals", crowd(4, 5, 0, 1, 0, 1, 4)},
		{"20 signals", crowd(4, 6, 1, 1, 2, 1, 3)},
		{"24 signals, few plain", crowd(5, 8, 1, 1, 3, 2, 2)},
		{"24 signals, no I2C", crowd(4, 5, 1, 0, 1, 2, 10)},
		{"25 signals", crowd(4, 5, 1, 1, 1, 2, 9)},
		{"26 signals, all pins", crowd(4, 5, 1, 1, 1, 2, 10)},
		{"26 signals, two of each bus", crowd(4, 4, 2, 2, 2, 2, 6)},
		{"26 signals, four PWM", crowd(4, 5, 1, 1, 1, 4, 8)},
		{"26 signals, polled", crowd(0, 0, 1, 1, 2, 1, 19)},
	} {
		for _, seed := range []uint64{1, 2, 3} {
			p, m := bench(scatter(seed, len(c.signals), 60, 40)...)
			b.Run(fmt.Sprintf("%s/%d", c.name, seed), func(b *testing.B) {
				var r Result
				for b.Loop() {
					r = Assign(p, m, "U1", c.signals)
				}
				proved := 0.0
				if r.Proved {
					proved = 1
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/1000, "ms")
				b.ReportMetric(float64(r.nodes), "nodes")
				b.ReportMetric(r.Cost, "holes")
				b.ReportMetric(proved, "proved")
			})
		}
	}
}
