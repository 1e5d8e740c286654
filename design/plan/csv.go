package plan

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// A table is one CSV file being written: RFC 4180, CRLF, UTF-8, a heading line. Text cells carry
// the guard against spreadsheet formulas; numbers go in as numbers.
type table struct {
	heading []string
	rows    [][]string
}

// A cell is the content of one field.
type cell interface{ field() string }

type text string
type number float64
type whole int

func (t text) field() string { return guard(string(t)) }
func (n number) field() string {
	return strconv.FormatFloat(float64(n), 'f', -1, 64)
}
func (n whole) field() string { return strconv.Itoa(int(n)) }

// guard makes a cell that a spreadsheet cannot take for a formula: control characters but line
// feeds go, and a leading = + - @ or line feed, also in full width, gets a single quote before it
// (OWASP, CSV Injection). Readers strip one leading quote when one of those follows it.
func guard(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7F {
			return -1
		}
		return r
	}, s)
	if s != "" && strings.ContainsRune("=+-@\n＝＋－＠", []rune(s)[0]) {
		return "'" + s
	}
	return s
}

// Unguard takes the guard off a cell that was read back.
func Unguard(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && rest != "" && strings.ContainsRune("=+-@\n＝＋－＠", []rune(rest)[0]) {
		return rest
	}
	return s
}

func heading(names ...string) *table { return &table{heading: names} }

func (t *table) add(cells ...cell) {
	row := make([]string, len(cells))
	for i, c := range cells {
		row[i] = c.field()
	}
	t.rows = append(t.rows, row)
}

func (t *table) bytes() ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	for _, row := range append([][]string{t.heading}, t.rows...) {
		if len(row) != len(t.heading) {
			return nil, fmt.Errorf("table %v has a row of %d cells", t.heading, len(row))
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}
