package ipc356

import (
	"strconv"
	"strings"
)

// name reads columns 4 to 20: the net.
func (r *reader) name(p *Point) error {
	field := strings.TrimRight(r.columns(4, 17), " ")
	switch {
	case strings.TrimSpace(r.columns(18, 20)) != "":
		return r.fault(18, "columns 18 to 20 are blank")
	case field == "" && p.Kind == Tooling || field == unconnected:
		return nil
	case field == "" || field[0] == ' ':
		return r.fault(4, "the name of the net begins in column 4")
	case netAlias.MatchString(field):
		if p.Net = r.nets[field]; p.Net == "" {
			return r.fault(4, "%s has not been said to stand for a net", field)
		}
	default:
		p.Net = field
	}
	return nil
}

// terminal reads columns 21 to 32: reference, pin and whether the point is in mid net.
func (r *reader) terminal(p *Point) error {
	ref, pin := strings.TrimRight(r.columns(21, 26), " "), strings.TrimRight(r.columns(28, 31), " ")
	dash, mid := r.columns(27, 27), r.columns(32, 32)
	switch {
	case strings.HasPrefix(ref, " "):
		return r.fault(21, "a reference begins in column 21")
	case strings.HasPrefix(pin, " "):
		return r.fault(28, "a pin begins in column 28")
	case dash != "-" && dash != " " || (dash == "-") != (pin != ""):
		return r.fault(27, "a dash here goes with a pin behind it")
	case mid != "M" && mid != " ":
		return r.fault(32, "%q is neither M nor blank", mid)
	}
	var ok bool
	if p.Ref, ok = whole(r.refs, ref); !ok {
		return r.fault(21, "%s has not been said to stand for a reference", ref)
	}
	if p.Pin, ok = whole(r.pins, pin); !ok {
		return r.fault(28, "%s has not been said to stand for a pin", pin)
	}
	p.Mid = mid == "M"
	return nil
}

// whole is the name that a field stands for; false when it is an alias of nothing.
func whole(names map[string]string, field string) (string, bool) {
	if !strings.HasPrefix(field, "~") {
		return field, true
	}
	name := names[field]
	return name, name != ""
}

// hole reads columns 33 to 41: diameter, plating and side.
func (r *reader) hole(p *Point) error {
	var ok bool
	if strings.TrimSpace(r.columns(33, 38)) != "" {
		switch p.Hole, ok = digits(r.columns(34, 37)); {
		case r.columns(33, 33) != "D":
			return r.fault(33, "a diameter begins with D")
		case !ok || p.Hole == 0:
			return r.fault(34, "%q is no diameter of four digits", r.columns(34, 37))
		}
		switch r.columns(38, 38) {
		case "P":
			p.Plated = true
		case "U":
		default:
			return r.fault(38, "%q is neither P nor U", r.columns(38, 38))
		}
	}
	if r.columns(39, 39) != "A" {
		return r.fault(39, "the side that is reached begins with A")
	}
	if p.Side, ok = digits(r.columns(40, 41)); !ok {
		return r.fault(40, "%q is no side of two digits", r.columns(40, 41))
	}
	return nil
}

// digits reads a number of nothing but digits.
func digits(s string) (int, bool) {
	if strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}

// place reads what comes behind column 41, by letter: centre, pad, turn and mask. From column 75 on
// anything may stand, such as the number of the record.
func (r *reader) place(p *Point) error {
	c := cursor{reader: r, at: 42}
	var err error
	if p.X, err = c.coordinate("X"); err != nil {
		return err
	}
	if p.Y, err = c.coordinate("Y"); err != nil {
		return err
	}
	var mask int
	var masked bool
	for _, part := range []struct {
		letter string
		width  int
		into   *int
		said   *bool
	}{{"X", 4, &p.Width, new(bool)}, {"Y", 4, &p.Height, new(bool)}, {"R", 3, &p.Turn, new(bool)}, {"S", 1, &mask, &masked}} {
		if *part.into, *part.said, err = c.number(part.letter, part.width); err != nil {
			return err
		}
	}
	if masked {
		if mask > int(MaskBoth-MaskNone) {
			return r.fault(c.at-1, "the mask is 0 to 3")
		}
		p.Mask = MaskNone + Mask(mask)
	}
	if c.blanks(); c.at <= min(len(r.line), 74) {
		return r.fault(c.at, "%q is not known here", r.columns(c.at, c.at))
	}
	return nil
}

// A cursor goes through a line from left to right; at is the column of what comes next.
type cursor struct {
	*reader
	at int
}

func (c *cursor) blanks() {
	for c.at <= len(c.line) && c.columns(c.at, c.at) == " " {
		c.at++
	}
}

// coordinate reads a letter, a sign and six digits.
func (c *cursor) coordinate(letter string) (int, error) {
	c.blanks()
	field := c.columns(c.at, c.at+7)
	n, ok := digits(field[2:])
	if field[:1] != letter || field[1] != '+' && field[1] != '-' || !ok {
		return 0, c.fault(c.at, "%q is no coordinate: %s, a sign and six digits", strings.TrimSpace(field), letter)
	}
	c.at += 8
	if field[1] == '-' {
		n = -n
	}
	return n, nil
}

// number reads a letter and so many digits, if they come next.
func (c *cursor) number(letter string, width int) (n int, said bool, err error) {
	c.blanks()
	if c.at > 74 || c.columns(c.at, c.at) != letter {
		return 0, false, nil
	}
	n, ok := digits(c.columns(c.at+1, c.at+width))
	if !ok {
		return 0, false, c.fault(c.at+1, "%q is no number of %d digits", c.columns(c.at+1, c.at+width), width)
	}
	c.at += 1 + width
	return n, true, nil
}
