package pinning

import (
	"slices"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/scan"
	"fascia/design/signal"
)

// KeySignals lists what reading the keys wants from the controller: rows, then columns, or the lines
// that are both, then the keys with a pin of their own. A key on an expander wants none. A nil scan
// wants nothing.
func KeySignals(p *panel.Panel, r *scan.Result) []signal.Signal {
	if r == nil {
		return nil
	}
	keys := map[string]panel.KeyRef{}
	for _, k := range p.Keys() {
		keys[k.ID] = k
	}
	var list []signal.Signal
	if r.Style == "lines" {
		list = lineSignals(r, keys)
	} else {
		list = slices.Concat(rowSignals(r, keys), columnSignals(r, keys))
	}
	for _, d := range r.Direct {
		if d.Via != "" {
			continue
		}
		s := signal.Signal{ID: d.Key, Net: "key " + d.Key, Wants: part.DigitalIn, Direction: "in", Pull: pull(r)}
		if t, ok := panel.ParseTerminal(d.Pin); ok {
			s.Terminals = []panel.TerminalRef{t}
		}
		list = append(list, s)
	}
	return list
}

// lineSignals lists the lines that select in turn and read in between. What drives a pin can read it
// too, so a plain output is asked for.
func lineSignals(r *scan.Result, keys map[string]panel.KeyRef) []signal.Signal {
	lines := make([]signal.Signal, max(0, r.Rows))
	for i := range lines {
		name := r.RowNet(i)
		lines[i] = signal.Signal{ID: name, Net: name, Wants: part.DigitalOut, Direction: "both", Pull: pull(r), Run: run(r, "lines")}
	}
	for _, c := range r.Cells {
		k, ok := keys[c.Key]
		for end, line := range [2]int{c.Row, c.Column} {
			if ok && line >= 0 && line < len(lines) {
				serve(&lines[line], k, end)
			}
		}
	}
	return lines
}

func rowSignals(r *scan.Result, keys map[string]panel.KeyRef) []signal.Signal {
	rows := make([]signal.Signal, max(0, r.Rows))
	for i := range rows {
		name := r.RowNet(i)
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
		name := r.ColumnNet(i)
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
