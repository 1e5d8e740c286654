package sheet

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"fascia/design/grid"
)

// breadth estimates how wide s is set, in ems of a common sans-serif face, on the wide side. The
// figures are from memory of such faces; nothing can be measured without a font.
func breadth(s string) grid.Millimetre {
	total := grid.Millimetre(0)
	for _, r := range s {
		total += breadthOf(r)
	}
	return total
}

func breadthOf(r rune) grid.Millimetre {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case strings.ContainsRune("iljI.,:;'|!() []ft", r):
		return 0.36
	case strings.ContainsRune("mwMW@%", r):
		return 0.98
	case r < 0x80 && unicode.IsUpper(r), r == '&':
		return 0.72
	case r < 0x250:
		return 0.62
	case r >= 0x1100 && wide(r):
		return 1.05
	}
	return 0.75
}

// wide reports whether r fills a square: the ideographs, kana, hangul and the pictures.
func wide(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul) || r >= 0x1F000 || r >= 0xFF00 && r <= 0xFF60
}

// MaxLegend is the longest legend that is fitted whole; of a longer one the rest is left off.
const MaxLegend = 24

const leading = 1.12 // from line to line, in ems

// fitted sets s into a box of the given width and height: broken into up to four lines, as large
// as it goes but no larger than most.
func fitted(s string, width, height, most grid.Millimetre) (lines []string, size grid.Millimetre) {
	s = shortened(strings.Join(strings.Fields(s), " "), MaxLegend)
	if s == "" {
		return nil, 0
	}
	words := chopped(strings.Split(s, " "))
	for count := 1; count <= 4; count++ {
		try := wrapped(words, count)
		if fit := sizeOf(try, width, height, most); fit > size*1.05 {
			lines, size = try, fit
		}
	}
	return lines, size
}

func sizeOf(lines []string, width, height, most grid.Millimetre) grid.Millimetre {
	widest := grid.Millimetre(0)
	for _, l := range lines {
		widest = max(widest, breadth(l))
	}
	tall := 0.78 + leading*grid.Millimetre(len(lines)-1)
	return min(most, 0.93*width/max(widest, 0.1), height/tall)
}

// shortened keeps the first n characters of s and says with an ellipsis that there were more.
func shortened(s string, n int) string {
	if utf8.RuneCountInString(s) <= n {
		return s
	}
	return string([]rune(s)[:n-1]) + "…"
}

// wrapped breaks s at spaces into at most count lines, the longest as short as can be.
func wrapped(words []string, count int) []string {
	limits := []grid.Millimetre{}
	for i := range words {
		for j := i; j < len(words); j++ {
			limits = append(limits, breadth(strings.Join(words[i:j+1], " ")))
		}
	}
	best := []string{strings.Join(words, " ")}
	bestWidth := breadth(best[0])
	for _, limit := range limits {
		if lines := filled(words, limit); limit < bestWidth && len(lines) <= count {
			best, bestWidth = lines, limit
		}
	}
	return best
}

// filled puts as many words on each line as fit into limit, and at least one.
func filled(words []string, limit grid.Millimetre) []string {
	var lines []string
	for _, w := range words {
		if n := len(lines) - 1; n >= 0 && breadth(lines[n]+" "+w) <= limit {
			lines[n] += " " + w
			continue
		}
		lines = append(lines, w)
	}
	return lines
}

// longWord is how many characters of a word stay together on one line.
const longWord = 12

// chopped cuts each word that is too long for one line into pieces of like length, lest it make
// the whole legend too small to read. Marks stay with the letter they sit on.
func chopped(words []string) []string {
	var pieces []string
	for _, w := range words {
		count := (utf8.RuneCountInString(w) + longWord - 1) / longWord
		target, run := breadth(w)/grid.Millimetre(count), grid.Millimetre(0)
		piece := ""
		for _, r := range w {
			b := breadthOf(r)
			if run+b/2 > target && b > 0 && piece != "" {
				pieces, piece, run = append(pieces, piece), "", 0
			}
			piece += string(r)
			run += b
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// lettered draws lines set by fitted with their middle at c.
func (p *pen) lettered(c grid.Point, lines []string, size grid.Millimetre, classes ...class) {
	for i, l := range lines {
		down := (grid.Millimetre(i) - grid.Millimetre(len(lines)-1)/2) * leading * size
		p.text(grid.Point{X: c.X, Y: c.Y + down}, size, l, classes...)
	}
}
