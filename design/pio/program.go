package pio

// A Program is assembled for address 0.
type Program struct {
	Name       string // empty when the source has no .program
	Version    Version
	Words      []uint16
	Lines      []int // the source line of each word, from 1
	Origin     int   // the address it must be loaded at, or Anywhere
	WrapTarget int   // address that follows Wrap
	Wrap       int
	Side       SideSet
	Public     []Symbol // in the order of the source
	asked      Config   // what .in, .out, .set, .fifo, .mov_status and .clock_div ask for
}

// Anywhere is the Origin of a program that may be loaded at any address.
const Anywhere = -1

// At returns the words as they must stand in memory when the program is loaded at address offset:
// jumps move with it (3.5.2: addresses are absolute). It panics if the program does not fit there.
func (p Program) At(offset int) []uint16 {
	if offset < 0 || offset+len(p.Words) > Memory {
		panic("pio: the program does not fit at that address")
	}
	moved := make([]uint16, len(p.Words))
	for i, w := range p.Words {
		if w>>13 == opJump {
			w = w&^31 | (w+uint16(offset))&31
		}
		moved[i] = w
	}
	return moved
}

// Config returns the registers that the source asks for when the program is loaded at address
// offset; what it does not ask for is as DefaultConfig has it. Pins are still to be given.
func (p Program) Config(offset int) Config {
	c := p.asked
	c.WrapTarget, c.Wrap = p.WrapTarget+offset, p.Wrap+offset
	c.Side = p.Side
	return c
}

// Label returns the value of a public symbol.
func (p Program) Label(name string) (int, bool) {
	for _, s := range p.Public {
		if s.Name == name {
			return s.Value, true
		}
	}
	return 0, false
}
