package wiring

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/netlist"
)

// keyGrid is a module above a regular grid of tactile switches, every five holes, wired as a matrix.
func keyGrid(rows, columns int) *bigBoard {
	b := newBigBoard(max(26, 5*columns+4), 5*rows+20)
	b.put("U1", "module40-rp2040", 22, 2, 1)
	for r := range rows {
		for c := range columns {
			b.put(fmt.Sprintf("S%d", r*columns+c+1), "tact6", 2+5*c, 17+5*r, 0)
		}
	}
	for r := range rows {
		ends := []string{"U1." + []string{"GP15", "GP14", "GP13", "GP12", "GP11", "GP10"}[r]}
		for c := range columns {
			ends = append(ends, fmt.Sprintf("S%d.A1", r*columns+c+1), fmt.Sprintf("S%d.A2", r*columns+c+1))
		}
		b.net(fmt.Sprintf("row %d", r), netlist.Row, ends...)
	}
	for c := range columns {
		ends := []string{"U1." + []string{"GP16", "GP17", "GP18", "GP19", "GP20", "GP21", "GP22", "GP26"}[c]}
		for r := range rows {
			ends = append(ends, fmt.Sprintf("S%d.B1", r*columns+c+1), fmt.Sprintf("S%d.B2", r*columns+c+1))
		}
		b.net(fmt.Sprintf("column %d", c), netlist.Column, ends...)
	}
	return b.finish()
}

// TestKeyGrid: on a regular grid rows lead through the legs of the switches, columns run beside them,
// and no insulated wire joins key with key (common practice, no source).
func TestKeyGrid(t *testing.T) {
	for rows := 3; rows <= 6; rows++ {
		for columns := 3; columns <= 8; columns++ {
			b := keyGrid(rows, columns)
			r := b.begin().Result()
			if wrong := Verify(&b.p, &b.nets, r.Wires); len(wrong) > 0 {
				t.Fatalf("%d x %d: %q", rows, columns, wrong)
			}
			legs := map[string]int{}
			for _, w := range r.Wires {
				if w.Kind == Leg {
					legs[w.Net]++
				}
				if w.Kind == Insulated && b.isKey(w.From) && b.isKey(w.To) {
					t.Errorf("%d x %d: insulated wire of %s from %s to %s, between keys", rows, columns, w.Net, w.From, w.To)
				}
			}
			for row := range rows {
				if name := fmt.Sprintf("row %d", row); legs[name] < columns-1 {
					t.Errorf("%d x %d: %s leads through %d switches only", rows, columns, name, legs[name])
				}
			}
		}
	}
}

// isKey reports whether a hole holds a lead of a key.
func (b *bigBoard) isKey(h grid.Hole) bool {
	return slices.ContainsFunc(b.fit.LeadAt(h), func(l fit.Lead) bool { return strings.HasPrefix(l.Ref, "S") })
}
