package circuit

// A mesh is conductances between the nodes of a section and from each to fixed nodes, with the
// currents that flow into the nodes. Nodes are taken out one by one, each star of conductances
// turned into a mesh between its neighbours. All that is only ever added to and never taken away
// from, so a node held by a picoampere a volt beside switches of a tenth of an ohm keeps all its
// digits: it is Gaussian elimination as Grassmann, Taksar and Heyman (1985, from memory) write it.
type mesh struct {
	n       int
	between []float64 // row by row; the lower triangle is used
	down    []float64 // to fixed nodes, by node
	into    []float64 // currents into the nodes; after solve the voltages
}

func (m *mesh) reset(n int) {
	m.n = n
	m.between = resized(m.between, n*n)
	m.down = resized(m.down, n)
	m.into = resized(m.into, n)
}

// copyOf makes m equal to another mesh.
func (m *mesh) copyOf(from *mesh) {
	m.n = from.n
	m.between = append(m.between[:0], from.between...)
	m.down = append(m.down[:0], from.down...)
	m.into = append(m.into[:0], from.into...)
}

// solve leaves the voltages in into. It takes at most n*n*n/6 steps and uses the mesh up.
func (m *mesh) solve() {
	n := m.n
	for j := n - 1; j >= 0; j-- {
		row := m.between[j*n : j*n+j]
		all := m.down[j]
		for _, c := range row {
			all += c
		}
		for i, c := range row {
			if c == 0 {
				continue
			}
			share := c / all
			m.down[i] += share * m.down[j]
			m.into[i] += share * m.into[j]
			for k, other := range row[:i] {
				m.between[i*n+k] += share * other
			}
		}
		m.down[j] = all
	}
	for j := range n {
		sum := m.into[j]
		for k, c := range m.between[j*n : j*n+j] {
			sum += c * m.into[k]
		}
		m.into[j] = sum / m.down[j]
	}
}
