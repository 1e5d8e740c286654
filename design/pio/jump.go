package pio

// jumps are the actions of jmp, by condition (3.4.2).
var jumps = [8]action{
	(*machine).jump,
	func(m *machine, o *operation) outcome { return m.jumpIf(o, m.x == 0) },
	func(m *machine, o *operation) outcome { return m.countDown(o, &m.x) },
	func(m *machine, o *operation) outcome { return m.jumpIf(o, m.y == 0) },
	func(m *machine, o *operation) outcome { return m.countDown(o, &m.y) },
	func(m *machine, o *operation) outcome { return m.jumpIf(o, m.x != m.y) },
	func(m *machine, o *operation) outcome {
		return m.jumpIf(o, m.block.wires.at(m.block.now)&o.mask != 0)
	},
	func(m *machine, o *operation) outcome { return m.jumpIf(o, m.outCount < m.pullAt) },
}

func (m *machine) jump(o *operation) outcome {
	m.pc = o.target
	return jumped
}

func (m *machine) jumpIf(o *operation, taken bool) outcome {
	if taken {
		m.pc = o.target
		return jumped
	}
	return goOn
}

// countDown lowers a counter whether or not it was 0, and jumps if it was not.
func (m *machine) countDown(o *operation, counter *uint32) outcome {
	if o.spins && *counter > 1 {
		return m.spin(o, counter)
	}
	*counter--
	return m.jumpIf(o, *counter+1 != 0)
}

// spin does as many rounds of "here: jmp x-- here" as end before the run does: nothing else changes in
// them.
func (m *machine) spin(o *operation, counter *uint32) outcome {
	rounds := uint64(*counter)
	if limit := m.block.spinTo << partBits; limit > m.due+o.cost {
		rounds = min(rounds, (limit-1-m.due)/o.cost+1)
	} else {
		rounds = 1
	}
	*counter -= uint32(rounds)
	m.due += (rounds - 1) * o.cost
	m.pc = o.target
	return jumped
}
