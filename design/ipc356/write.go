package ipc356

import (
	"fmt"
	"strings"
)

// version is what the files are written to and what is read.
const version = "IPC-D-356A"

// Longest texts of the head.
const (
	mostValue   = 71
	mostComment = 77
)

// Write returns the file's bytes: lines of at most 80 columns. Equal files give equal bytes, and
// Parse gives the file back. An error says which text or point no such file can hold.
func (f *File) Write() ([]byte, error) {
	lines, err := f.head()
	if err != nil {
		return nil, err
	}
	names := newAliaser(f.Points)
	var records []string
	for i := range f.Points {
		record, err := f.Points[i].record(names)
		if err != nil {
			return nil, fmt.Errorf("point %d, %s-%s of %q: %w", i+1, f.Points[i].Ref, f.Points[i].Pin, f.Points[i].Net, err)
		}
		records = append(records, record)
	}
	lines = append(append(append(lines, names.records...), records...), "999")
	return []byte(strings.Join(lines, "\n") + "\n"), nil
}

// head writes comments and parameters, in the order of the format guide.
func (f *File) head() ([]string, error) {
	var lines []string
	for _, c := range f.Comments {
		if !isPrintable(c) || len(c) > mostComment || strings.HasSuffix(c, " ") || strings.HasPrefix(c, aliasWord) {
			return nil, fmt.Errorf("no file can hold the comment %q", c)
		}
		lines = append(lines, strings.TrimRight("C  "+c, " "))
	}
	if f.Units != TenThousandthInch && f.Units != Micrometre {
		return nil, fmt.Errorf("units %d are not known", f.Units)
	}
	for _, h := range []struct{ word, value string }{
		{"JOB", f.Job}, {"CODE", f.Code}, {"UNITS", fmt.Sprintf("CUST %d", f.Units)}, {"TITLE", f.Title},
		{"NUM", f.Number}, {"REV", f.Revision}, {"VER", version},
	} {
		if h.value != "" && !isPlain(h.value, mostValue) {
			return nil, fmt.Errorf("no file can hold the %s %q", h.word, h.value)
		}
		lines = append(lines, strings.TrimRight(fmt.Sprintf("P  %-5s %s", h.word, h.value), " "))
	}
	return append(lines, "P  IMAGE PRIMARY"), nil
}

// record writes one point.
func (p *Point) record(names *aliaser) (string, error) {
	if err := p.valid(); err != nil {
		return "", err
	}
	ref, err := names.ref(p.Ref)
	if err != nil {
		return "", err
	}
	pin, err := names.pin(p.Pin)
	if err != nil {
		return "", err
	}
	dash, mid, hole := " ", " ", "      "
	if pin != "" {
		dash = "-"
	}
	if p.Mid {
		mid = "M"
	}
	if p.Hole > 0 {
		hole = fmt.Sprintf("D%04d%s", p.Hole, plating(p.Plated))
	}
	line := fmt.Sprintf("%s%-14s   %-6s%s%-4s%s%sA%02dX%+07dY%+07d%s%s %s",
		p.Kind, names.net(p), ref, dash, pin, mid, hole, p.Side, p.X, p.Y, p.pad(), p.turn(), p.mask())
	return strings.TrimRight(line, " "), nil
}

func plating(plated bool) string {
	if plated {
		return "P"
	}
	return "U"
}

func (p *Point) pad() string {
	if p.Width == 0 {
		return "          "
	}
	return fmt.Sprintf("X%04dY%04d", p.Width, p.Height)
}

func (p *Point) turn() string {
	if p.Turn == 0 {
		return "    "
	}
	return fmt.Sprintf("R%03d", p.Turn)
}

func (p *Point) mask() string {
	if p.Mask == MaskUnsaid {
		return ""
	}
	return fmt.Sprintf("S%d", p.Mask-MaskNone)
}
