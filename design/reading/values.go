package reading

import (
	"slices"
	"strings"

	"fascia/design/circuit"
	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
)

// What is taken where a part does not say.
const (
	leastContactOhms = 0.1 // new: B3F and 430-182 tactile switch data sheets, 100 milliohms at most
	mostContactOhms  = 100 // worn and dirty; common practice, no source (2 ohms after life: the same sheets)
	usualPullOhms    = 10e3
	tolerance        = 0.05 // of a carbon-film resistor (CFR data sheet)
	usualForward     = 2.0  // volts across an LED of unknown colour: between red and green
	usualForwardMA   = 2.0
	leastLampOhms    = 10 // where the supply hardly reaches over the LED
)

// values looks up what the parts in the panel measure.
type values struct {
	panel *panel.Panel
	nets  *netlist.Result
	refs  map[string]string // of keys: the part
	pairs map[string]string // of keys, LEDs and lines: the part that serves it
}

func valuesOf(p *panel.Panel, n *netlist.Result) values {
	v := values{p, n, map[string]string{}, map[string]string{}}
	for _, k := range p.Keys() {
		v.refs[k.ID] = k.Ref
	}
	if n != nil {
		for _, pair := range n.Pairs {
			v.pairs[pair.Of] = pair.With
		}
	}
	return v
}

// part returns a placed part and its definition; nil when there is none.
func (v values) part(ref string) (*panel.Placed, *part.Definition) {
	pl := v.panel.Find(ref)
	if pl == nil {
		return nil, nil
	}
	d := v.panel.Definition(pl)
	return pl, &d
}

// text is a part's value as the maker wrote it, else the first that it is sold with.
func text(pl *panel.Placed, d *part.Definition) string {
	if pl.Value == "" && len(d.Facts.Values) > 0 {
		return d.Facts.Values[0]
	}
	return pl.Value
}

// contactOhms is the least and the most resistance of a key's closed contact. A switch may say its
// own most in the ohms of its facts.
func (v values) contactOhms(key string) [2]float64 {
	most := float64(mostContactOhms)
	if _, d := v.part(v.refs[key]); d != nil && d.Kind == part.Switch && d.Facts.Ohms > 0 {
		most = d.Facts.Ohms
	}
	return [2]float64{min(leastContactOhms, most), most}
}

// resistorOhms is the value of a placed resistor, or usual when it has none.
func (v values) resistorOhms(ref string, usual float64) float64 {
	pl, d := v.part(ref)
	if pl == nil {
		return usual
	}
	if pl.Value == "" && d.Facts.Ohms > 0 {
		return d.Facts.Ohms
	}
	if ohms, err := part.ParseValue(text(pl, d)); err == nil {
		return ohms
	}
	return usual
}

// pullOhms is the least and the most of the resistor that holds a line; 0 when none was placed.
func (v values) pullOhms(net string) [2]float64 {
	ref := v.pairs[net]
	if v.nets != nil && ref == "" {
		return [2]float64{}
	}
	ohms := v.resistorOhms(ref, usualPullOhms)
	return [2]float64{ohms * (1 - tolerance), ohms * (1 + tolerance)}
}

// keyDiode is the diode of a key: none when the netlist found none.
func (v values) keyDiode(key string) circuit.Diode {
	ref := v.pairs[key]
	_, d := v.part(ref)
	switch {
	case d != nil:
		return diodeModel(d)
	case v.nets != nil:
		return circuit.Diode{}
	}
	return circuit.Small1N4148
}

// Emission coefficients of diodes that are known by their forward voltage only: from 0.4 V up they
// are taken for silicon, below for Schottky diodes.
const (
	leastSilicon     = 0.4
	siliconEmission  = 1.75
	schottkyEmission = 1.1
)

// diodeModel is the model of a diode by its part number, else one that goes through its forward
// voltage, else a small silicon one.
func diodeModel(d *part.Definition) circuit.Diode {
	f := d.Facts
	switch {
	case strings.Contains(d.Name, "1N4148"):
		return circuit.Small1N4148
	case strings.Contains(d.Name, "BAT85"):
		return circuit.SchottkyBAT85
	case strings.Contains(d.Name, "1N5819"):
		return circuit.Power1N5819
	case f.ForwardVolts < 0.05 || f.ForwardVolts > 5 || f.ForwardMA <= 0 || f.ForwardMA > 5000:
		return circuit.Small1N4148
	case f.ForwardVolts >= leastSilicon:
		return circuit.Fitted(f.ForwardVolts, f.ForwardMA/1000, siliconEmission, 0)
	}
	return circuit.Fitted(f.ForwardVolts, f.ForwardMA/1000, schottkyEmission, 0)
}

// lampModel is an LED with its resistor in series; false when the netlist left it unwired.
func (v values) lampModel(ref string) (circuit.Diode, bool) {
	resistor, paired := v.pairs[ref]
	if v.nets != nil && !paired {
		return circuit.Diode{}, false
	}
	forward, milliamp := v.ledPoint(ref)
	led := circuit.LED(forward, milliamp/1000)
	if v.nets != nil && resistor == "" {
		return led, true // wired straight
	}
	return led.InSeries(v.resistorOhms(resistor, lampOhms(forward, milliamp))), true
}

// ledPoint is the forward voltage of an LED and the current that it holds at: by its colour, by its
// definition, or the usual.
func (v values) ledPoint(ref string) (volts, milliamp float64) {
	volts, milliamp = usualForward, usualForwardMA
	pl, d := v.part(ref)
	if pl == nil {
		return volts, milliamp
	}
	if f := d.Facts.ForwardMA; f >= 0.01 && f <= 100 {
		milliamp = f
	}
	if c, ok := part.ColourNamed(text(pl, d)); ok {
		return c.PlanVolts, milliamp
	}
	if f := d.Facts.ForwardVolts; f >= 0.5 && f <= 5 {
		volts = f
	}
	return volts, milliamp
}

// lampOhms is the resistor that an LED gets when none is placed yet: the next of the E12 series.
func lampOhms(forward, milliamp float64) float64 {
	if ohms, ok := part.LEDResistor(supplyVolts, forward, milliamp); ok && ohms >= 1 {
		return part.E12.Next(ohms)
	}
	return leastLampOhms
}

// pressLevel is the level that a press gives a key with a line of its own: that of the supply which
// its return terminal is by nature, else the panel's.
func (v values) pressLevel(d scan.Direct, usual circuit.Level) circuit.Level {
	t, _ := panel.ParseTerminal(d.Return)
	_, def := v.part(t.Ref)
	if def == nil {
		return usual
	}
	for _, name := range def.Metal(t.Terminal) {
		end, _ := def.Terminal(name)
		switch {
		case end.Net == part.Ground:
			return circuit.Low
		case slices.Contains([]string{part.Supply3V3, part.Supply5V, part.VSYS}, end.Net):
			return circuit.High
		}
	}
	if d.Via != "" {
		return circuit.Low
	}
	return usual
}
