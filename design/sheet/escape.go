package sheet

import "unicode/utf8"

// appendText adds s to out as XML character data that is also safe between double quotes. What XML
// 1.0 cannot hold, and the invisible marks that make a text read as something else, come out as
// U+FFFD, so that a hostile name can neither break the drawing nor disguise itself in it.
//
// Extensible Markup Language (XML) 1.0, fifth edition, production [2] Char.
func appendText(out []byte, s string) []byte {
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == '&':
			out = append(out, "&amp;"...)
		case r == '<':
			out = append(out, "&lt;"...)
		case r == '>':
			out = append(out, "&gt;"...)
		case r == '"':
			out = append(out, "&#34;"...)
		case r == '\'':
			out = append(out, "&#39;"...)
		case r == '\n', r == '\t', r == '\r':
			out = append(out, ' ')
		case !drawable(r):
			out = append(out, "\uFFFD"...)
		default:
			out = append(out, s[i:i+n]...)
		}
		i += n
	}
	return out
}

// drawable reports whether r may stand in a drawing: a character of XML 1.0 that is neither a
// direction mark nor of no width.
func drawable(r rune) bool {
	switch {
	case r < 0x20, r >= 0x7F && r <= 0x9F, r == utf8.RuneError, r >= 0xD800 && r <= 0xDFFF, r == 0xFFFE, r == 0xFFFF, r == 0xFEFF:
		return false
	case r >= 0x200B && r <= 0x200F, r >= 0x202A && r <= 0x202E, r >= 0x2060 && r <= 0x206F, r == 0x061C:
		return false
	}
	return true
}
