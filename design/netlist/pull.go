package netlist

import (
	"fmt"
	"slices"

	"fascia/design/finding"
	"fascia/design/part"
)

// A readLine is a line that is read, and so must not float when no key is pressed.
type readLine struct {
	name string
	node int
	rest string // the supply that holds it when no key is pressed
}

// readLines lists the matrix rows and the lines of direct keys.
func (b *builder) readLines() []readLine {
	rest := part.Supply3V3
	if b.activeHigh() {
		rest = part.Ground
	}
	var lines []readLine
	for r := range b.scan.Rows {
		name := b.scan.RowNet(r)
		if n, ok := b.nodeOf[name]; ok {
			lines = append(lines, readLine{name, n, rest})
		}
	}
	for _, d := range b.scan.Direct {
		level, ok := b.named(d.Return)
		if !ok || d.Via != "" {
			continue // an expander pulls its own lines
		}
		l := readLine{"key " + d.Key, b.keyNet(d.Key), rest}
		switch b.nameAt(level) { // a level that is fixed by the part decides for this key
		case part.Ground:
			l.rest = part.Supply3V3
		case part.Supply3V3:
			l.rest = part.Ground
		}
		lines = append(lines, l)
	}
	return lines
}

// addPulls gives each line that is read a resistor to its level of rest, when the scan asks for
// external pulls.
func (b *builder) addPulls() {
	if b.scan.Pulls != "external" {
		return
	}
	lines := b.readLines()
	resistors := b.resistors(func(ohms float64) bool { return ohms >= leastPullOhms })
	members := b.members()
	cost := make([][]int, len(lines))
	for i, l := range lines {
		cost[i] = make([]int, len(resistors))
		for j, r := range resistors {
			cost[i][j] = min(b.reach(r[0], members[b.find(l.node)]), b.reach(r[1], members[b.find(l.node)]))
		}
	}
	for i, j := range assign(cost, len(resistors)) {
		l := lines[i]
		if j < 0 {
			b.note(finding.Finding{Severity: finding.Stop, Code: "net-pull-missing",
				Where: finding.Where{Net: l.name},
				Text:  fmt.Sprintf("The line of %s wants a resistor to %s and none of 3.3 kilohms or more is free.", l.name, l.rest),
				Fix:   "Place a resistor of 10 kilohms, or use the controller's own pulls."})
			continue
		}
		near, far := resistors[j][0], resistors[j][1]
		on := members[b.find(l.node)]
		if b.reach(far, on) < b.reach(near, on) {
			near, far = far, near
		}
		b.attach(near, l.node)
		b.attach(far, b.supply(l.rest))
		ref := b.ends[near].Ref
		b.pair(l.name, ref, fmt.Sprintf("%s is a free resistor %d holes away and holds %s at %s.", ref, cost[i][j], l.name, l.rest))
	}
}

// reach is the least distance from end n to any of the ends in on.
func (b *builder) reach(n int, on []int) int {
	const far = 1 << 20 // a line that reaches no part yet: any resistor is as good
	least := far
	for _, m := range on {
		least = min(least, b.ends[n].Hole.Steps(b.ends[m].Hole))
	}
	return least
}

// members lists the ends of each node, by root, in order of the panel's parts.
func (b *builder) members() map[int][]int {
	nodes := map[int][]int{}
	for n := range b.ends {
		nodes[b.find(n)] = append(nodes[b.find(n)], n)
	}
	return nodes
}

// idle reports whether a part is neither joined by the maker nor taken by a pairing.
func (b *builder) idle(ref string) bool {
	return !b.spent[ref] && !slices.ContainsFunc(b.ends, func(e end) bool {
		return e.Ref == ref && b.asked[e.TerminalRef] != ""
	})
}
