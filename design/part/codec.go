package part

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	jsonv2 "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// Decode reads and validates one definition. What is wrong with it comes back as a Fault. Unknown
// and repeated members, lists of the wrong length and anything after the definition are refused.
func Decode(text []byte) (Definition, error) {
	var d Definition
	if err := jsonv2.Unmarshal(text, &d, jsonv2.RejectUnknownMembers(true)); err != nil {
		return Definition{}, decodeFault(err)
	}
	d.Tidy()
	if err := d.Validate(); err != nil {
		return Definition{}, err
	}
	return d, nil
}

// Encode writes d as a definition's file: keys in fixed order, two-space indent, newline at the
// end. Equal definitions give equal bytes.
func Encode(d Definition) ([]byte, error) {
	d.Tidy()
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(d); err != nil {
		return nil, fmt.Errorf("encode part %q: %w", d.Name, err)
	}
	return out.Bytes(), nil
}

// decodeFault says where a decoder stopped, in words for a maker.
func decodeFault(err error) Fault {
	var semantic *jsonv2.SemanticError
	var syntactic *jsontext.SyntacticError
	switch {
	case errors.Is(err, jsonv2.ErrUnknownName) && errors.As(err, &semantic):
		return Fault{string(semantic.JSONPointer), "this member is not known"}
	case errors.Is(err, jsontext.ErrDuplicateName) && errors.As(err, &syntactic):
		return Fault{string(syntactic.JSONPointer), "this member stands twice"}
	case errors.As(err, &semantic) && semantic.Err != nil:
		return Fault{string(semantic.JSONPointer), semantic.Err.Error()}
	case errors.As(err, &semantic):
		return Fault{string(semantic.JSONPointer), fmt.Sprintf("a JSON %s does not belong here", semantic.JSONKind)}
	case errors.As(err, &syntactic) && syntactic.Err != nil:
		return Fault{string(syntactic.JSONPointer), "not JSON: " + syntactic.Err.Error()}
	}
	return Fault{"", "not JSON: " + err.Error()}
}

// Tidy makes the lists that a project file always writes present, so that equal definitions have
// equal bytes.
func (d *Definition) Tidy() {
	if d.Joined == nil {
		d.Joined = [][]string{}
	}
	if d.Bodies == nil {
		d.Bodies = []Body{}
	}
	if d.Needs == nil {
		d.Needs = []Need{}
	}
	if d.Sources == nil {
		d.Sources = []Source{}
	}
}
