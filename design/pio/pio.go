// Package pio knows the programmable IO blocks of the RP2040 and the RP2350: it assembles and
// disassembles their programs and emulates one block, cycle by cycle. Times are counted in cycles of
// the system clock. GPIOs are counted from 0 within the 32 that a block reaches; a set of them is a
// uint32 with GPIO 0 in the lowest bit. What hangs on the pins is behind the interface Pins; this
// package knows nothing of keys, circuits or panels.
//
// RP2040 Datasheet (Raspberry Pi Ltd), chapter 3; RP2350 Datasheet, chapter 11. Section numbers in
// comments are those of the first unless they begin with 11. A case that they leave open is marked
// "Open:" beside the code that chose.
package pio

// A Version says which instructions and registers a block has.
type Version int

// Version 1 has all that version 0 has.
const (
	RP2040 Version = 0
	RP2350 Version = 1
)

const (
	// Memory is the number of words that the four machines of a block share (3.2.1).
	Memory = 32
	// Machines is the number of state machines in a block.
	Machines = 4
)

// A SideSet says how a program spends the five bits 12:8 of each word: the top ones drive pins beside
// the instruction, what is left counts delay cycles (3.5.1).
type SideSet struct {
	Pins       int  // 0 to 5, or to 4 when optional
	Optional   bool // the top bit says whether this word drives the pins at all
	Directions bool // drives directions instead of levels
}

// Bits returns how many of the five bits are taken from the delay, the enable bit included.
func (s SideSet) Bits() int {
	if s.Optional {
		return s.Pins + 1
	}
	return s.Pins
}

// MaxDelay returns the most delay cycles that a word has room for.
func (s SideSet) MaxDelay() int { return 1<<(5-s.Bits()) - 1 }

// sideOf splits the bits 12:8 of a word. drives is false when the word leaves the pins alone.
func (s SideSet) sideOf(word uint16) (value int, drives bool, delay int) {
	field := int(word>>8) & 31
	room := 5 - s.Bits()
	delay = field & (1<<room - 1)
	value = field >> room & (1<<s.Pins - 1)
	drives = s.Pins > 0 && !s.Optional || s.Optional && field&16 != 0
	return value, drives, delay
}
