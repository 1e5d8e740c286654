package netlist_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/netlist"
	"fascia/design/panel"
	"fascia/design/pinning"
	"fascia/design/scan"
	"fascia/design/wiring/randompanel"
)

// TestListHolds takes panels by chance without a pin plan, some parts taken away, through scan and
// List: each terminal once, names once, no two terminals of one metal in two nets, the same twice.
func TestListHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randompanel.Make(rapid.Uint64Range(0, 1<<20).Draw(t, "seed"))
		p.Placed = p.Placed[:rapid.IntRange(0, len(p.Placed)).Draw(t, "parts")]
		s := scan.Plan(&p, nil, scan.AssumedPins)
		r := netlist.List(&p, &s, &pinning.Result{})
		if again := netlist.List(&p, &s, &pinning.Result{}); !reflect.DeepEqual(r, again) {
			t.Fatal("two lists of one panel differ")
		}
		netOf := map[panel.TerminalRef]string{}
		names := map[string]bool{}
		listed := 0
		for _, n := range r.Nets {
			if names[n.Name] || len(n.Terminals) < 2 {
				t.Fatalf("net %q is listed twice or has fewer than two terminals", n.Name)
			}
			names[n.Name] = true
			for _, term := range n.Terminals {
				netOf[term.TerminalRef] = n.Name
				listed++
			}
		}
		for _, o := range r.Open {
			netOf[o.TerminalRef] = ""
			listed++
		}
		if listed != len(netOf) {
			t.Fatalf("%d listings of %d terminals", listed, len(netOf))
		}
		checkMetal(t, &p, netOf)
	})
}

func checkMetal(t *rapid.T, p *panel.Panel, netOf map[panel.TerminalRef]string) {
	for i := range p.Placed {
		d := p.Definition(&p.Placed[i])
		for _, term := range d.Terminals {
			net, ok := netOf[panel.TerminalRef{Ref: p.Placed[i].Ref, Terminal: term.Name}]
			if !ok {
				t.Fatalf("%s.%s is not listed", p.Placed[i].Ref, term.Name)
			}
			for _, m := range d.Metal(term.Name) {
				if other := netOf[panel.TerminalRef{Ref: p.Placed[i].Ref, Terminal: m}]; other != net {
					t.Fatalf("%s: %s is on %q and %s, the same metal, on %q", p.Placed[i].Ref, term.Name, net, m, other)
				}
			}
		}
	}
}
