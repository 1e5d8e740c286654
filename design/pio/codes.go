package pio

import "slices"

// The top three bits of a word (table 366). Push and pull share one.
const (
	opJump = iota
	opWait
	opIn
	opOut
	opPushPull
	opMove
	opIRQ
	opSet
)

// Words are given their operands by or.
const (
	baseWait  = opWait << 13
	baseIn    = opIn << 13
	baseOut   = opOut << 13
	basePush  = opPushPull << 13
	basePull  = basePush | 0x80
	baseMove  = opMove << 13
	baseIRQ   = opIRQ << 13
	baseSet   = opSet << 13
	wordNop   = baseMove | codeY<<5 | codeY // mov y, y
	ifBit     = 0x40                        // IfFull of push, IfEmpty of pull
	blockBit  = 0x20
	clearBit  = 0x40 // of irq
	waitBit   = 0x20 // of irq
	indexBit  = 0x08 // mov rxfifo[number] rather than rxfifo[y]
	queueMove = 0x10 // makes a push a mov rxfifo[], isr, and a pull a mov osr, rxfifo[] (11.4.8, 11.4.9)
)

// Codes of sources and destinations (3.4.2 to 3.4.10). Those from codePins to codeOSR mean the same
// wherever they are allowed.
const (
	codePins           = 0
	codeX              = 1
	codeY              = 2
	codeNull           = 3
	codeMoveDirections = 3 // destination of mov, version 1 only
	codeDirections     = 4
	codeMoveExec       = 4
	codePC             = 5
	codeStatus         = 5
	codeISR            = 6
	codeOSR            = 7
	codeOutExec        = 7
)

// Sources of wait.
const (
	waitGPIO = iota
	waitPin
	waitIRQ
	waitJumpPin // version 1 only
)

// Whose flag an irq or wait irq means, in bits 4:3 of its index (11.4.11). Version 0 knows only
// hereFlags and relativeFlags.
const (
	hereFlags = iota
	previousFlags
	relativeFlags
	nextFlags
)

// Names as written, by code; an empty one is reserved.
var (
	jumpConditions    = [8]string{"", "!x", "x--", "!y", "y--", "x!=y", "pin", "!osre"}
	inSources         = [8]string{"pins", "x", "y", "null", "", "", "isr", "osr"}
	outDestinations   = [8]string{"pins", "x", "y", "null", "pindirs", "pc", "isr", "exec"}
	moveDestinations0 = [8]string{"pins", "x", "y", "", "exec", "pc", "isr", "osr"}
	moveDestinations1 = [8]string{"pins", "x", "y", "pindirs", "exec", "pc", "isr", "osr"}
	moveSources       = [8]string{"pins", "x", "y", "null", "", "status", "isr", "osr"}
	setDestinations   = [8]string{"pins", "x", "y", "", "pindirs", "", "", ""}
)

func moveDestinations(v Version) *[8]string {
	if v == RP2350 {
		return &moveDestinations1
	}
	return &moveDestinations0
}

// codeOf returns the code of a name that table holds.
func codeOf(table *[8]string, name string) (int, bool) {
	at := slices.Index(table[:], name)
	return at, at >= 0 && name != ""
}

// keywords cannot be names of a program's own.
var keywords = []string{
	"jmp", "wait", "in", "out", "push", "pull", "mov", "irq", "set", "nop",
	"pin", "gpio", "osre", "jmppin", "prev", "next", "pins", "null", "pindirs", "block", "noblock",
	"ifempty", "iffull", "nowait", "clear", "rel", "x", "y", "exec", "pc", "isr", "osr", "opt", "optional",
	"side", "sideset", "side_set", "status", "public", "rp2040", "rp2350", "rxfifo", "txfifo", "txrx", "tx", "rx",
	"txput", "txget", "putget", "left", "right", "auto", "manual", "one", "zero",
}
