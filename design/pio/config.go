package pio

import "fmt"

// A Config is what one machine's registers say, in plain terms.
type Config struct {
	Divider          Divider
	WrapTarget, Wrap int // addresses: after Wrap comes WrapTarget
	Side             SideSet
	SideBase         int // first GPIO of the side-set pins; like all pin runs it wraps after 31
	OutBase          int // of out pins, out pindirs, mov pins
	OutCount         int // 0 to 32
	SetBase          int
	SetCount         int // 0 to 5
	InBase           int
	InCount          int // 1 to 32: inputs from this place on read 0 (version 1; else 32)
	JumpPin          int
	InShift          Shift
	OutShift         Shift
	AutoPush         bool
	AutoPull         bool
	PushAt, PullAt   int // thresholds in bits, 1 to 32
	Join             Join
	Status           StatusSource
	StatusLevel      int // status is all ones while the level is less; for StatusFlag the flag, plus 8 or 16 for a neighbour's
	Sticky           bool
	OutEnable        bool // out pins and out pindirs write only where bit OutEnableBit of their data is 1
	OutEnableBit     int
}

// A Shift is the way that a shift register moves.
type Shift bool

// Right is what the registers have after reset.
const (
	Left  Shift = false
	Right Shift = true
)

// A Join says what the eight words of a machine's queues are used for.
type Join uint8

// The last three are of version 1 (11.4.8): the four words towards the processor become registers that
// the machine writes, reads, or both.
const (
	JoinNone Join = iota // four each way
	JoinTX               // eight to the machine
	JoinRX               // eight from the machine
	JoinPut
	JoinGet
	JoinPutGet
)

// A StatusSource is what mov from status looks at.
type StatusSource uint8

// StatusFlag is of version 1.
const (
	StatusTX StatusSource = iota
	StatusRX
	StatusFlag
)

// DefaultConfig returns the registers as after reset, but with thresholds of 32 said plainly and no
// set pins.
func DefaultConfig() Config {
	return Config{
		Divider: Divider{Whole: 1}, Wrap: Memory - 1, InCount: 32,
		InShift: Right, OutShift: Right, PushAt: 32, PullAt: 32,
	}
}

// check panics on a value that no register can hold.
func (c Config) check(v Version) {
	for _, f := range []struct {
		name           string
		value, low, up int
	}{
		{"divider", c.Divider.parts(), 256, 65536 * 256}, {"fraction", c.Divider.Frac, 0, 255},
		{"wrap target", c.WrapTarget, 0, 31}, {"wrap", c.Wrap, 0, 31},
		{"side-set", c.Side.Bits(), 0, 5}, {"side-set base", c.SideBase, 0, 31},
		{"out base", c.OutBase, 0, 31}, {"out count", c.OutCount, 0, 32},
		{"set base", c.SetBase, 0, 31}, {"set count", c.SetCount, 0, 5},
		{"in base", c.InBase, 0, 31}, {"in count", c.InCount, 1, 32}, {"jump pin", c.JumpPin, 0, 31},
		{"push threshold", c.PushAt, 1, 32}, {"pull threshold", c.PullAt, 1, 32},
		{"status level", c.StatusLevel, 0, 31}, {"enable bit", c.OutEnableBit, 0, 31},
	} {
		if f.value < f.low || f.value > f.up {
			panic(fmt.Sprintf("pio: %s %d is not within %d to %d", f.name, f.value, f.low, f.up))
		}
	}
	if v == RP2040 && (c.InCount != 32 || c.Join > JoinRX || c.Status > StatusRX || c.StatusLevel > 15) {
		panic("pio: version 0 has no such register")
	}
}

// Registers returns CLKDIV, EXECCTRL, SHIFTCTRL and PINCTRL as the SDK's pio.h lays them out
// (3.7; 11.7). It panics on values that do not fit.
func (c Config) Registers(v Version) (clkdiv, execctrl, shiftctrl, pinctrl uint32) {
	c.check(v)
	clkdiv = uint32(c.Divider.Whole&0xffff)<<16 | uint32(c.Divider.Frac)<<8
	execctrl = bit(c.Side.Optional)<<30 | bit(c.Side.Directions)<<29 | uint32(c.JumpPin)<<24 |
		uint32(c.OutEnableBit)<<19 | bit(c.OutEnable)<<18 | bit(c.Sticky)<<17 |
		uint32(c.Wrap)<<12 | uint32(c.WrapTarget)<<7 | uint32(c.StatusLevel)
	shiftctrl = bit(c.Join == JoinRX)<<31 | bit(c.Join == JoinTX)<<30 |
		uint32(c.PullAt&31)<<25 | uint32(c.PushAt&31)<<20 |
		bit(bool(c.OutShift))<<19 | bit(bool(c.InShift))<<18 | bit(c.AutoPull)<<17 | bit(c.AutoPush)<<16
	if v == RP2350 {
		execctrl |= uint32(c.Status) << 5
		shiftctrl |= bit(c.Join == JoinPut || c.Join == JoinPutGet)<<15 | bit(c.Join == JoinGet || c.Join == JoinPutGet)<<14 | uint32(c.InCount&31)
	} else {
		execctrl |= uint32(c.Status) << 4
	}
	pinctrl = uint32(c.Side.Bits())<<29 | uint32(c.SetCount)<<26 | uint32(c.OutCount)<<20 |
		uint32(c.InBase)<<15 | uint32(c.SideBase)<<10 | uint32(c.SetBase)<<5 | uint32(c.OutBase)
	return clkdiv, execctrl, shiftctrl, pinctrl
}

func bit(on bool) uint32 {
	if on {
		return 1
	}
	return 0
}
