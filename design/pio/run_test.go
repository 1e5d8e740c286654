package pio

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// looped are pins that show what is driven, and elsewhere levels that change every so often.
type looped struct {
	every uint64
	salt  uint64
}

func (l *looped) Levels(now uint64, d Drive) (uint32, uint64) {
	turn := now/l.every + 1
	h := (turn*0x9e3779b97f4a7c15 ^ l.salt*0xff51afd7ed558ccd) * 0xc4ceb9fe1a85ec53
	outside := uint32(h >> 32)
	return d.Levels&d.Directions | outside&^d.Directions, turn * l.every
}

// promising are such pins that promise to depend on what is driven alone.
type promising struct{ *looped }

func (p promising) SameUntil(now uint64) uint64 { return (now/p.every + 1) * p.every }

// TestRunIsPlain holds Block against the plain interpreter, on random programs, registers, pins and
// deeds of the processor: all that can be read must be the same after each stretch of cycles.
func TestRunIsPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pins := &looped{every: rapid.Uint64Range(1, 40).Draw(t, "every")}
		v := Version(rapid.IntRange(0, 1).Draw(t, "version"))
		d := duel{fast: New(v, pins), slow: newPlain(v, pins), pins: pins}
		if long := rapid.IntRange(0, 3).Draw(t, "long"); long > 0 {
			pins.every *= 30
			d.longest = 1000
			if long > 1 {
				d.fast = New(v, promising{pins})
			}
		}
		d.load(t)
		for range rapid.IntRange(1, 4).Draw(t, "machines") {
			d.configure(t)
		}
		d.enable(rapid.Uint32Range(0, 15).Draw(t, "enable"))
		for range rapid.IntRange(1, 25).Draw(t, "deeds") {
			d.deed(t)
			n := rapid.IntRange(0, 90+d.longest).Draw(t, "cycles")
			d.fast.Run(uint64(n))
			d.slow.run(n)
			if a, b := d.told(); a != b {
				t.Fatalf("after cycle %d:\nfast  %s\nplain %s", d.slow.now, a, b)
			}
		}
	})
}

// A duel does the same to both.
type duel struct {
	fast *Block
	slow *plain
	pins *looped

	longest int
}

func (d *duel) told() (fast, slow string) {
	a := fmt.Sprintln(d.fast.Now(), d.fast.Flags(), d.fast.Drive(), d.fast.Debug())
	b := fmt.Sprintln(d.slow.now, d.slow.flags, d.slow.drive, d.slow.debug)
	for n := range d.slow.machines {
		m := &d.slow.machines[n]
		state := State{m.pc, d.fast.State(n).At, m.x, m.y, m.isr, m.osr, m.in, m.out, m.stalled, m.latched}
		tx, rx := d.fast.Waiting(n)
		var words []uint32
		q := d.fast.machines[n].rx
		for !q.empty() {
			words = append(words, q.take())
		}
		a += fmt.Sprintln(n, d.fast.State(n), tx, rx, words)
		b += fmt.Sprintln(n, state, len(m.tx), len(m.rx), m.rx)
	}
	return a, b
}

// load fills the memory mostly with words that do something.
func (d *duel) load(t *rapid.T) {
	for at := range Memory {
		w := rapid.Uint16().Draw(t, "word")
		if w>>13 == opWait && w&0x60 != waitIRQ<<5 && at%2 == 0 {
			w &^= 0xe000 // a jump
		}
		if d.longest > 0 && w>>13 == opWait {
			w |= baseSet // programs that go round
		}
		d.fast.Load([]uint16{w}, at)
		d.slow.memory[at] = w
	}
}

func (d *duel) configure(t *rapid.T) {
	n := rapid.IntRange(0, 3).Draw(t, "machine")
	c := drawConfig(t, d.slow.version)
	d.fast.Configure(n, c)
	m := &d.slow.machines[n]
	if c.Join != m.c.Join {
		m.tx, m.rx, m.registers = nil, nil, [4]uint32{}
	}
	m.c = c
}

func drawConfig(t *rapid.T, v Version) Config {
	five, on := rapid.IntRange(0, 31), rapid.Bool()
	c := DefaultConfig()
	if on.Draw(t, "divided") {
		c.Divider = Divider{rapid.IntRange(1, 9).Draw(t, "whole"), rapid.IntRange(0, 255).Draw(t, "fraction")}
	}
	c.WrapTarget, c.Wrap = five.Draw(t, "target"), five.Draw(t, "wrap")
	c.Side = SideSet{rapid.IntRange(0, 4).Draw(t, "side"), on.Draw(t, "opt"), on.Draw(t, "pindirs")}
	c.SideBase, c.OutBase, c.SetBase, c.InBase = five.Draw(t, "side base"), five.Draw(t, "out base"), five.Draw(t, "set base"), five.Draw(t, "in base")
	c.OutCount, c.SetCount, c.JumpPin = rapid.IntRange(0, 32).Draw(t, "out"), rapid.IntRange(0, 5).Draw(t, "set"), five.Draw(t, "jump")
	c.InShift, c.OutShift = Shift(on.Draw(t, "in")), Shift(on.Draw(t, "out way"))
	c.AutoPush, c.AutoPull = on.Draw(t, "autopush"), on.Draw(t, "autopull")
	c.PushAt, c.PullAt = rapid.IntRange(1, 32).Draw(t, "push at"), rapid.IntRange(1, 32).Draw(t, "pull at")
	c.Join = Join(rapid.IntRange(0, 2).Draw(t, "join"))
	c.Status, c.StatusLevel = StatusSource(rapid.IntRange(0, 1).Draw(t, "status")), rapid.IntRange(0, 9).Draw(t, "level")
	if rapid.IntRange(0, 9).Draw(t, "special") == 0 {
		c.Sticky, c.OutEnable, c.OutEnableBit = on.Draw(t, "sticky"), on.Draw(t, "enable"), five.Draw(t, "enable bit")
	}
	if v == RP2350 && on.Draw(t, "version 1") {
		c.InCount = rapid.IntRange(1, 32).Draw(t, "in count")
		c.Join = Join(rapid.IntRange(0, 5).Draw(t, "join"))
		c.Status = StatusSource(rapid.IntRange(0, 2).Draw(t, "status"))
	}
	return c
}

func (d *duel) enable(mask uint32) {
	d.fast.Enable(mask)
	for n := range d.slow.machines {
		d.slow.machines[n].enabled = mask>>n&1 == 1
	}
}

// deed is one thing that a processor may do.
func (d *duel) deed(t *rapid.T) {
	n := rapid.IntRange(0, 3).Draw(t, "machine")
	m := &d.slow.machines[n]
	switch rapid.IntRange(0, 13).Draw(t, "deed") {
	case 0, 1, 2:
		w := rapid.Uint32().Draw(t, "tx")
		if d.fast.Put(n, w) {
			m.tx = append(m.tx, w)
		} else {
			d.slow.debug |= TXOver << n
		}
	case 3, 4:
		if _, ok := d.fast.Get(n); ok {
			m.rx = m.rx[1:]
		} else {
			d.slow.debug |= RXUnder << n
		}
	case 5:
		d.enable(rapid.Uint32Range(0, 15).Draw(t, "enable"))
	case 6:
		d.execute(n, rapid.Uint16().Draw(t, "execute"))
	case 7:
		d.configure(t)
	case 8:
		d.fast.Restart(1 << n)
		m.isr, m.in, m.out, m.delay = 0, 0, 32, 0
		m.latched, m.forced, m.stalled, m.raised, m.held = false, false, false, false, [2]pinWrite{}
	case 9:
		d.fast.RestartClocks(1 << n)
		m.count, m.sum = 0, 0
	case 10:
		mask := rapid.Uint32Range(0, 255).Draw(t, "flags")
		d.fast.RaiseFlags(mask)
		d.slow.flags |= mask
	case 11:
		mask := rapid.Uint32Range(0, 255).Draw(t, "flags")
		d.fast.ClearFlags(mask)
		d.slow.flags &^= mask
	case 12:
		d.pins.salt++
		d.fast.PinsChanged()
	case 13:
		d.slow.bypass = rapid.Uint32().Draw(t, "bypass")
		d.fast.BypassSynchronisers(d.slow.bypass)
		d.fast.ClearDebug(0xf)
		d.slow.debug &^= 0xf
	}
}

func (d *duel) execute(n int, w uint16) {
	d.fast.Execute(n, w)
	m, b := &d.slow.machines[n], d.slow
	before := *m
	m.latch, m.latched, m.stalled, m.raised, m.forced = w, true, false, false, true
	b.execute(n, b.seen())
	b.commit()
	if m.stalled || m.latched {
		return
	}
	if before.latched && !before.forced {
		m.latch, m.latched = before.latch, true
	}
	if before.forced {
		m.delay = 0
		return
	}
	m.stalled, m.raised, m.delay = before.stalled, before.raised, before.delay
}
