package pio

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

type tokenKind uint8

const (
	tokenEnd       tokenKind = iota // of the line
	tokenName                       // letters, digits and underscores
	tokenNumber                     // a whole number
	tokenFraction                   // 3.6
	tokenDirective                  // .word
	tokenMark                       // one of marks
	tokenOdd                        // a character with no meaning here, or a number out of range
)

// A token is one word or mark of a source line.
type token struct {
	kind   tokenKind
	text   string // as written, but names and directives in small letters as word
	word   string
	value  int
	column int // in characters, from 1
}

// marks, the longer before those they begin with. A lone full stop is the address of the instruction.
var marks = []string{
	"::", "--", "<<", ">>", "!=", ",", ":", "(", ")", "[", "]", "+", "-", "*", "/", "|", "&", "^", "!", "~", "<", "=", ".",
}

// scan cuts a source text into the tokens of each line. Comments run from ; or // to the end of the
// line or between /* and */; blocks of another language, from a line "% name {" to "%}", are left out.
func scan(source string) [][]token {
	var lines [][]token
	var s scanner
	for line := range strings.SplitSeq(source, "\n") {
		lines = append(lines, s.line(strings.TrimSuffix(line, "\r")))
	}
	return lines
}

// A scanner remembers what a line left open.
type scanner struct{ comment, foreign bool }

func (s *scanner) line(text string) []token {
	trimmed := strings.TrimSpace(text)
	if s.foreign {
		s.foreign = trimmed != "%}"
		return nil
	}
	if !s.comment && strings.HasPrefix(trimmed, "%") && strings.HasSuffix(trimmed, "{") {
		s.foreign = true
		return nil
	}
	var list []token
	column := 1
	for text != "" {
		t, size := s.next(text)
		if t.kind != tokenEnd {
			t.column = column
			list = append(list, t)
		}
		column += utf8.RuneCountInString(text[:size])
		text = text[size:]
	}
	return list
}

// next returns the first token of text and how many bytes it takes, at least one; tokenEnd for blanks
// and comments.
func (s *scanner) next(text string) (token, int) {
	if s.comment {
		return s.inComment(text)
	}
	first, width := utf8.DecodeRuneInString(text)
	switch {
	case unicode.IsSpace(first):
		return token{}, width
	case first == ';' || strings.HasPrefix(text, "//"):
		return token{}, len(text)
	case strings.HasPrefix(text, "/*"):
		s.comment = true
		return token{}, 2
	case isDigit(text[0]) || text[0] == '.' && len(text) > 1 && isDigit(text[1]):
		return number(text)
	case isLetter(text[0]):
		word := text[:span(text)]
		return token{kind: tokenName, text: word, word: strings.ToLower(word)}, len(word)
	case text[0] == '.' && len(text) > 1 && isLetter(text[1]):
		word := text[:1+span(text[1:])]
		return token{kind: tokenDirective, text: word, word: strings.ToLower(word)}, len(word)
	}
	for _, mark := range marks {
		if strings.HasPrefix(text, mark) {
			return token{kind: tokenMark, text: mark, word: mark}, len(mark)
		}
	}
	return token{kind: tokenOdd, text: text[:width]}, width
}

func (s *scanner) inComment(text string) (token, int) {
	end := strings.Index(text, "*/")
	if end < 0 {
		return token{}, len(text)
	}
	s.comment = false
	return token{}, end + 2
}

// number reads 12, 0x1f, 0b101 or 3.6.
func number(text string) (token, int) {
	word := text[:span(text)]
	if rest := text[len(word):]; len(rest) > 1 && rest[0] == '.' && isDigit(rest[1]) && !strings.ContainsAny(word, "xXbB") {
		word = text[:len(word)+1+span(rest[1:])]
		return token{kind: tokenFraction, text: word, word: word}, len(word)
	}
	digits, base := word, 10
	switch lower := strings.ToLower(word); {
	case strings.HasPrefix(lower, "0x"):
		digits, base = word[2:], 16
	case strings.HasPrefix(lower, "0b"):
		digits, base = word[2:], 2
	}
	value, err := strconv.ParseUint(digits, base, 32)
	if err != nil {
		return token{kind: tokenOdd, text: word}, len(word)
	}
	return token{kind: tokenNumber, text: word, word: word, value: int(value)}, len(word)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isLetter(c byte) bool { return c == '_' || c|0x20 >= 'a' && c|0x20 <= 'z' }

// span returns how many letters, digits and underscores text begins with.
func span(text string) int {
	n := 0
	for n < len(text) && (isLetter(text[n]) || isDigit(text[n])) {
		n++
	}
	return n
}
