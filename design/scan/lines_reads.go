package scan

import "slices"

// Unsure returns the keys that are not held and may still read as pressed while the given ones are:
// keys on lines whose reading line is joined with the selected one through two or more diodes in a
// row, which leaves it between low and high. They come in the order of Cells. Keys on lines that are
// surely read come from Reads; where the style is not lines nothing is unsure.
func Unsure(r *Result, pressed []string) []string {
	if r.Style != "lines" {
		return nil
	}
	var unsure []string
	for _, c := range r.Cells {
		if !slices.Contains(pressed, c.Key) && reaches(r, pressed, c.Row, c.Column) {
			unsure = append(unsure, c.Key)
		}
	}
	return unsure
}

// reaches reports whether current flows from one line to another through held keys.
func reaches(r *Result, pressed []string, from, to int) bool {
	reached := []int{from}
	for i := 0; i < len(reached); i++ {
		for _, c := range r.Cells {
			if c.Row == reached[i] && slices.Contains(pressed, c.Key) && !slices.Contains(reached, c.Column) {
				reached = append(reached, c.Column)
			}
		}
	}
	return slices.Contains(reached[1:], to)
}
