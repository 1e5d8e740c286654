package sheet

import (
	"encoding/xml"
	"strings"
	"testing"
)

func TestAppendText(t *testing.T) {
	tests := []struct{ name, in, want, source string }{
		{"plain", "Frames +", "Frames +", ""},
		{"markup", `<a b="c">&'`, "&lt;a b=&#34;c&#34;&gt;&amp;&#39;", "XML 1.0, 2.4"},
		{"new lines", "a\nb\tc\rd", "a b c d", "XML 1.0, 3.3.3"},
		{"control characters", "a\x00b\x1bc\x7f", "a\uFFFDb\uFFFDc\uFFFD", "XML 1.0, 2.2 Char"},
		{"not characters", "\uFFFE\uFFFF", "\uFFFD\uFFFD", "XML 1.0, 2.2 Char"},
		{"broken UTF-8", "a\xffb", "a\uFFFDb", "RFC 3629"},
		{"direction marks", "a\u202Eb\u2066c\u200Fd", "a\uFFFDb\uFFFDc\uFFFDd", "Unicode TR 36"},
		{"other scripts", "ק日é🎲", "ק日é🎲", ""},
	}
	for _, tt := range tests {
		if got := string(appendText(nil, tt.in)); got != tt.want {
			t.Errorf("%s: appendText(%q) = %q, want %q (%s)", tt.name, tt.in, got, tt.want, tt.source)
		}
	}
}

// Any text comes back from an XML reader as itself, but for what cannot or must not be drawn.
func FuzzAppendText(f *testing.F) {
	for _, s := range []string{"", "S1", `<script>"&'`, "a\u202Eb", "\xff\x00", "]]>"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		escaped := string(appendText(nil, s))
		var got struct {
			Text string `xml:",chardata"`
			Attr string `xml:"a,attr"`
		}
		if err := xml.Unmarshal([]byte(`<t a="`+escaped+`">`+escaped+`</t>`), &got); err != nil {
			t.Fatalf("%q became %q: %v", s, escaped, err)
		}
		want := strings.Map(func(r rune) rune {
			switch {
			case r == '\n' || r == '\t' || r == '\r':
				return ' '
			case !drawable(r):
				return '\uFFFD'
			}
			return r
		}, s)
		if got.Text != want || got.Attr != want {
			t.Fatalf("%q came back as %q and %q", s, got.Text, got.Attr)
		}
	})
}
