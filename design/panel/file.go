package panel

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	jsonv2 "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// MaxFileBytes is the largest project file that Decode reads.
const MaxFileBytes = 4 << 20

// FileSuffix ends the name of every project file.
const FileSuffix = ".fascia.json"

// A FileError is the first thing wrong with a project file. Pointer is a JSON Pointer (RFC 6901) to
// the place; the empty pointer is the whole file.
type FileError struct{ Pointer, Text string }

// Error says where and what.
func (e *FileError) Error() string {
	if e.Pointer == "" {
		return e.Text
	}
	return e.Pointer + ": " + e.Text
}

func fault(pointer, format string, args ...any) *FileError {
	return &FileError{pointer, fmt.Sprintf(format, args...)}
}

// Encode writes p as a project file: UTF-8, keys in fixed order, two-space indent, newline at the
// end. Equal panels give equal bytes.
func Encode(p Panel) ([]byte, error) {
	c := p.Clone()
	c.Version = FormatVersion
	c.Tidy()
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(c); err != nil {
		return nil, fmt.Errorf("encode panel %q: %w", p.Name, err)
	}
	return out.Bytes(), nil
}

// Decode reads a project file. It refuses, with a *FileError: files over MaxFileBytes, anything
// that is not one JSON object in UTF-8, repeated or unknown members, newer versions, and panels
// that are not valid.
func Decode(text []byte) (Panel, error) {
	if len(text) > MaxFileBytes {
		return Panel{}, fault("", "the file is larger than %d MiB", MaxFileBytes>>20)
	}
	text = bytes.TrimPrefix(text, []byte("\uFEFF")) // a byte-order mark that editors add
	if !utf8.Valid(text) {
		return Panel{}, fault("", "the file is not UTF-8 text")
	}
	if err := rightVersion(text); err != nil {
		return Panel{}, err
	}
	var p Panel
	if err := jsonv2.Unmarshal(text, &p, jsonv2.RejectUnknownMembers(true)); err != nil {
		return Panel{}, fileError(err)
	}
	p.Version = FormatVersion // older files hold nothing that has to be changed
	p.Tidy()
	if err := p.Validate(); err != nil {
		return Panel{}, err
	}
	return p, nil
}

// rightVersion looks at the member fascia alone, so that a newer file is called newer and not
// wrong.
func rightVersion(text []byte) error {
	var head struct {
		Version *jsontext.Value `json:"fascia"`
	}
	if err := jsonv2.Unmarshal(text, &head); err != nil {
		return fileError(err)
	}
	if head.Version == nil {
		return fault("", "this is not a project file of Fascia: the member \"fascia\" is missing")
	}
	var version int
	if err := jsonv2.Unmarshal(*head.Version, &version); err != nil || version < 1 {
		return fault("/fascia", "must be a whole number from 1")
	}
	if version > FormatVersion {
		return fault("/fascia", "the file has version %d, this program reads up to %d; use a newer Fascia", version, FormatVersion)
	}
	return nil
}

// fileError turns a decoder's error into place and plain words.
func fileError(err error) *FileError {
	var semantic *jsonv2.SemanticError
	var syntactic *jsontext.SyntacticError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return fault("", "the file ends in the middle")
	case errors.As(err, &semantic):
		return fault(string(semantic.JSONPointer), "%s", plain(err))
	case errors.As(err, &syntactic):
		return fault(string(syntactic.JSONPointer), "%s (byte %d)", plain(err), syntactic.ByteOffset)
	}
	return fault("", "%s", plain(err))
}

// plain says what a JSON decoder found in words for a maker.
func plain(err error) string {
	var semantic *jsonv2.SemanticError
	var syntactic *jsontext.SyntacticError
	switch {
	case errors.Is(err, jsonv2.ErrUnknownName):
		return "this member is not known"
	case errors.Is(err, jsontext.ErrDuplicateName):
		return "this member stands twice"
	case errors.As(err, &semantic) && semantic.Err != nil:
		return semantic.Err.Error()
	case errors.As(err, &semantic):
		return fmt.Sprintf("a JSON %s does not belong here", kindName(semantic.JSONKind))
	case errors.As(err, &syntactic) && syntactic.Err != nil:
		return "not JSON: " + syntactic.Err.Error()
	}
	return strings.TrimPrefix(err.Error(), "jsontext: ")
}

func kindName(k jsontext.Kind) string {
	if k == 0 {
		return "value"
	}
	return k.String()
}
