package pio

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// still are pins with fixed levels.
type still uint32

func (s still) Levels(uint64, Drive) (uint32, uint64) { return uint32(s), Forever }

// echo are pins that read as they are driven.
type echo struct{}

func (echo) Levels(_ uint64, d Drive) (uint32, uint64) { return d.Levels & d.Directions, Forever }

// assembled loads a program for machine 0 and lets adjust change its registers.
func assembled(t *testing.T, source string, v Version, pins Pins, adjust func(*Config)) *Block {
	t.Helper()
	programs, err := Assemble(source, v)
	if err != nil {
		t.Fatal(err)
	}
	b := New(v, pins)
	b.Load(programs[0].Words, 0)
	c := programs[0].Config(0)
	adjust(&c)
	b.Configure(0, c)
	return b
}

// levelsOf returns the level of GPIO 0 after each of some cycles.
func levelsOf(b *Block, cycles int) string {
	var s strings.Builder
	for range cycles {
		b.Run(1)
		fmt.Fprint(&s, b.Drive().Levels&1)
	}
	return s.String()
}

func TestDividerPattern(t *testing.T) {
	tests := []struct {
		name, source string
		divider      Divider
		want         string
	}{
		{"1", "RP2040 Datasheet 3.5.5: a tick each cycle", Divider{1, 0}, "10101010"},
		{"2", "RP2040 Datasheet 3.5.5", Divider{2, 0}, "11001100"},
		{"2.5", "RP2040 Datasheet 3.5.5: the running sum of the fraction lengthens every second period", Divider{2, 128}, "1100011000"},
		{"1.25", "RP2040 Datasheet 3.5.5: every fourth period", Divider{1, 64}, "1010010100"},
	}
	for _, tt := range tests {
		b := assembled(t, "set pins, 1\nset pins, 0", RP2040, still(0), func(c *Config) { c.SetCount, c.Divider = 1, tt.divider })
		b.Enable(1)
		if got := levelsOf(b, len(tt.want)); got != tt.want {
			t.Errorf("divider %s: %s, want %s (%s)", tt.name, got, tt.want, tt.source)
		}
	}
}

func TestLongestDivider(t *testing.T) {
	b := assembled(t, "set pins, 1\nset pins, 0", RP2040, still(0), func(c *Config) { c.SetCount, c.Divider = 1, Divider{65536, 0} })
	b.Enable(1)
	b.Run(65536)
	before := b.Drive().Levels
	b.Run(1)
	if before != 1 || b.Drive().Levels != 0 {
		t.Error("the second instruction does not begin in cycle 65536 (RP2040 Datasheet 3.5.5)")
	}
}

// TestLoopback measures from an instruction that drives a pin to the first that reads it so: 4 cycles,
// or 2 past the synchroniser (RP2040 Datasheet 3.5.6).
func TestLoopback(t *testing.T) {
	for bypass, want := range map[uint32]int{0: 4, 1: 2} {
		b := assembled(t, "set pins, 1"+strings.Repeat("\nin pins, 32", 6), RP2040, echo{}, func(c *Config) { c.SetCount = 1 })
		b.BypassSynchronisers(bypass)
		b.Execute(0, 0xe081) // set pindirs, 1
		b.Run(8)
		b.Enable(1)
		got := 0
		for range 6 {
			b.Run(1)
			if b.State(0).ISR&1 != 0 {
				break
			}
			got++
		}
		if got != want {
			t.Errorf("bypass %d: seen after %d cycles, want %d", bypass, got, want)
		}
	}
}

// TestAutopull follows the table of RP2040 Datasheet 3.5.4: an exhausted OSR is filled in one cycle and
// used in the next; after its last bits it is filled in the same cycle.
func TestAutopull(t *testing.T) {
	b := assembled(t, "out x, 16", RP2040, still(0), func(c *Config) { c.AutoPull = true })
	b.Put(0, 0x22221111)
	b.Put(0, 0x44443333)
	b.Enable(1)
	var got []uint32
	for range 6 {
		b.Run(1)
		got = append(got, b.State(0).X)
	}
	if want := []uint32{0, 0x1111, 0x2222, 0x3333, 0x4444, 0x4444}; !slices.Equal(got, want) {
		t.Errorf("x is %04x, want %04x", got, want)
	}
	if b.Debug() != TXStall {
		t.Errorf("debug %08x, want TXStall alone", b.Debug())
	}
}

// TestAutopush is RP2040 Datasheet 3.5.4: the push is in the cycle of the IN, and a full queue stalls it
// without shifting again.
func TestAutopush(t *testing.T) {
	b := assembled(t, "in x, 16", RP2040, still(0), func(c *Config) { c.AutoPush, c.InShift = true, Left })
	b.Execute(0, 0xe025) // set x, 5
	b.Enable(1)
	b.Run(8)
	if _, rx := b.Waiting(0); rx != 4 || b.Debug() != 0 {
		t.Errorf("%d words, debug %x after 8 cycles", rx, b.Debug())
	}
	b.Run(10)
	if s := b.State(0); !s.Stalled || s.ISR != 0x50005 || s.InCount != 32 || b.Debug() != RXStall {
		t.Errorf("full queue: %+v, debug %x", s, b.Debug())
	}
	if w, ok := b.Get(0); w != 0x50005 || !ok {
		t.Errorf("got %x, %v", w, ok)
	}
	b.Run(1)
	if s := b.State(0); s.Stalled || s.ISR != 0 || s.InCount != 0 {
		t.Errorf("after room was made: %+v", s)
	}
}

// TestHighestMachineWins is RP2040 Datasheet 3.5.6: of machines that write a pin in one cycle the
// highest has its way; a machine that does not write leaves it.
func TestHighestMachineWins(t *testing.T) {
	b := New(RP2040, still(0))
	b.Load([]uint16{0xe01f, 0xa042, 0xe000, 0xa042}, 0) // set pins, 31; nop; set pins, 0; nop
	c := DefaultConfig()
	c.SetCount, c.Wrap = 5, 1
	for n := range 3 {
		c.SetBase = 30 // wraps from 31 to 0
		if n == 2 {
			c.WrapTarget, c.Wrap, c.SetBase = 2, 3, 31
			b.Configure(n, c)
			b.Execute(n, 0x0002) // jmp 2
		} else {
			b.Configure(n, c)
		}
	}
	b.Enable(0b111)
	b.Run(1)
	if got := b.Drive().Levels; got != 1<<30 {
		t.Errorf("levels %08x, want GPIO 30 alone", got)
	}
	b.Enable(0b001)
	b.Run(2)
	if got := b.Drive().Levels; got != 0xc0000007 {
		t.Errorf("levels %08x, want GPIO 30, 31, 0, 1 and 2", got)
	}
}

func TestRaisedAndLoweredInOneCycle(t *testing.T) {
	b := New(RP2040, still(0))
	b.Load([]uint16{0xc003, 0x0001, 0xc043, 0x0003}, 0) // irq 3; clear 3
	b.Execute(1, 0x0002)
	b.Enable(3)
	b.Run(1)
	if b.Flags() != 8 {
		t.Errorf("flags %x, want flag 3 raised, as this package chose", b.Flags())
	}
}

func TestRunUntil(t *testing.T) {
	b := assembled(t, "nop [4]\npush\nirq 2\nloop: jmp loop", RP2040, still(0), func(*Config) {})
	b.Enable(1)
	if n := b.RunUntil(1000, Signals{RX: 1}); n != 6 {
		t.Errorf("a word came after %d cycles, want 6", n)
	}
	if n := b.RunUntil(1000, Signals{Flags: 4}); n != 1 || b.Flags() != 4 {
		t.Errorf("flag 2 came after %d cycles, want 1", n)
	}
	if n := b.RunUntil(1000, Signals{RX: 1, Flags: 4}); n != 1000 || b.Now() != 1007 {
		t.Errorf("ran %d cycles to %d, want 1000 to 1007", n, b.Now())
	}
}

func TestExecuteCountsDownOnce(t *testing.T) {
	b := assembled(t, "nop\njmp x-- 0\njmp 1", RP2040, still(0), func(*Config) {})
	b.Execute(0, 0xe025) // set x, 5
	b.Execute(0, 0x0040) // jmp x-- 0, to the address that is next in any case
	if s := b.State(0); s.X != 4 || s.PC != 0 || b.Now() != 0 {
		t.Errorf("%+v at %d, want x 4 and no time passed", s, b.Now())
	}
	if b.Execute(0, 0x80a0) { // pull block
		t.Error("a pull of nothing did not stall")
	}
	b.Put(0, 77)
	b.Run(1)
	if s := b.State(0); s.OSR != 77 || s.Stalled || s.Latched {
		t.Errorf("%+v, want the pull done though the machine is not enabled", s)
	}
}

// TestPutAndGet is RP2350 Datasheet 11.4.8 and 11.4.9.
func TestPutAndGet(t *testing.T) {
	b := assembled(t, ".fifo putget\nset y, 2\nset x, 9\nmov isr, x\nmov rxfifo[y], isr\nmov rxfifo[1], isr\nmov osr, rxfifo[3]\nend: jmp end", RP2350, still(0), func(*Config) {})
	b.SetRegister(0, 3, 1234)
	b.Enable(1)
	b.Run(10)
	if b.Register(0, 2) != 9 || b.Register(0, 1) != 9 || b.State(0).OSR != 1234 {
		t.Errorf("registers %d, %d, OSR %d; want 9, 9, 1234", b.Register(0, 2), b.Register(0, 1), b.State(0).OSR)
	}
}

// TestSticky is OUT_STICKY of EXECCTRL (RP2040 Datasheet 3.7): the last OUT is written again and again.
func TestSticky(t *testing.T) {
	b := New(RP2040, still(0))
	b.Load([]uint16{0xe001, 0x0001, 0xe000, 0xe000, 0x0002}, 0) // set pins, 1; and elsewhere set pins, 0 for ever
	c := DefaultConfig()
	c.SetCount = 1
	b.Configure(0, c)
	b.Execute(0, 0x0002)
	c.Sticky = true
	b.Configure(1, c)
	b.Enable(3)
	if got := levelsOf(b, 5); got != "11111" {
		t.Errorf("sticky: %s, want 11111", got)
	}
}

// TestRegisters places each field as the SDK's pio.h of either chip does.
func TestRegisters(t *testing.T) {
	c := Config{
		Divider: Divider{0x1234, 0x56}, WrapTarget: 3, Wrap: 30, Side: SideSet{2, true, true}, SideBase: 5, OutBase: 6, OutCount: 32,
		SetBase: 7, SetCount: 4, InBase: 8, InCount: 32, JumpPin: 9, InShift: Right, OutShift: Left, AutoPush: true, AutoPull: true,
		PushAt: 32, PullAt: 8, Join: JoinTX, Status: StatusRX, StatusLevel: 2,
	}
	const level = 2
	want := [4]uint32{0x12345600, 1<<30 | 1<<29 | 9<<24 | 30<<12 | 3<<7 | 1<<4 | level, 1<<30 | 8<<25 | 1<<18 | 1<<17 | 1<<16, 3<<29 | 4<<26 | 32<<20 | 8<<15 | 5<<10 | 7<<5 | 6}
	a, b, d, e := c.Registers(RP2040)
	if got := [4]uint32{a, b, d, e}; got != want {
		t.Errorf("version 0: %08x, want %08x", got, want)
	}
	c.Join, c.Status, c.StatusLevel, c.InCount = JoinPutGet, StatusFlag, 0x13, 5
	_, b, d, _ = c.Registers(RP2350)
	if want1, want2 := uint32(1<<30|1<<29|9<<24|30<<12|3<<7|2<<5|0x13), uint32(8<<25|1<<18|1<<17|1<<16|1<<15|1<<14|5); b != want1 || d != want2 {
		t.Errorf("version 1: %08x %08x, want %08x %08x", b, d, want1, want2)
	}
}

func TestBadRegistersPanic(t *testing.T) {
	for name, change := range map[string]func(*Config){
		"divider": func(c *Config) { c.Divider = Divider{0, 128} },
		"wrap":    func(c *Config) { c.Wrap = 32 },
		"join":    func(c *Config) { c.Join = JoinPut },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: a value that no register holds was taken", name)
				}
			}()
			c := DefaultConfig()
			change(&c)
			New(RP2040, still(0)).Configure(0, c)
		}()
	}
}

// TestScanWords is the check that other emulators pass too: keys (2,1) and (4,3) of five rows and four
// columns, the first column in the high bits.
func TestScanWords(t *testing.T) {
	b := scanning(t, tightScan, &keyMatrix{pressed: [4]uint32{1: 1 << 2, 3: 1 << 4}})
	for _, at := range []uint64{21, 42} {
		b.Run(at - b.Now())
		if w, ok := b.Get(0); !ok || w != 0b11111_11011_11111_01111 {
			t.Errorf("word %020b, %v in cycle %d", w, ok, at)
		}
	}
}
