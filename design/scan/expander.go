package scan

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/search"
)

// usualExpander is the part of the catalogue that is counted where a panel has no expander yet.
const usualExpander = "expander-i2c16"

// A port is one line of a placed expander by which a key can be read.
type port struct {
	panel.TerminalRef
	hole grid.Hole
}

// An expanding is what the placed expanders offer, and what one more would.
type expanding struct {
	ports []port   // lines for keys that no join of the maker's holds
	refs  []string // expanders with at least one
	model part.Definition
	usual bool // model is the catalogue's
	bus   bool // some part wants the I2C bus already
	pulls bool // some part pulls it up
}

func expandingOf(p *panel.Panel) expanding {
	x := expanding{model: part.BuiltIn()[usualExpander], usual: true}
	joined := map[panel.TerminalRef]bool{}
	for _, j := range p.Joins {
		for _, name := range j.Terminals {
			if t, ok := panel.ParseTerminal(name); ok {
				joined[t] = true
			}
		}
	}
	for i := range p.Placed {
		pl := &p.Placed[i]
		d := p.Definition(pl)
		for _, n := range d.Needs {
			x.bus = x.bus || n.Signal == part.I2CSDA
		}
		x.pulls = x.pulls || d.Facts.PullUpOhms > 0
		known := len(x.ports)
		for _, name := range d.KeyLines() {
			t := panel.TerminalRef{Ref: pl.Ref, Terminal: name}
			if term, ok := d.Terminal(name); ok && !joined[t] && !claimed(&d, term) {
				x.ports = append(x.ports, port{t, pl.Pose().Hole(term.Offset())})
			}
		}
		if len(x.ports) > known {
			if len(x.refs) == 0 {
				x.model, x.usual = d, pl.Part == usualExpander
			}
			x.refs = append(x.refs, pl.Ref)
		}
	}
	return x
}

// claimed reports whether a supply or a need holds a terminal.
func claimed(d *part.Definition, t part.Terminal) bool {
	for _, n := range d.Needs {
		if n.Terminal == t.Name {
			return true
		}
	}
	return t.Net != ""
}

// each is how many keys one expander of the model reads.
func (x *expanding) each() int { return max(1, len(x.model.KeyLines())) }

// most is how many of them one bus tells apart.
func (x *expanding) most() int { return max(1, len(x.model.Facts.I2CAddresses)) }

// chips is how many expanders n keys take: the placed ones as far as they go, then more.
func (x *expanding) chips(n int) int {
	if n <= len(x.ports) {
		return min(len(x.refs), max(1, chipsFor(n, x.each())))
	}
	return len(x.refs) + chipsFor(n-len(x.ports), x.each())
}

// assign gives the keys lines of expanders at least total distance from the legs that go to them,
// which the matching proves. Where lines are short the keys that lie best have them. line holds each
// key's port, or -1.
func (x *expanding) assign(keys []key) (line []int, total int) {
	cost := make([][]int, len(keys))
	for i := range keys {
		cost[i] = make([]int, len(x.ports))
		for j, p := range x.ports {
			cost[i][j] = 1 << 20
			for _, h := range keys[i].legs[keys[i].pin] {
				cost[i][j] = min(cost[i][j], h.Steps(p.hole))
			}
		}
	}
	line = make([]int, len(keys))
	if len(keys) <= len(x.ports) {
		m, _ := search.Match(cost)
		copy(line, m.Of)
		return line, m.Cost
	}
	turned := make([][]int, len(x.ports))
	for j := range turned {
		turned[j] = make([]int, len(keys))
		for i := range keys {
			turned[j][i] = cost[i][j]
		}
	}
	for i := range line {
		line[i] = -1
	}
	m, _ := search.Match(turned)
	for j, i := range m.Of {
		line[i] = j
	}
	return line, m.Cost
}

// buildExpander puts every key on a line of a placed expander. A key that switches to 3V3 by nature
// keeps a pin: an expander's own pulls go up.
func (pl *planner) buildExpander() {
	r, x := &pl.result, &pl.expanding
	var keys []key
	var at []int
	for i, k := range pl.keys {
		if k.tied != part.Supply3V3 {
			keys, at = append(keys, k), append(at, i)
		}
	}
	line, total := x.assign(keys)
	all := make([]int, len(pl.keys))
	for i := range all {
		all[i] = i
	}
	r.Style, r.Reader = "expander", "polled"
	pl.giveDirect(all)
	var left []int
	used := map[string]bool{}
	for i, k := range at {
		if line[i] < 0 {
			left = append(left, k)
			continue
		}
		r.Direct[k].Via = x.ports[line[i]].String()
		used[x.ports[line[i]].Ref] = true
	}
	pins := len(left) + len(pl.keys) - len(keys)
	r.PeriodMicros = tenth(float64(len(used))*busRead + readDirect*float64(min(1, pins)))
	pl.rate(total, total)
	r.DiodesProved = true
	if len(left) > 0 {
		pl.expanderFull(left)
	}
	if pins > pl.free {
		pl.tooFew(pins)
	}
	r.Why = pl.whyExpander(len(pl.keys)-pins, pins)
}

// expanderFull says which keys found no line.
func (pl *planner) expanderFull(left []int) {
	x := &pl.expanding
	ids := idsOf(pl.keys, left)
	fix := fmt.Sprintf("Place %s more at another address, or let the style be auto.", count(chipsFor(len(left), x.each()), "expander"))
	if over := len(left) - max(0, x.most()-len(x.refs))*x.each(); over > 0 {
		fix = fmt.Sprintf("One bus tells %s apart: take %s away, or let the style be auto.", count(x.most(), "expander"), count(over, "key"))
	}
	pl.say(finding.Stop, "scan-expander-full", ids, fmt.Sprintf("%s ask for lines of an expander, and %s %s free: %s get pins of the controller.",
		count(len(left)+len(x.ports), "key"), finding.Names(x.refs), hasFree(len(x.refs), len(x.ports)), finding.Names(ids)), fix)
}

func hasFree(refs, n int) string {
	if refs == 1 {
		return fmt.Sprintf("has %d", n)
	}
	return fmt.Sprintf("have %d", n)
}

// expanderMissing says that no placed expander has a line for a key.
func (pl *planner) expanderMissing() {
	pl.say(finding.Stop, "scan-expander-missing", nil, "The keys are to be read by an I2C expander, and none is placed with a line free for a key.",
		fmt.Sprintf("Place %s of the kind MCP23017, which reads %d keys each, or let the style be auto.",
			count(pl.expanding.chips(len(pl.keys)), "expander"), pl.expanding.each()))
}

func (pl *planner) whyExpander(on, pins int) string {
	text := fmt.Sprintf("%s on lines of %s, one each: no ghosts, no diodes, no pins but the bus's; an expander is asked for.", areOn(on), finding.Names(pl.expanding.refs))
	if pins > 0 {
		text += fmt.Sprintf(" %s with %s.", count(pins, "key"), ownPins(pins))
	}
	return text + pl.wireWords() + pl.assumed()
}

func areOn(n int) string {
	if n == 1 {
		return "1 key is"
	}
	return fmt.Sprintf("%d keys are", n)
}

// wiredTerminals counts the terminals of one expander that are soldered whatever it reads: supplies,
// address pins and the bus.
func (x *expanding) wiredTerminals() int {
	n := 0
	for _, t := range x.model.Terminals {
		if t.Net != "" {
			n++
		}
	}
	for _, need := range x.model.Needs {
		if !need.Optional {
			n++
		}
	}
	return n
}

// alarm reports whether the model has an interrupt that the controller may wait for.
func (x *expanding) alarm() bool {
	for _, need := range x.model.Needs {
		if need.Signal == part.DigitalIn {
			return true
		}
	}
	return false
}

// turnLow has the keys read active low, which is all that an expander's own pulls allow.
func (pl *planner) turnLow() {
	asked := pl.wishes
	if asked.Active == "high" {
		pl.say(finding.Mind, "scan-active", nil, "An expander's own pulls go up, so its keys are read active low.", "Let keys be active low or auto.")
	}
	asked.Active, asked.Reader = "low", "polled"
	pl.setDrive(driveOf(asked, &pl.chip, nil))
}
