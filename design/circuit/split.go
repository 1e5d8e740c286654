package circuit

// A section is nodes that hang together through elements: between sections only fixed nodes stand,
// so each is solved by itself.
type section struct {
	nodes                   []Node
	resistors, diodes, leak []int
}

// split cuts the circuit into sections. Nodes keep their order, so equal circuits are cut alike.
func (s *Solver) split() {
	c := s.circuit
	s.joined.reset(c.Nodes())
	for _, r := range c.resistor {
		s.bind(r.a, r.b)
	}
	for _, d := range c.diode {
		s.bind(d.anode, d.cathode)
	}
	s.section = resized(s.section, c.Nodes())
	s.place = resized(s.place, c.Nodes())
	s.sections = s.sections[:0]
	for n := Node(1); int(n) < c.Nodes(); n++ {
		s.enter(n)
	}
	for i, r := range c.resistor {
		if at := s.sectionOf(r.a, r.b); at != nil {
			at.resistors = append(at.resistors, i)
		}
	}
	for i, d := range c.diode {
		if at := s.sectionOf(d.anode, d.cathode); at != nil {
			at.diodes = append(at.diodes, i)
		}
	}
	for i, l := range c.leak {
		if at := s.sectionOf(l.at, l.at); at != nil {
			at.leak = append(at.leak, i)
		}
	}
}

func (s *Solver) bind(a, b Node) {
	_, aFixed := s.circuit.fixed(a)
	_, bFixed := s.circuit.fixed(b)
	if !aFixed && !bFixed {
		s.joined.unite(int(a), int(b))
	}
}

// enter puts a node into its section and gives it its place there, or -1 when it is fixed.
func (s *Solver) enter(n Node) {
	if _, fixed := s.circuit.fixed(n); fixed {
		s.place[n] = -1
		return
	}
	root := s.joined.find(int(n))
	if root == int(n) {
		s.section[n] = len(s.sections)
		s.sections = s.another(s.sections)
	}
	at := &s.sections[s.section[root]]
	s.section[n] = s.section[root]
	s.place[n] = len(at.nodes)
	at.nodes = append(at.nodes, n)
}

// another lengthens the list by an empty section in memory that was used before.
func (s *Solver) another(list []section) []section {
	if len(list) == cap(list) {
		return append(list, section{})
	}
	list = list[:len(list)+1]
	last := &list[len(list)-1]
	last.nodes, last.resistors = last.nodes[:0], last.resistors[:0]
	last.diodes, last.leak = last.diodes[:0], last.leak[:0]
	return list
}

// sectionOf returns the section that has an element between a and b; nil when both are fixed.
func (s *Solver) sectionOf(a, b Node) *section {
	for _, n := range [2]Node{a, b} {
		if n != Ground && s.place[n] >= 0 {
			return &s.sections[s.section[n]]
		}
	}
	return nil
}
