package pinning

import (
	"fmt"
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
	"fascia/design/signal"
)

// KeySignals lists what reading the keys wants from the controller: rows, then columns, then the
// keys with a pin of their own. A nil scan wants nothing.
func KeySignals(p *panel.Panel, r *scan.Result) []signal.Signal {
	if r == nil {
		return nil
	}
	keys := map[string]panel.KeyRef{}
	for _, k := range p.Keys() {
		keys[k.ID] = k
	}
	list := slices.Concat(rowSignals(r, keys), columnSignals(r, keys))
	for _, d := range r.Direct {
		s := signal.Signal{ID: d.Key, Net: "key " + d.Key, Wants: part.DigitalIn, Direction: "in", Pull: pull(r)}
		if k, ok := keys[d.Key]; ok {
			s.Terminals = []panel.TerminalRef{{Ref: k.Ref, Terminal: liveEnd(p, k)}}
		}
		list = append(list, s)
	}
	return list
}

func rowSignals(r *scan.Result, keys map[string]panel.KeyRef) []signal.Signal {
	rows := make([]signal.Signal, max(0, r.Rows))
	for i := range rows {
		name := fmt.Sprintf("row %d", i)
		rows[i] = signal.Signal{ID: name, Net: name, Wants: part.DigitalIn, Direction: "in", Pull: pull(r), Run: run(r, "rows")}
	}
	for _, c := range r.Cells {
		if k, ok := keys[c.Key]; ok && c.Row >= 0 && c.Row < len(rows) {
			serve(&rows[c.Row], k, 0)
		}
	}
	return rows
}

func columnSignals(r *scan.Result, keys map[string]panel.KeyRef) []signal.Signal {
	columns := make([]signal.Signal, max(0, r.Columns))
	for i := range columns {
		name := fmt.Sprintf("column %d", i)
		columns[i] = signal.Signal{ID: name, Net: name, Wants: part.DigitalOut, Direction: "out", Run: run(r, "columns")}
	}
	for _, c := range r.Cells {
		if k, ok := keys[c.Key]; ok && c.Column >= 0 && c.Column < len(columns) {
			serve(&columns[c.Column], k, 1)
		}
	}
	return columns
}

// serve adds one end of a key's contact; keys of one part may share it.
func serve(s *signal.Signal, k panel.KeyRef, end int) {
	t := panel.TerminalRef{Ref: k.Ref, Terminal: k.Contact.Between[end]}
	if !slices.Contains(s.Terminals, t) {
		s.Terminals = append(s.Terminals, t)
	}
}

// pull is what an input must add so that an open key reads the other level.
func pull(r *scan.Result) string {
	switch {
	case r.Pulls == "external":
		return ""
	case r.Active == "high":
		return "down"
	}
	return "up"
}

// run names the run that lines belong to: state machines reach consecutive GPIOs only.
func run(r *scan.Result, name string) string {
	if r.Reader != "pio" {
		return ""
	}
	return name
}

// liveEnd is the end of a direct key's contact that goes to the GPIO: the first, unless it is on a
// supply by nature or other contacts share it while the second could do.
func liveEnd(p *panel.Panel, k panel.KeyRef) string {
	d := p.Definition(p.Find(k.Ref))
	first, second := k.Contact.Between[0], k.Contact.Between[1]
	if !onSupply(&d, second) && (onSupply(&d, first) || shared(&d, k, first) && !shared(&d, k, second)) {
		return second
	}
	return first
}

func onSupply(d *part.Definition, terminal string) bool {
	return slices.ContainsFunc(d.Metal(terminal), func(name string) bool {
		t, ok := d.Terminal(name)
		return ok && t.Net != ""
	})
}

// shared reports whether a terminal is one metal with an end of another contact of its part.
func shared(d *part.Definition, k panel.KeyRef, terminal string) bool {
	metal := d.Metal(terminal)
	return slices.ContainsFunc(d.Contacts, func(c part.Contact) bool {
		return c.Name != k.Contact.Name && (slices.Contains(metal, c.Between[0]) || slices.Contains(metal, c.Between[1]))
	})
}
