package web

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
)

// The largest bodies that are read. A command may carry a part definition; a form only a name.
const (
	maxCommandBytes = 1 << 20
	maxFormBytes    = 16 << 10
	maxNesting      = 32
)

// readJSON reads one JSON value into v. The type application/json is demanded even of an empty body:
// a page of another origin cannot send it without asking first, and the answer to that is no.
func readJSON(w http.ResponseWriter, r *http.Request, v any) error {
	media, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || media != "application/json" {
		return problem{Status: http.StatusUnsupportedMediaType, Text: "This address takes JSON only.",
			Fix: "Send the body as application/json."}
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxCommandBytes))
	if err != nil {
		return badBody(err)
	}
	if depth(body) > maxNesting {
		return badBody(fmt.Errorf("it is nested deeper than %d levels", maxNesting))
	}
	dec := json.NewDecoder(strings.NewReader(string(body)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		return badBody(err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return badBody(errors.New("something follows the JSON value"))
	}
	return nil
}

// badBody keeps the error of a body that is too large and calls any other one unreadable.
func badBody(err error) error {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return err
	}
	return problem{Status: http.StatusBadRequest, Text: "The request could not be read: " + strings.TrimPrefix(err.Error(), "json: ") + ".",
		Fix: "Load the page again and repeat the change."}
}

// depth is how deep brackets nest in a JSON text, those inside strings aside. It is right for valid
// JSON and an upper guess for the rest.
func depth(text []byte) int {
	deepest, now, quoted := 0, 0, false
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case quoted && c == '\\':
			i++
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '[' || c == '{':
			now++
			deepest = max(deepest, now)
		case c == ']' || c == '}':
			now--
		}
	}
	return deepest
}
