package panel

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	jsonv2 "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// ErrRefused is wrapped by every error of Apply that the maker can mend: the panel stays as it was.
var ErrRefused = errors.New("refused")

// An Edit is one named change of a panel. Edits travel as JSON objects whose member "do" names
// them; the history of edits is what undo works on.
type Edit interface {
	// Do is the edit's name, such as place.
	Do() string
	// Label says in a few words what the edit does, for the undo button: "Move S1, S2".
	Label() string
	// apply changes p, which is a copy of its own; on an error p may be half changed.
	apply(p *Panel) error
}

// edits makes an empty edit for each name.
var edits = map[string]func() Edit{
	"place": func() Edit { return &Place{} }, "remove": func() Edit { return &Remove{} },
	"move": func() Edit { return &Move{} }, "turn": func() Edit { return &TurnParts{} },
	"flip": func() Edit { return &Flip{} }, "duplicate": func() Edit { return &Duplicate{} },
	"value": func() Edit { return &SetValue{} }, "address": func() Edit { return &SetAddress{} },
	"renumber": func() Edit { return &Renumber{} }, "define": func() Edit { return &Define{} },
	"legend": func() Edit { return &SetLegend{} }, "usage": func() Edit { return &SetUsage{} },
	"direct": func() Edit { return &SetDirect{} }, "unkey": func() Edit { return &Unkey{} },
	"rename": func() Edit { return &Rename{} }, "note": func() Edit { return &SetNotes{} },
	"board": func() Edit { return &SetBoard{} }, "remove-board": func() Edit { return &RemoveBoard{} },
	"scan": func() Edit { return &SetScan{} }, "chord": func() Edit { return &SetChord{} },
	"remove-chord": func() Edit { return &RemoveChord{} }, "lock-pin": func() Edit { return &LockPin{} },
	"keep-free": func() Edit { return &KeepFree{} }, "join": func() Edit { return &SetJoin{} },
	"remove-join": func() Edit { return &RemoveJoin{} }, "keep-out": func() Edit { return &KeepOut{} },
	"prefer": func() Edit { return &Prefer{} }, "wire": func() Edit { return &LockWire{} },
	"unlock-wire": func() Edit { return &UnlockWire{} }, "wiring": func() Edit { return &SetWiring{} },
	"net":      func() Edit { return &SetNet{} },
	"together": func() Edit { return &Together{} }, "restore": func() Edit { return &Restore{} },
}

// Apply returns the panel after e and the edit that takes e back: Apply of the inverse on after
// gives a panel equal to p. p is unchanged. When e cannot be done, or would leave a panel that is
// not valid, the error wraps ErrRefused and says why.
func Apply(p Panel, e Edit) (after Panel, inverse Edit, err error) {
	after = p.Clone()
	if err := e.apply(&after); err != nil {
		return p, nil, err
	}
	after.Tidy()
	if err := after.Validate(); err != nil {
		return p, nil, refuse("%s: %s", e.Label(), err)
	}
	return after, between(after, p, e.Label()), nil
}

// DecodeEdit reads an edit from its JSON object. Unknown names and members are refused.
func DecodeEdit(text []byte) (Edit, error) {
	var head struct {
		Do string `json:"do"`
	}
	if err := jsonv2.Unmarshal(text, &head); err != nil {
		return nil, refuse("edit is not a JSON object: %s", plain(err))
	}
	make, ok := edits[head.Do]
	if !ok {
		return nil, refuse("no edit is called %q", head.Do)
	}
	rest, err := withoutDo(text)
	if err != nil {
		return nil, refuse("%s: %s", head.Do, plain(err))
	}
	e := make()
	if err := jsonv2.Unmarshal(rest, e, jsonv2.RejectUnknownMembers(true)); err != nil {
		return nil, refuse("%s: %s", head.Do, plain(err))
	}
	return e, nil
}

// EncodeEdit writes e as DecodeEdit reads it.
func EncodeEdit(e Edit) ([]byte, error) {
	body, err := json.Marshal(e)
	if err != nil {
		return nil, fmt.Errorf("encode edit %s: %w", e.Do(), err)
	}
	name, err := json.Marshal(e.Do())
	if err != nil {
		return nil, fmt.Errorf("encode edit %s: %w", e.Do(), err)
	}
	var out bytes.Buffer
	out.WriteString(`{"do":`)
	out.Write(name)
	if rest := bytes.TrimPrefix(body, []byte("{")); !bytes.Equal(rest, []byte("}")) {
		out.WriteByte(',')
		out.Write(rest)
	} else {
		out.WriteByte('}')
	}
	return out.Bytes(), nil
}

// withoutDo returns the object without its member "do".
func withoutDo(text []byte) ([]byte, error) {
	var members map[string]jsontext.Value
	if err := jsonv2.Unmarshal(text, &members); err != nil {
		return nil, err
	}
	delete(members, "do")
	return jsonv2.Marshal(members, jsonv2.Deterministic(true))
}

// Together applies several edits as one: all or none, one step of undo.
type Together struct {
	What  string           `json:"label"`
	Edits []jsontext.Value `json:"edits"`
}

// Do is the edit's name.
func (e *Together) Do() string { return "together" }

// Label is the label that the sender gave.
func (e *Together) Label() string { return e.What }

// MaxTogether is the most edits that one Together may hold.
const MaxTogether = 500

func (e *Together) apply(p *Panel) error {
	if len(e.Edits) > MaxTogether {
		return refuse("%d edits at once are more than %d", len(e.Edits), MaxTogether)
	}
	for _, text := range e.Edits {
		one, err := DecodeEdit(text)
		if err != nil {
			return err
		}
		if _, nested := one.(*Together); nested {
			return refuse("edits taken together cannot hold others taken together")
		}
		if err := one.apply(p); err != nil {
			return err
		}
		p.Tidy()
	}
	return nil
}

func refuse(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrRefused, fmt.Sprintf(format, args...))
}

// Reason is what an error of Apply or DecodeEdit says to the maker, without the wrapping.
func Reason(err error) string {
	text := err.Error()
	if _, reason, wrapped := strings.Cut(text, ErrRefused.Error()+": "); wrapped {
		return reason
	}
	return text
}
