package pio

import "fmt"

// Disassemble returns the source text of a word of a program with side-set s: a line that Assemble
// turns into that word again. A word that no instruction has comes out as .word.
func Disassemble(word uint16, v Version, s SideSet) string {
	text, ok := instructionText(word, v)
	beside, canonical := besideText(word, s)
	if !ok || !canonical {
		return fmt.Sprintf(".word 0x%04x", word)
	}
	return text + beside
}

// besideText is side-set and delay. A word whose side-set is switched off but not 0 has no text.
func besideText(word uint16, s SideSet) (text string, ok bool) {
	value, drives, delay := s.sideOf(word)
	if drives && s.Pins > 0 {
		text = fmt.Sprintf(" side %d", value)
	}
	if delay > 0 {
		text += fmt.Sprintf(" [%d]", delay)
	}
	return text, drives && s.Pins > 0 || value == 0 && !drives
}

func instructionText(word uint16, v Version) (text string, ok bool) {
	low, middle := int(word&31), int(word>>5)&7
	switch word >> 13 {
	case opJump:
		text = "jmp "
		if c := jumpConditions[middle]; c != "" {
			text += c + ", "
		}
		return fmt.Sprintf("%s%d", text, low), true
	case opWait:
		return waitText(middle&3, low, middle>>2, v)
	case opIn:
		return shiftText("in", inSources[middle], low)
	case opOut:
		return shiftText("out", outDestinations[middle], low)
	case opPushPull:
		return queueText(word, v)
	case opMove:
		return moveText(word, middle, low, v)
	case opIRQ:
		return flagText(word, low, v)
	}
	return fmt.Sprintf("set %s, %d", setDestinations[middle], low), setDestinations[middle] != ""
}

func shiftText(name, end string, count int) (text string, ok bool) {
	if count == 0 {
		count = 32
	}
	return fmt.Sprintf("%s %s, %d", name, end, count), end != ""
}

func waitText(source, index, polarity int, v Version) (text string, ok bool) {
	text = fmt.Sprintf("wait %d ", polarity)
	switch source {
	case waitGPIO:
		return fmt.Sprintf("%sgpio %d", text, index), true
	case waitPin:
		return fmt.Sprintf("%spin %d", text, index), true
	case waitIRQ:
		neighbour, flag, ok := flagName(index, v)
		return text + "irq " + neighbour + flag, ok
	}
	if index > 0 {
		return fmt.Sprintf("%sjmppin + %d", text, index), v == RP2350 && index < 4
	}
	return text + "jmppin", v == RP2350
}

// flagName returns what stands before the number of a flag, and the number with what follows it.
func flagName(index int, v Version) (neighbour, flag string, ok bool) {
	flag = fmt.Sprint(index & 7)
	switch index >> 3 {
	case previousFlags:
		return "prev ", flag, v == RP2350
	case relativeFlags:
		return "", flag + " rel", true
	case nextFlags:
		return "next ", flag, v == RP2350
	}
	return "", flag, true
}

func flagText(word uint16, index int, v Version) (text string, ok bool) {
	how := "nowait "
	switch word & (clearBit | waitBit) {
	case clearBit:
		how = "clear "
	case waitBit:
		how = "wait "
	case clearBit | waitBit:
		return "", false
	}
	neighbour, flag, ok := flagName(index, v)
	return "irq " + neighbour + how + flag, ok && word&0x80 == 0
}

func queueText(word uint16, v Version) (text string, ok bool) {
	pull := word&0x80 != 0
	if word&queueMove != 0 {
		place := "rxfifo[y]"
		if word&indexBit != 0 {
			place = fmt.Sprintf("rxfifo[%d]", word&3)
		}
		text = "mov " + place + ", isr"
		if pull {
			text = "mov osr, " + place
		}
		valid := word&indexBit != 0 && word&4 == 0 || word&15 == 0
		return text, v == RP2350 && valid && word&(ifBit|blockBit) == 0
	}
	text, only := "push", " iffull"
	if pull {
		text, only = "pull", " ifempty"
	}
	if word&ifBit != 0 {
		text += only
	}
	if word&blockBit != 0 {
		return text + " block", word&31 == 0
	}
	return text + " noblock", word&31 == 0
}

func moveText(word uint16, destination, low int, v Version) (text string, ok bool) {
	if word&0xff == wordNop&0xff {
		return "nop", true
	}
	to, from := moveDestinations(v)[destination], moveSources[low&7]
	operation := []string{"", "~", "::", ""}[low>>3]
	return fmt.Sprintf("mov %s, %s%s", to, operation, from), to != "" && from != "" && low>>3 != 3
}
