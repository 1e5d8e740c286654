package static

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// WCAG 2.2, 1.4.3 (text 4.5:1) and 1.4.11 (what tells controls and states apart 3:1); the ratio is that
// of its definition of "contrast ratio".
func TestContrast(t *testing.T) {
	const text, line = 4.5, 3.0
	type pair struct {
		fore, back string
		least      float64
	}
	pairs := []pair{
		{"ink", "sheet", text}, {"ink", "bench", text}, {"ink", "raised", text}, {"ink", "wash", text},
		{"pencil", "sheet", text}, {"pencil", "raised", text}, {"pencil", "wash", text}, {"on-bench", "bench", text},
		{"accent", "sheet", text}, {"accent", "raised", text}, {"accent", "wash", line}, {"accent", "bench", text},
		{"stop", "sheet", text}, {"stop", "raised", text}, {"stop", "wash", line}, {"stop", "bench", text},
		{"mind", "sheet", text}, {"mind", "raised", text}, {"mind", "bench", text},
		{"note", "sheet", text}, {"note", "raised", text},
		{"sheet", "ink", text}, // a pressed button
	}
	for _, name := range "abcdefgh" { // of a scan
		for _, back := range []string{"sheet", "raised", "wash"} {
			pairs = append(pairs, pair{"line-" + string(name), back, line})
		}
	}
	for _, theme := range []int{0, 1} {
		colours := palette(t, theme)
		for _, p := range pairs {
			fore, back := colours[p.fore], colours[p.back]
			if got := ratio(fore, back); got < p.least {
				t.Errorf("theme %d: %s on %s is %.2f:1, less than %.1f:1 (WCAG 2.2)", theme, p.fore, p.back, got, p.least)
			}
		}
	}
}

type rgb [3]float64

// palette reads the colours of a theme, 0 by day, 1 as a blueprint, from both stylesheets.
func palette(t *testing.T, theme int) map[string]rgb {
	t.Helper()
	colours := map[string]rgb{}
	drawing := strings.Split(read(t, "css/drawing.css"), "data-theme=\"blueprint\"")
	for _, m := range regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`).FindAllStringSubmatch(drawing[theme], -1) {
		if _, seen := colours[m[1]]; !seen { // the first block is the day's
			colours[m[1]] = parse(t, m[2])
		}
	}
	page := read(t, "css/fascia.css")
	page = page[:strings.Index(page, "@media")]
	for _, m := range regexp.MustCompile(`--([a-z-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)`).FindAllStringSubmatch(page, -1) {
		colours[m[1]] = parse(t, m[2+theme])
	}
	mix := regexp.MustCompile(`--([a-z-]+): color-mix\(in srgb, var\(--([a-z-]+)\) ([0-9]+)%, var\(--([a-z-]+)\)\)`)
	for _, m := range mix.FindAllStringSubmatch(page, -1) {
		share, err := strconv.ParseFloat(m[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		a, b := colours[m[2]], colours[m[4]]
		var c rgb
		for i := range c {
			c[i] = a[i]*share/100 + b[i]*(1-share/100)
		}
		colours[m[1]] = c
	}
	for _, name := range []string{"sheet", "bench", "ink", "pencil", "accent", "stop", "mind", "note", "raised", "wash", "on-bench", "line-a", "line-h"} {
		if _, ok := colours[name]; !ok {
			t.Fatalf("theme %d has no colour %s", theme, name)
		}
	}
	return colours
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func parse(t *testing.T, hex string) rgb {
	t.Helper()
	var r, g, b int
	if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &r, &g, &b); err != nil {
		t.Fatalf("%s: %v", hex, err)
	}
	return rgb{float64(r), float64(g), float64(b)}
}

func ratio(a, b rgb) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c rgb) float64 {
	var part [3]float64
	for i, v := range c {
		v /= 255
		if part[i] = v / 12.92; v > 0.04045 {
			part[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*part[0] + 0.7152*part[1] + 0.0722*part[2]
}
