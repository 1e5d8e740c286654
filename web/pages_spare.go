package web

import (
	"fmt"
	"slices"

	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/web/view"
)

// wishWords say what sparing something means.
var wishWords = map[string]string{
	panel.SerialConsole: "GP0 and GP1 stay free, to watch the program over a serial line.",
	panel.AnaloguePins:  "The pins with an analogue input stay free for what measures.",
	panel.I2CBus:        "Both pins of one I2C bus stay free, to add a part later.",
}

// wishCodes are the findings that say that a wish gave way.
var wishCodes = map[string]string{
	panel.SerialConsole: "pin-serial-used", panel.AnaloguePins: "pin-analogue-used", panel.I2CBus: "pin-i2c-used",
}

// spared lists the soft wishes: those that are on in the maker's order, then the rest.
func (v *visit) spared(prices pinPrices) []view.WishRow {
	on := v.panel.Pins.Prefer
	var list []view.WishRow
	for i, name := range on {
		w := view.WishRow{Name: name, Says: wishWords[name], On: true, Place: fmt.Sprintf("%d.", i+1), Price: prices[pinning.PriceOfSpare][name],
			Switch: preferring(slices.DeleteFunc(slices.Clone(on), func(other string) bool { return other == name })),
			Up:     preferring(swapped(on, i-1, i)), Down: preferring(swapped(on, i, i+1))}
		for _, f := range v.plan.Findings {
			if f.Code == wishCodes[name] {
				w.GaveWay = append(w.GaveWay, f.Text)
			}
		}
		list = append(list, w)
	}
	for _, name := range panel.Spared {
		if !slices.Contains(on, name) {
			list = append(list, view.WishRow{Name: name, Says: wishWords[name], Switch: preferring(append(slices.Clone(on), name))})
		}
	}
	return list
}

// swapped is the list with two neighbours changed round; nil when one is not there.
func swapped(list []string, i, j int) []string {
	if i < 0 || j >= len(list) {
		return nil
	}
	list = slices.Clone(list)
	list[i], list[j] = list[j], list[i]
	return list
}

// preferring is the edit that spares a list in order; "" for nil.
func preferring(spare []string) string {
	if spare == nil {
		return ""
	}
	return edited(&panel.Prefer{Spare: spare})
}

// edited writes an edit for a button of the page.
func edited(e panel.Edit) string {
	text, err := panel.EncodeEdit(e)
	if err != nil {
		return "" // no edit of ours fails to encode; the button then does nothing
	}
	return string(text)
}
