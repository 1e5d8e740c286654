package pio

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

const handbookWords = "derived from RP2040 Datasheet 3.4, table 366, and confirmed by running MicroPython's assembler"

func TestAssembleWords(t *testing.T) {
	tests := []struct {
		source, in string
		want       uint16
	}{
		{handbookWords, "set pindirs, 1", 0xe081},
		{handbookWords, "set pins, 1 [1]", 0xe101},
		{handbookWords, "set x, 31", 0xe03f},
		{handbookWords, "nop", 0xa042},
		{handbookWords, "pull block", 0x80a0},
		{handbookWords, "pull noblock", 0x8080},
		{handbookWords, "pull ifempty", 0x80e0},
		{handbookWords, "push block", 0x8020},
		{handbookWords, "push iffull noblock", 0x8040},
		{handbookWords, "out pins, 4", 0x6004},
		{handbookWords, "out x, 32", 0x6020},
		{handbookWords, "out exec, 16", 0x60f0},
		{handbookWords, "in pins, 8", 0x4008},
		{handbookWords, "in null, 24", 0x4078},
		{handbookWords, "in isr, 32", 0x40c0},
		{handbookWords, "mov x, ~null", 0xa02b},
		{handbookWords, "mov isr, ::osr", 0xa0d7},
		{handbookWords, "mov exec, y", 0xa082},
		{handbookWords, "wait 1 gpio 5", 0x2085},
		{handbookWords, "wait 0 pin 3", 0x2023},
		{handbookWords, "wait 1 irq 2 rel", 0x20d2},
		{handbookWords, "irq nowait 0", 0xc000},
		{handbookWords, "irq wait 0 rel", 0xc030},
		{handbookWords, "irq clear 4", 0xc044},
		{handbookWords, "jmp 0", 0x0000},
		{handbookWords, "jmp !x 0", 0x0020},
		{handbookWords, "jmp x-- 0", 0x0040},
		{handbookWords, "jmp !y 0", 0x0060},
		{handbookWords, "jmp y-- 0", 0x0080},
		{handbookWords, "jmp x!=y 0", 0x00a0},
		{handbookWords, "jmp pin 0", 0x00c0},
		{handbookWords, "jmp !osre 0", 0x00e0},
		{handbookWords, ".side_set 1\nnop side 1 [2]", 0xb242},
		{handbookWords, ".side_set 1 opt\nnop side 1 [2]", 0xba42},
		{handbookWords, ".side_set 1 opt\nnop [7]", 0xa742},
		{"RP2040 Datasheet 3.4.1: five delay bits", "set pins, 1 [31]", 0xff01},
		{"RP2350 Datasheet 11.4.8", ".pio_version 1\nmov rxfifo[y], isr", 0x8010},
		{"RP2350 Datasheet 11.4.8", ".pio_version 1\nmov rxfifo[3], isr", 0x801b},
		{"RP2350 Datasheet 11.4.9", ".pio_version 1\nmov osr, rxfifo[y]", 0x8090},
		{"RP2350 Datasheet 11.4.9", ".pio_version rp2350\nmov osr, rxfifo[1]", 0x8099},
		{"RP2350 Datasheet 11.4.10", ".pio_version 1\nmov pindirs, null", 0xa063},
		{"RP2350 Datasheet 11.4.10", ".pio_version 1\nmov pindirs, ~null", 0xa06b},
		{"RP2350 Datasheet 11.4.3", ".pio_version 1\nwait 1 jmppin + 3", 0x20e3},
		{"RP2350 Datasheet 11.4.3", ".pio_version 1\nwait 0 jmppin", 0x2060},
		{"RP2350 Datasheet 11.4.11", ".pio_version 1\nirq prev clear 2", 0xc04a},
		{"RP2350 Datasheet 11.4.11", ".pio_version 1\nirq next 3", 0xc01b},
		{"RP2350 Datasheet 11.4.11", ".pio_version 1\nwait 1 irq next 3", 0x20db},
	}
	for _, tt := range tests {
		got, err := Assemble(tt.in, RP2040)
		if err != nil || len(got) != 1 || !slices.Equal(got[0].Words, []uint16{tt.want}) {
			t.Errorf("Assemble(%q) = %+v, %v; want %04x (%s)", tt.in, got, err, tt.want, tt.source)
		}
	}
}

func TestAssemblePrograms(t *testing.T) {
	const squareWave = `
.program squarewave
    set pindirs, 1   ; Set pin to output
again:
    set pins, 1 [1]  ; Drive pin high and then delay for one cycle
    set pins, 0      ; Drive pin low
    jmp again        ; Set PC to label again
`
	programs, err := Assemble(squareWave, RP2040)
	if err != nil {
		t.Fatal(err)
	}
	want := []uint16{0xe081, 0xe101, 0xe000, 0x0001} // RP2040 Datasheet 3.2, hex of this program
	if p := programs[0]; p.Name != "squarewave" || !slices.Equal(p.Words, want) || !slices.Equal(p.Lines, []int{3, 5, 6, 7}) {
		t.Errorf("square wave: %+v, want words %04x", p, want)
	}
	if got := programs[0].At(28); !slices.Equal(got, []uint16{0xe081, 0xe101, 0xe000, 0x001d}) {
		t.Errorf("square wave at 28: %04x", got)
	}
}

func TestAssembleDirectives(t *testing.T) {
	const source = `
.define public pins_used 4   // global
/* two
   lines */ .program scan
.side_set 2 opt pindirs
.origin 4
.define half (pins_used / 2)
.define PUBLIC wide half * 2 + 1
% c-sdk {
static inline void nothing(void) { }
%}
.lang_opt python autopush = True
.wrap_target
public start: SET pins, (half << 2) SIDE 3 [wide - 4]
    in pins pins_used
    jmp x-- .
.wrap
    out y, (::0x7fffffff + 31 & 1)
* last: .word 0b1010

.program other
.pio_version 1
.in 5 left auto 20
.out 3 right manual 16
.set 2
.fifo putget
.mov_status irq next set 3
.clock_div 2.5
    jmp start
start:
    nop
`
	programs, err := Assemble(source, RP2040)
	if err != nil {
		t.Fatal(err)
	}
	p := programs[0]
	if want := []uint16{0xe008 | 0x1d00, 0x4004, 0x0042, 0x6041, 0x000a}; !slices.Equal(p.Words, want) {
		t.Errorf("words %04x, want %04x", p.Words, want)
	}
	if p.Origin != 4 || p.WrapTarget != 0 || p.Wrap != 2 || p.Side != (SideSet{2, true, true}) || p.Version != RP2040 {
		t.Errorf("%+v", p)
	}
	if want := []Symbol{{"wide", 5, false}, {"start", 0, true}, {"last", 4, true}}; !slices.Equal(p.Public, want) {
		t.Errorf("public %v, want %v", p.Public, want)
	}
	if v, ok := p.Label("last"); v != 4 || !ok {
		t.Errorf("last is %d, %v", v, ok)
	}
	o := programs[1]
	c := o.Config(10)
	want := DefaultConfig()
	want.InCount, want.InShift, want.AutoPush, want.PushAt = 5, Left, true, 20
	want.OutCount, want.PullAt, want.SetCount = 3, 16, 2
	want.Join, want.Status, want.StatusLevel = JoinPutGet, StatusFlag, 0x13
	want.Divider = Divider{2, 128}
	want.WrapTarget, want.Wrap = 10, 11
	if c != want || o.Version != RP2350 || o.Words[0] != 1 {
		t.Errorf("config %+v, want %+v; words %04x", c, want, o.Words)
	}
}

func TestAssembleRefuses(t *testing.T) {
	tests := []struct {
		name, in     string
		line, column int
		text, fix    string
	}{
		{"unknown instruction", "nop\nnopp", 2, 1, `"nopp" stands where an instruction should.`, "Write one of jmp, wait,"},
		{"unknown label", "start: jmp stat", 1, 12, `Nothing here is called "stat".`, "Write start"},
		{"delay too long", "nop [32]", 1, 6, "The delay is 32, which does not fit.", "Write 0 to 31."},
		{"delay beside side-set", ".side_set 1 opt\nnop [8]", 2, 6, "The delay, beside the side-set bits, is 8", "Write 0 to 7."},
		{"side missing", ".side_set 1\nnop", 2, 4, "must set its side pins", "opt"},
		{"side without pins", "nop side 1", 1, 5, "has no side-set pins", ".side_set"},
		{"side twice", ".side_set 1\nnop side 1 side 0", 2, 12, "twice", "Keep one."},
		{"side too large", ".side_set 1\nnop side 2", 2, 10, "The side-set value is 2", "Write 0 to 1."},
		{"side-set too late", "nop\n.side_set 1", 2, 1, "before the first instruction", "Move it up."},
		{"side-set too wide", ".side_set 5 opt\nnop", 1, 11, "The number of side-set pins is 5", "Write 0 to 4."},
		{"too many words", strings.Repeat("nop\n", 33), 33, 1, "This is word 33", "Shorten the program."},
		{"origin too high", ".origin 31\nnop\nnop", 2, 1, "the program ends at 32", "Choose a lower origin."},
		{"bit count 0", "in pins, 0", 1, 10, "The bit count is 0", "Write 1 to 32."},
		{"bad source", "in status, 1", 1, 4, `"status" stands where a source should.`, "Write one of pins, x, y, null, isr or osr."},
		{"line too short", "set x,", 1, 7, "The line ends where a value should stand.", "Write a number"},
		{"line too long", "nop nop", 1, 5, `"nop" is more than the line needs.`, "Take it away"},
		{"odd character", "set x, ü1", 1, 8, `"ü" means nothing here`, "Write a number"},
		{"column counts characters", "/* ü */ nopp", 1, 9, `"nopp"`, ""},
		{"no such directive", ".sideset 1", 1, 1, `There is no directive ".sideset".`, ".side_set"},
		{"version", "mov pindirs, x", 1, 5, "mov pindirs needs an RP2350.", "Write .pio_version 1"},
		{"version of prev", "irq prev 1", 1, 5, "A flag of a neighbouring block needs an RP2350.", ""},
		{"rel beside prev", ".pio_version 1\nirq prev 1 rel", 2, 12, "cannot be relative", "Take rel away."},
		{"circle", ".define a (a + 1)\nset x, a", 1, 12, `"a" is worked out from itself.`, "Give a a number in line 1."},
		{"larger circle", ".define a b\n.define b a\nset x, a", 1, 11, `"b" has no value.`, "See line 2."},
		{"division by 0", "set x, (1 / 0)", 1, 11, "divides by 0", ""},
		{"shift", "set x, (1 << 32)", 1, 11, "shifts by 32", ""},
		{"too large", "set x, (0xffffffff * 2)", 1, 20, "too large", ""},
		{"number out of range", "set x, 4294967296", 1, 8, `"4294967296" means nothing here`, ""},
		{"second label", "a: nop\na: nop", 2, 1, `"a" is already used in line 1.`, "Choose another name."},
		{"keyword", "pins: nop", 1, 1, "is a word of the language", "Choose another name."},
		{"wrap first", ".wrap\nnop", 1, 1, "No instruction stands before .wrap.", ""},
		{"wrap twice", "nop\n.wrap\n.wrap", 3, 1, "Line 2 already has .wrap.", "Keep one."},
		{"wrap target last", "nop\n.wrap_target", 2, 1, "No instruction follows", ""},
		{"empty program", ".program a\n.program b\nnop", 1, 10, `Program "a" has no instruction.`, ""},
		{"second program", ".program a\nnop\n.program a\nnop", 3, 10, `already begins a program called "a"`, ""},
		{"half a condition", "jmp x 3", 1, 7, "the rest of a condition", "Write x-- or x!=y."},
		{"no condition", "jmp y!=x 3", 1, 5, "is no condition", "x!=y"},
		{"deep brackets", "set x, " + strings.Repeat("(", 100), 1, 73, "nested too deep", ""},
		{"divider", ".clock_div 0.5\nnop", 1, 12, "The divider is 0.5", "Write 1 to 65536."},
	}
	for _, tt := range tests {
		_, err := Assemble(tt.in, RP2040)
		var faults Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: Assemble(%q) gave %v", tt.name, tt.in, err)
			continue
		}
		f := faults[0]
		if f.Line != tt.line || f.Column != tt.column || !strings.Contains(f.Text, tt.text) || !strings.Contains(f.Fix, tt.fix) {
			t.Errorf("%s: got %v, want line %d, column %d, %q %q", tt.name, f, tt.line, tt.column, tt.text, tt.fix)
		}
	}
}

func TestEveryFaultIsTold(t *testing.T) {
	_, err := Assemble("nopp\nnop\nset q, 1\njmp nowhere\n", RP2040)
	var faults Faults
	if !errors.As(err, &faults) || len(faults) != 3 || faults[1].Line != 3 || faults[2].Line != 4 {
		t.Errorf("got %v", err)
	}
	if n := strings.Count(fmt.Sprint(err), "\n"); n != 2 {
		t.Errorf("%d line breaks in %v", n, err)
	}
}
