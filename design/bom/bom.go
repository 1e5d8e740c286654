// Package bom lists what to buy: parts with their values and references, sockets, wire by colour
// and gauge, set against what the maker has in stock.
package bom

// A Line is one thing to buy.
type Line struct {
	Line     int      `json:"line"`
	Quantity int      `json:"quantity"`
	Part     string   `json:"part"` // what to ask a shop for
	Value    string   `json:"value"`
	Refs     []string `json:"refs"`
	Note     string   `json:"note"`
	Have     int      `json:"have"`
	Need     int      `json:"need"`
	ID       string   `json:"id"` // part id for stock; "" for wire and extras
}
