package pio

import (
	"fmt"
	"strings"
	"testing"
)

// TestEveryWordComesBack assembles the disassembly of all 65,536 words of both versions, a memory full
// at a time. The number of words with a text of their own is counted from tables 366 and 3.4.2 to
// 3.4.10 of the RP2040 Datasheet, and for version 1 from 11.4.
func TestEveryWordComesBack(t *testing.T) {
	const version0 = 8*32 + 2*(32+32+16) + 6*32 + 8*32 + 4 + 4 + 7*3*7 + 3*16 + 4*32
	const version1 = 8*32 + 2*(32+32+32+4) + 6*32 + 8*32 + 4 + 4 + 8*3*7 + 3*32 + 4*32 + 2*5
	for v, valid := range map[Version]int{RP2040: 32 * version0, RP2350: 32 * version1} {
		var words []uint16
		for w := range 1 << 16 {
			words = append(words, uint16(w))
		}
		if got := comeBack(t, words, v, SideSet{}); got != valid {
			t.Errorf("version %d: %d words have a text, want %d", v, got, valid)
		}
	}
}

// TestEverySideSetComesBack takes all values of bits 12:8 under every side-set, with a few
// instructions of each kind.
func TestEverySideSetComesBack(t *testing.T) {
	for pins := range 6 {
		for kind := range 4 {
			s := SideSet{pins, kind&1 != 0, kind&2 != 0}
			if s.Bits() > 5 {
				continue
			}
			var words []uint16
			for field := range uint16(32) {
				for _, base := range []uint16{0x0001, 0x2085, 0x4008, 0x6020, 0x80a0, 0xa042, 0xc030, 0xe03f} {
					words = append(words, base|field<<8)
				}
			}
			// With opt, bits that are switched off must be 0: pins * 2 values and one more are left.
			want := len(words)
			if s.Optional {
				want = 8 * (1<<s.Pins + 1) << (4 - s.Pins)
				if s.Pins == 0 {
					want = 8 * 16
				}
			}
			if got := comeBack(t, words, RP2350, s); got != want {
				t.Errorf("%+v: %d words have a text, want %d", s, got, want)
			}
		}
	}
}

// comeBack returns how many words have a text other than .word.
func comeBack(t *testing.T, words []uint16, v Version, s SideSet) (valid int) {
	t.Helper()
	head := fmt.Sprintf(".side_set %d", s.Pins)
	if s.Optional {
		head += " opt"
	}
	if s.Directions {
		head += " pindirs"
	}
	for len(words) > 0 {
		part := words[:min(Memory, len(words))]
		words = words[len(part):]
		lines := []string{head}
		for _, w := range part {
			text := Disassemble(w, v, s)
			if !strings.HasPrefix(text, ".word") {
				valid++
			}
			lines = append(lines, text)
		}
		programs, err := Assemble(strings.Join(lines, "\n"), v)
		if err != nil {
			t.Fatalf("%v of:\n%s", err, strings.Join(lines, "\n"))
		}
		for i, w := range part {
			if got := programs[0].Words[i]; got != w {
				t.Fatalf("%04x became %q became %04x (%+v)", w, lines[i+1], got, s)
			}
		}
	}
	return valid
}

func FuzzAssemble(f *testing.F) {
	for _, seed := range []string{
		"set pins, 1 [2]", ".program a\n.side_set 1 opt\nstart: nop side 1\n.wrap_target\njmp start\n.wrap",
		".pio_version 1\nmov osr, rxfifo[y]", ".define a (1 + ::2)\n.word a", "/* ", "% c-sdk {\n%}", ".clock_div 1.5\nnop",
		"wait 1 irq 2 rel", "public a: irq wait 3", ".in 3 left auto 4\nin pins, 3", "* x", "1.", ".",
	} {
		f.Add(seed, byte(0))
		f.Add(seed, byte(1))
	}
	f.Fuzz(func(t *testing.T, source string, version byte) {
		programs, err := Assemble(source, Version(version&1))
		if err != nil {
			if len(err.Error()) == 0 || programs != nil {
				t.Fatalf("%q: programs beside an error", source)
			}
			return
		}
		for _, p := range programs {
			if n := len(p.Words); n == 0 || n > Memory || p.Wrap >= n || p.WrapTarget >= n || len(p.Lines) != n {
				t.Fatalf("%q: %+v", source, p)
			}
			if p.Origin != Anywhere {
				p.At(p.Origin)
			}
			p.Config(0).Registers(p.Version)
			comeBack(t, p.Words, p.Version, p.Side)
		}
	})
}
