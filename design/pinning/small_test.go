package pinning

import (
	"math/rand/v2"
	"slices"

	"fascia/design/controller"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// smallPanel draws a panel for a module that brings out some 8 to 14 GPIOs: nearly as many signals,
// optional ones among them, locks, pins kept free, joins and things to spare.
func smallPanel(seed uint64) (*panel.Panel, *controller.Module, []signal.Signal) {
	r := rand.New(rand.NewPCG(seed, 29))
	list := crowd(r.IntN(4), r.IntN(4), r.IntN(2), r.IntN(3), r.IntN(3), r.IntN(3), r.IntN(4))
	for i := range list {
		list[i].ID, list[i].Net = "", ""
		list[i].Optional = list[i].Run == "" && r.IntN(6) == 0
	}
	list = wants(list...)
	holes := make([]grid.Hole, len(list))
	for i := range holes {
		holes[i] = grid.Hole{Col: r.IntN(40), Row: r.IntN(30)}
	}
	p, m := bench(holes...)
	for len(m.Pins) > max(8, len(list)+4-r.IntN(5)) {
		i := r.IntN(len(m.Pins))
		m.Pins = slices.Delete(m.Pins, i, i+1)
	}
	some := func() string { return m.Pins[r.IntN(len(m.Pins))].Name }
	for range r.IntN(3) {
		if len(list) > 0 {
			want, gpio := list[r.IntN(len(list))], some()
			if _, ok := m.Can(gpio, want.Wants); ok || r.IntN(8) == 0 {
				p.Pins.Locked[want.ID] = gpio
			}
		}
	}
	if r.IntN(3) == 0 {
		p.Pins.KeepFree = []string{some()}
	}
	if r.IntN(6) == 0 {
		pin, _ := m.Pin(some())
		p.Joins = []panel.Join{{Name: "tap", Terminals: []string{"U1." + pin.Terminal}}}
	}
	spared := slices.Clone(panel.Spared)
	r.Shuffle(len(spared), func(i, j int) { spared[i], spared[j] = spared[j], spared[i] })
	p.Pins.Prefer = spared[:r.IntN(len(spared)+1)]
	return p, m, list
}

// instanceFor says whether a GPIO can carry a signal, and on which peripheral instance, PWM slice or
// ADC channel: the closed forms of io_bank0.h in pico-sdk 2.2.0, written down anew.
func instanceFor(gpio int, wants part.Signal) (instance int, ok bool) {
	switch wants {
	case part.DigitalIn, part.DigitalOut:
		return 0, true
	case part.I2CSDA, part.I2CSCL:
		return gpio >> 1 & 1, gpio&1 == map[part.Signal]int{part.I2CSDA: 0, part.I2CSCL: 1}[wants]
	case part.SPIRX, part.SPISCK, part.SPITX:
		return gpio >> 3 & 1, gpio&3 == map[part.Signal]int{part.SPIRX: 0, part.SPISCK: 2, part.SPITX: 3}[wants]
	case part.PWM:
		return gpio >> 1 & 7, true
	case part.ADC:
		return gpio - 26, gpio >= 26
	}
	return 0, false
}
