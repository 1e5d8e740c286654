package panel

import (
	"slices"

	"fascia/design/grid"
)

// Wires holds the wishes about wires. KeepOut holes take no bare run and no joint of a wire.
type Wires struct {
	Locked  []LockedWire `json:"locked"`
	KeepOut []grid.Hole  `json:"keep_out"`
	NoRuns  []grid.Face  `json:"no_runs,omitempty"` // faces that take no bare run
	Ends    int          `json:"ends,omitempty"`    // most wire ends in one joint; 0 stands for UsualEnds
	Costs   *WireCosts   `json:"costs,omitempty"`   // what joining costs this maker; nil for the usual
	Nets    []NetWish    `json:"nets,omitempty"`    // by name of net
}

// UsualEnds is how many wire ends one joint takes unless the maker allows more: common practice, no
// source. MostEnds is the most that may be allowed.
const (
	UsualEnds = 2
	MostEnds  = 3
)

// A LockedWire is a wire that the maker wants just so. Path, of a bare run, is every hole where it
// bends or is soldered down, ends included; without it the run goes where it is shortest.
type LockedWire struct {
	From   grid.Hole   `json:"from"`
	To     grid.Hole   `json:"to"`
	Kind   string      `json:"kind"` // solder, bare or insulated
	Face   grid.Face   `json:"face"`
	Path   []grid.Hole `json:"path,omitempty"`
	Colour string      `json:"colour,omitempty"` // IEC 60757 letters, of insulated wire
	Gauge  int         `json:"gauge,omitempty"`  // American wire gauge
}

// WireCosts are what the ways to join cost, in holes of bare run.
type WireCosts struct {
	Bend      float64 `json:"bend"`      // in a bare run
	Solder    float64 `json:"solder"`    // a solder bridge
	Insulated float64 `json:"insulated"` // an insulated wire: to cut, strip and solder it
	PerHole   float64 `json:"per_hole"`  // each hole that an insulated wire spans
	Through   float64 `json:"through"`   // a link through one hole of an unplated board
}

// UsualCosts are the costs of a maker who states none (common practice, no source).
func UsualCosts() WireCosts {
	return WireCosts{Bend: 0.3, Solder: 0.5, Insulated: 10, PerHole: 1.2, Through: 3}
}

// A NetWish is what the maker wants of all wires of one net.
type NetWish struct {
	Net       string `json:"net"`
	Insulated bool   `json:"insulated,omitempty"` // rather than bare
	Colour    string `json:"colour,omitempty"`    // IEC 60757 letters
	Gauge     int    `json:"gauge,omitempty"`     // American wire gauge
}

// Colours are the letters of IEC 60757 that a wire may be ordered in.
var Colours = []string{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"}

// Gauges are those of wire that fits the holes of perfboard, thick to thin.
var Gauges = []int{22, 24, 26, 28, 30}

func (w Wires) clone() Wires {
	w.Locked, w.KeepOut, w.NoRuns, w.Nets = slices.Clone(w.Locked), slices.Clone(w.KeepOut), slices.Clone(w.NoRuns), slices.Clone(w.Nets)
	for i := range w.Locked {
		w.Locked[i].Path = slices.Clone(w.Locked[i].Path)
	}
	w.Costs = copyOf(w.Costs)
	return w
}

// joins reports whether a wire runs between these holes on this face, either way round.
func (w *LockedWire) joins(from, to grid.Hole, face grid.Face) bool {
	return w.Face == face && (w.From == from && w.To == to || w.From == to && w.To == from)
}
