package keymap

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/usage"
)

// Of works the keymap out: keys of a matrix or of lines by code, then the others by code.
func Of(p *panel.Panel, s *scan.Result, pins *pinning.Result) Map {
	m := Map{Rows: s.Rows, Columns: s.Columns, Keys: []Key{}}
	for _, c := range s.Cells {
		m.Keys = append(m.Keys, entry(c.Key, c.Legend, c.Usage, c.Code, func(k *Key) { k.Row, k.Column = &c.Row, &c.Column }))
	}
	for _, d := range s.Direct {
		m.Keys = append(m.Keys, entry(d.Key, d.Legend, d.Usage, d.Code, func(k *Key) { k.GPIO, k.Expander = gpioOf(pins, d.Key), d.Via }))
	}
	slices.SortStableFunc(m.Keys, func(a, b Key) int { return a.Code - b.Code })
	codes := 0
	for _, k := range m.Keys {
		codes = max(codes, k.Code+1)
	}
	legends := make([]string, codes)
	for _, k := range m.Keys {
		legends[k.Code] = k.Legend
	}
	m.Layers = []Layer{{Name: "base", Legends: legends}}
	return m
}

func entry(ref, legend, means string, code int, place func(*Key)) Key {
	k := Key{Ref: ref, Legend: legend, Code: code, Usage: means}
	if u, ok := usage.Named(means); ok {
		k.UsageName = u.Name
	}
	place(&k)
	return k
}

func gpioOf(pins *pinning.Result, signal string) string {
	if pins == nil {
		return ""
	}
	for _, p := range pins.Pins {
		if p.Signal == signal {
			return p.GPIO
		}
	}
	return ""
}
