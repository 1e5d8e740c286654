package pio

import (
	"fmt"
	"strings"
)

// A Fault is something in a source text that keeps it from being assembled.
type Fault struct {
	Line, Column int    // of the first character that is wrong, both from 1, the column in characters
	Text         string // "Delay 8 does not fit: one side-set pin leaves 0 to 15."
	Fix          string // what would put it right
}

func (f Fault) Error() string {
	return fmt.Sprintf("line %d, column %d: %s %s", f.Line, f.Column, f.Text, f.Fix)
}

// Faults are all the faults of a source text, at most one for each line, in the order of the text.
type Faults []Fault

func (f Faults) Error() string {
	var b strings.Builder
	for i, one := range f {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(one.Error())
	}
	return b.String()
}
