package web

import (
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"fascia/design/panel"
	"fascia/design/pinning"
)

func TestPricesAreSaidAsWhatWouldBeWithout(t *testing.T) {
	tests := []struct {
		price pinning.Price
		want  string
	}{
		{pinning.Price{Kind: pinning.PriceOfLock, GPIO: "GP2", Instead: "GP2", Proved: true}, "It costs nothing."},
		{pinning.Price{Kind: pinning.PriceOfLock, GPIO: "GP4", Instead: "GP2", Length: 3, Proved: true},
			"Without this lock the wires would be 3 holes shorter and display SDA would be on GP2."},
		{pinning.Price{Kind: pinning.PriceOfKeep, Closed: 2, Proved: true}, "It costs nothing now. Without it other signals would have 2 more places to go to."},
		{pinning.Price{Kind: pinning.PriceOfKeep, Length: 1, Crossings: -2, Closed: 1},
			"If it could be used the wires would be 1 hole shorter and there would be 2 crossings more. Other signals would have 1 more place to go to. So much was found; it is not proved."},
		{pinning.Price{Kind: pinning.PriceOfSpare, Length: -4, LeftOut: 1, Broken: []string{panel.AnaloguePins}, Mended: []string{panel.I2CBus}, Closed: 3, Proved: true},
			"Without this wish the wires would be 4 holes longer, 1 more signal would have a pin, the analogue pins would be spared and an I2C bus would not be spared. Other signals would have 3 more places to go to."},
	}
	for _, tt := range tests {
		if got := priceWords(&tt.price, "display SDA"); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
}

// Beside each lock, kept pin and soft wish stands its price; other rooms do not ask for them.
func TestTheWireRoomPricesEachWish(t *testing.T) {
	b := newDesk(t)
	id := b.demos()[0]
	b.edits(id, `{"do":"keep-free","gpio":"GP10","keep":true}`, `{"do":"lock-pin","signal":"U2.SDA","gpio":"GP26"}`)
	doc := b.page("/panels/" + string(id) + "/wire")
	var prices []string
	for _, n := range all(doc, func(n *html.Node) bool { return slices.Contains(strings.Fields(attr(n, "class")), "price") }) {
		prices = append(prices, words(n))
	}
	if len(prices) != 4 || !strings.HasPrefix(prices[0], "Without this lock the wires would be ") || !strings.Contains(prices[0], "display SDA would be on GP2.") {
		t.Errorf("prices: %q", prices)
	}
}
