package ipc356

import (
	"fmt"
	"strings"
)

// A Fault says where in a file its reading ended. Lines and columns count from 1.
type Fault struct {
	Line, Column int
	Text         string
}

func (f Fault) Error() string { return fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, f.Text) }

// Parse reads a file of test records. It is strict: what it does not know it refuses with a Fault,
// so that no net is lost unseen. Refused are units that readers disagree about, and records of
// conductors, outlines, inner vias and adjacency. Columns to 41 go by position, the rest by letter.
func Parse(text []byte) (*File, error) {
	r := reader{file: &File{}, said: map[string]bool{}, nets: map[string]string{}, refs: map[string]string{}, pins: map[string]string{}}
	rest := string(text)
	for rest != "" {
		r.number++
		r.line, rest, _ = strings.Cut(rest, "\n")
		r.line = strings.TrimRight(strings.TrimSuffix(r.line, "\r"), " ")
		if err := r.read(); err != nil {
			return nil, err
		}
	}
	if !r.ended {
		return nil, Fault{r.number + 1, 1, "the record 999 that ends a file is missing"}
	}
	return r.file, nil
}

// A reader reads one line at a time.
type reader struct {
	file   *File
	number int
	line   string

	said             map[string]bool   // parameters that have stood
	nets, refs, pins map[string]string // aliases, by what stands in the field
	open             string            // the alias that the last line began or went on with
	ended            bool
}

func (r *reader) fault(column int, format string, args ...any) error {
	return Fault{r.number, column, fmt.Sprintf(format, args...)}
}

// columns returns columns first to last, blank where the line has ended.
func (r *reader) columns(first, last int) string {
	if len(r.line) < last {
		return (r.line + strings.Repeat(" ", last))[first-1 : last]
	}
	return r.line[first-1 : last]
}

func (r *reader) read() error {
	for i := range len(r.line) {
		if r.line[i] < ' ' || r.line[i] > '~' {
			return r.fault(i+1, "byte %#02x is no printable ASCII", r.line[i])
		}
	}
	open := r.open
	r.open = ""
	switch {
	case r.line == "":
		return nil
	case r.ended:
		return r.fault(1, "nothing comes after the record 999")
	case len(r.line) > 80:
		return r.fault(81, "a line has 80 columns at most")
	case r.line == "999":
		r.ended = true
		return r.image(1)
	case r.line[0] == 'C' && strings.HasPrefix(r.columns(4, 80), aliasWord):
		return r.alias(open)
	case r.line[0] == 'C':
		return r.comment()
	case r.line[0] == 'P':
		return r.parameter()
	}
	return r.record()
}

func (r *reader) comment() error {
	if r.columns(2, 3) != "  " {
		return r.fault(2, "a comment begins in column 4")
	}
	r.file.Comments = append(r.file.Comments, strings.TrimRight(r.columns(4, 80), " "))
	return nil
}

// image asks that the head is complete.
func (r *reader) image(column int) error {
	if !r.said["IMAGE"] {
		return r.fault(column, "P  IMAGE PRIMARY must come first")
	}
	return nil
}

// others are records of the standard that are not read.
var others = map[string]string{
	"017": "the continuation of a test record", "027": "the continuation of a test record", "307": "a blind or buried via",
	"378": "a conductor", "078": "a conductor", "379": "an adjacency list", "389": "a board outline", "089": "a board outline",
}

// record reads a test record.
func (r *reader) record() error {
	code := r.columns(1, 3)
	p := Point{Kind: Kind(code)}
	if p.Kind != Through && p.Kind != Surface && p.Kind != Tooling {
		if what := others[code]; what != "" {
			return r.fault(1, "record %s, %s, is not read", code, what)
		}
		return r.fault(1, "%q is no record: C, P, 317, 327, 367 and 999 are", code)
	}
	if err := r.image(1); err != nil {
		return err
	}
	for _, read := range []func(*Point) error{r.name, r.terminal, r.hole, r.place} {
		if err := read(&p); err != nil {
			return err
		}
	}
	if err := p.valid(); err != nil {
		return r.fault(1, "%v", err)
	}
	r.file.Points = append(r.file.Points, p)
	return nil
}
