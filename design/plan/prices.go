package plan

import "fascia/design/pinning"

// Prices says what each of the maker's wishes about pins costs: locks, pins kept free, and what is to
// be spared. They are worked out when first asked for, since each takes about as long as giving out
// the pins does; any number of goroutines may ask. There are none while there are no pins.
func (pl *Plan) Prices() []pinning.Price {
	pl.priced.Do(func() {
		pl.prices = pinning.WhatIf(pl.Panel, pl.Module, pl.Pins.Module, pinning.Signals(pl.Panel, &pl.Scan), &pl.Pins)
	})
	return pl.prices
}
