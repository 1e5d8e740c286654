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

// liveEnd is the end of a contact that goes to the GPIO: the first, unless that one is on a supply.
func liveEnd(p *panel.Panel, k panel.KeyRef) string {
	d := p.Definition(p.Find(k.Ref))
	for _, name := range d.Metal(k.Contact.Between[0]) {
		if t, ok := d.Terminal(name); ok && t.Net != "" {
			return k.Contact.Between[1]
		}
	}
	return k.Contact.Between[0]
}
