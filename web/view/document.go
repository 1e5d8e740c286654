// Package view holds the pages as templ components and the typed values they are given. It writes
// HTML and nothing else: what a page says is worked out by its handler, and what the maker may do
// is decided by the server.
package view

import (
	"math"
	"strconv"

	"fascia/design/grid"
)

// A Head is what every page carries in its head: addresses of the embedded files and its title.
type Head struct {
	Title   string
	Drawing string // drawing.css, how drawings look
	Style   string // fascia.css
	Theme   string // theme.js, which runs before the first paint
	Script  string // the page's module
	Icon    string
}

// PageTitle is the title of the browser's tab.
func (h Head) PageTitle() string {
	if h.Title == "" {
		return "Fascia"
	}
	return h.Title + " · Fascia"
}

// number writes a count for an attribute.
func number(n int) string { return strconv.Itoa(n) }

// mm writes a length for an attribute, to a hundredth of a millimetre.
func mm(l grid.Millimetre) string {
	return strconv.FormatFloat(math.Round(float64(l)*100)/100, 'f', -1, 64)
}

// flag writes a truth for a data or ARIA attribute.
func flag(on bool) string { return strconv.FormatBool(on) }
