package pinning

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fascia/design/controller"
	"fascia/design/panel"
	"fascia/design/search"
	"fascia/design/signal"
)

// A Price is what one wish of the maker's costs, by comparison with the best assignment without it.
// Figures are positive for what the wish takes and negative for what it gives: a wish may make wires
// shorter when without it one that matters more could hold.
type Price struct {
	Kind      string   `json:"kind"`              // lock, keep or spare
	Wish      string   `json:"wish"`              // the name a lock was written under, the GPIO kept free, or what is spared
	GPIO      string   `json:"gpio,omitempty"`    // of a lock
	Instead   string   `json:"instead,omitempty"` // the GPIO that a locked signal has without its lock; "" for none
	Length    float64  `json:"length"`            // holes from pins to what they serve
	Crossings int      `json:"crossings"`
	LeftOut   int      `json:"left_out"`         // optional signals that go without a pin for it
	Broken    []string `json:"broken,omitempty"` // what is to be spared and gave way to it
	Mended    []string `json:"mended,omitempty"` // what is to be spared and would give way without it
	// Closed counts the pins that it closes to other signals, once for each signal. A pin is open to a
	// signal that could do its work there, its run and its bus with it, going by functions, joins, pins
	// kept free and locks alone; one that is spared is closed to what would take it.
	Closed int    `json:"closed"`
	Proved bool   `json:"proved"` // both lengths are proved least
	Says   string `json:"says"`   // the same in a sentence
}

// The kinds of prices.
const (
	PriceOfLock  = "lock"
	PriceOfKeep  = "keep"
	PriceOfSpare = "spare"
)

// WhatIf prices each wish that r, an answer of Assign to the same question, keeps: locks in order of
// their names, then pins kept free, then what is spared, in the maker's order. There are no prices when
// r has no pins; its concessions say what to do then. Each price takes about as long as Assign.
func WhatIf(p *panel.Panel, m *controller.Module, moduleRef string, signals []signal.Signal, r *Result) []Price {
	prices := []Price{}
	if m == nil || len(r.Pins) == 0 {
		return prices
	}
	t := newTask(p, m, moduleRef, signals)
	add := func(price Price, without change) {
		if price, ok := t.compare(price, without, r); ok {
			prices = append(prices, price)
		}
	}
	for _, l := range t.locks {
		add(Price{Kind: PriceOfLock, Wish: l.name, GPIO: t.pins[l.pin].Name}, change{lock: l.name})
	}
	for pin, kept := range t.kept {
		if kept {
			add(Price{Kind: PriceOfKeep, Wish: t.pins[pin].Name}, change{keep: t.pins[pin].Name})
		}
	}
	for _, what := range t.spares {
		add(Price{Kind: PriceOfSpare, Wish: spareNames[what]}, change{spare: spareNames[what]})
	}
	return prices
}

// compare fills a price in, given how to do without the wish and what Assign made of the panel with it.
// It reports false when the search ended without an assignment.
func (t *task) compare(price Price, without change, r *Result) (Price, bool) {
	after := t.after(without)
	best := after.solve()
	if best.answer.Verdict != search.Found {
		return price, false
	}
	cost, bound := best.holes()
	price.Length = r.Cost - cost
	price.Crossings = r.Crossings - after.crossings(best.at)
	price.LeftOut = len(t.signals) - len(r.Pins) - countOf(best.at, -1)
	price.Proved = r.Proved && cost == bound
	spoilt := after.gaveWay(best.at)
	for _, what := range t.panel.Pins.Prefer {
		with, otherwise := slices.Contains(r.GaveWay, what), slices.Contains(spoilt, what)
		switch {
		case price.Kind == PriceOfSpare && price.Wish == what:
		case with && !otherwise:
			price.Broken = append(price.Broken, what)
		case otherwise && !with:
			price.Mended = append(price.Mended, what)
		}
	}
	locked := -1
	if price.Kind == PriceOfLock {
		locked = t.locked(price.Wish)
		if pin := best.at[locked]; pin >= 0 {
			price.Instead = t.pins[pin].Name
		}
	}
	price.Closed = after.openPins(locked) - t.openPins(locked)
	if price.Kind == PriceOfSpare && !slices.Contains(r.GaveWay, price.Wish) {
		price.Closed = t.closedBy(price.Wish)
	}
	price.Says = t.says(&price)
	return price, true
}

// locked is the signal that a lock of this name ties.
func (t *task) locked(name string) int {
	return t.locks[slices.IndexFunc(t.locks, func(l lock) bool { return l.name == name })].signal
}

func countOf(list []int, what int) (n int) {
	for _, v := range list {
		if v == what {
			n++
		}
	}
	return n
}

// says puts a price in a sentence.
func (t *task) says(p *Price) string {
	var costs, gains []string
	note := func(n float64, one, many string) {
		figure := fmt.Sprintf("%.4g %s", math.Abs(n), many)
		if math.Abs(n) == 1 {
			figure = "1 " + one
		}
		switch {
		case n > 0:
			costs = append(costs, figure)
		case n < 0:
			gains = append(gains, figure)
		}
	}
	note(p.Length, "hole of wire", "holes of wire")
	note(float64(p.Crossings), "crossing", "crossings")
	note(float64(p.LeftOut), "signal left out", "signals left out")
	costs, gains = append(costs, spareWordsOf(p.Broken)...), append(gains, spareWordsOf(p.Mended)...)
	var says []string
	switch {
	case len(costs) > 0 && len(gains) > 0:
		says = append(says, fmt.Sprintf("Costs %s, and saves %s.", listed(costs), listed(gains)))
	case len(costs) > 0:
		says = append(says, fmt.Sprintf("Costs %s.", listed(costs)))
	case len(gains) > 0:
		says = append(says, fmt.Sprintf("Saves %s.", listed(gains)))
	default:
		says = append(says, "Costs nothing.")
	}
	if p.Instead != "" && p.Instead != p.GPIO {
		says = append(says, fmt.Sprintf("Without it: %s.", p.Instead))
	}
	return strings.Join(says, " ")
}

// spareWordsOf puts articles before what is spared.
func spareWordsOf(list []string) (words []string) {
	for _, name := range list {
		words = append(words, spareWords[slices.Index(spareNames[:], name)])
	}
	return words
}
