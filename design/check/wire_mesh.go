package check

// A mesh is a conductor in numbers: its joints, from 0 where it is fed, and the wire between them. It is
// a tree, but for wires that begin and end at one metal of a part and for rings that a maker closes.
type mesh struct {
	joints []joint
	number map[joint]int
	arms   [][]arm
	gone   []bool
}

// An arm is the conductance from one joint to another.
type arm struct {
	to      int
	siemens float64
}

// meshFrom numbers the joints that wire reaches from root.
func (c *conductor) meshFrom(root joint) *mesh {
	m := mesh{number: map[joint]int{}}
	m.add(c.find(root))
	for i := 0; i < len(m.joints); i++ {
		for _, r := range c.runs[m.joints[i]] {
			m.arms[i] = appendArm(m.arms[i], m.add(r.to), 1/r.ohms)
		}
	}
	m.gone = make([]bool, len(m.joints))
	return &m
}

func (m *mesh) add(j joint) int {
	n, known := m.number[j]
	if !known {
		n = len(m.joints)
		m.number[j] = n
		m.joints, m.arms = append(m.joints, j), append(m.arms, nil)
	}
	return n
}

// appendArm adds a conductance to another joint to that which is there.
func appendArm(arms []arm, to int, siemens float64) []arm {
	for i := range arms {
		if arms[i].to == to {
			arms[i].siemens += siemens
			return arms
		}
	}
	return append(arms, arm{to, siemens})
}

// drops works out how much lower than root each joint lies, in millivolts, when currents in
// milliamperes leave at some of them. It is Gaussian elimination of one joint after another, those
// with the fewest arms first: on a tree that takes no more than a step a joint.
func (c *conductor) drops(root joint, leave map[joint]float64) map[joint]float64 {
	m := c.meshFrom(root)
	inflow := make([]float64, len(m.joints))
	for i, j := range m.joints {
		inflow[i] = leave[j]
	}
	var order []int
	for range len(m.joints) - 1 {
		k := m.fewest()
		m.gone[k] = true
		order = append(order, k)
		m.eliminate(k, inflow)
	}
	volts := make([]float64, len(m.joints))
	lost := map[joint]float64{m.joints[0]: 0}
	for i := len(order) - 1; i >= 0; i-- {
		k := order[i]
		sum := inflow[k]
		for _, a := range m.arms[k] {
			sum += a.siemens * volts[a.to]
		}
		volts[k] = sum / total(m.arms[k])
		lost[m.joints[k]] = volts[k]
	}
	return lost
}

// fewest is the joint with the fewest arms among those that are left, root apart.
func (m *mesh) fewest() int {
	best := -1
	for k := 1; k < len(m.joints); k++ {
		if !m.gone[k] && (best < 0 || len(m.arms[k]) < len(m.arms[best])) {
			best = k
		}
	}
	return best
}

// eliminate takes a joint out: its current goes over its arms by their share, and its neighbours are
// joined with one another. Its own arms stay as they were for the way back.
func (m *mesh) eliminate(k int, inflow []float64) {
	sum := total(m.arms[k])
	for _, a := range m.arms[k] {
		inflow[a.to] += inflow[k] * a.siemens / sum
		rest := m.arms[a.to][:0]
		for _, b := range m.arms[a.to] {
			if b.to != k {
				rest = append(rest, b)
			}
		}
		for _, b := range m.arms[k] {
			if b.to != a.to {
				rest = appendArm(rest, b.to, a.siemens*b.siemens/sum)
			}
		}
		m.arms[a.to] = rest
	}
}

func total(arms []arm) float64 {
	sum := 0.0
	for _, a := range arms {
		sum += a.siemens
	}
	return sum
}
