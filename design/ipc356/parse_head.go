package ipc356

import (
	"strconv"
	"strings"
)

// parameter reads a P record.
func (r *reader) parameter() error {
	word, rest, _ := strings.Cut(strings.TrimRight(r.columns(4, 80), " "), " ")
	value := strings.TrimLeft(rest, " ")
	column := 4 + len(word) + 1 + len(rest) - len(value)
	switch {
	case r.columns(2, 3) != "  ":
		return r.fault(2, "a parameter begins in column 4")
	case netAlias.MatchString(word):
		return r.netName(word, value)
	case r.said["IMAGE"]:
		return r.fault(4, "%s comes after P  IMAGE PRIMARY", word)
	case r.said[word]:
		return r.fault(4, "%s stands twice", word)
	case !r.said["JOB"] && word != "JOB":
		return r.fault(4, "JOB is the first parameter")
	case len(value) > mostValue:
		return r.fault(column, "a value has %d characters at most", mostValue)
	}
	r.said[word] = true
	f := r.file
	switch word {
	case "JOB":
		f.Job = value
	case "CODE":
		f.Code = value
	case "TITLE":
		f.Title = value
	case "NUM":
		f.Number = value
	case "REV":
		f.Revision = value
	case "UNITS":
		return r.units(column, value)
	case "VER":
		if value != version {
			return r.fault(column, "version %q is not read: %s is", value, version)
		}
	case "IMAGE":
		return r.complete(column, value)
	default:
		return r.fault(4, "parameter %q is not known", word)
	}
	return nil
}

// units accepts what all readers take alike. CUST 2 is inches, tenths of a micrometre or hundredths
// of a mil, as one reads it.
func (r *reader) units(column int, value string) error {
	switch value {
	case "CUST", "CUST 0":
		r.file.Units = TenThousandthInch
	case "CUST 1", "SI":
		r.file.Units = Micrometre
	default:
		return r.fault(column, "units %q are not read, since readers disagree: write CUST 0 or CUST 1", value)
	}
	return nil
}

func (r *reader) complete(column int, value string) error {
	if value != "PRIMARY" {
		return r.fault(column, "image %q is not read: PRIMARY is", value)
	}
	for _, word := range []string{"UNITS", "VER"} {
		if !r.said[word] {
			return r.fault(4, "%s must come before the image", word)
		}
	}
	return nil
}

// netName reads an NNAME.
func (r *reader) netName(key, name string) error {
	switch {
	case !r.said["IMAGE"]:
		return r.fault(4, "%s comes before P  IMAGE PRIMARY", key)
	case r.nets[key] != "":
		return r.fault(4, "%s stands twice", key)
	case name == "":
		return r.fault(4, "%s stands for no name", key)
	}
	r.nets[key] = name
	return nil
}

// alias reads a comment that tells a whole name. open is the key of the line before, if that was such
// a comment too: the same key goes on with its name.
func (r *reader) alias(open string) error {
	if r.columns(2, 3) != "  " {
		return r.fault(2, "a comment begins in column 4")
	}
	if len(r.file.Points) > 0 {
		return r.fault(4, "an alias comes before the first test record")
	}
	key, quoted, ok := strings.Cut(r.columns(10, 80), " = ")
	quoted = strings.TrimRight(quoted, " ")
	column := 10 + len(key) + len(" = ")
	if !ok || !strings.HasPrefix(quoted, `"`) {
		return r.fault(10, `an alias reads: ALIAS PIN ~1 = "name"`)
	}
	name, err := strconv.Unquote(quoted)
	if err != nil {
		return r.fault(column, "%s is no text in quotes", quoted)
	}
	names, field := r.nets, key
	what, short, _ := strings.Cut(key, " ")
	switch {
	case what == "REF" && isPlain(short, refWidth) && short[0] == '~':
		names, field = r.refs, short
	case what == "PIN" && isPlain(short, pinWidth) && short[0] == '~':
		names, field = r.pins, short
	case !netAlias.MatchString(key) || r.nets[key] == "":
		return r.fault(10, "%q is no alias that could stand for a name", key)
	}
	switch {
	case open == key:
		name = names[field] + name
	case r.said[key]:
		return r.fault(10, "the alias %s stands twice", key)
	}
	if name == "" {
		return r.fault(column, "%s stands for no name", key)
	}
	r.said[key] = true
	r.open = key
	names[field] = name
	return nil
}
