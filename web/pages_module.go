package web

import (
	"bytes"
	"fmt"

	"github.com/a-h/templ"

	"fascia/design/sheet"
)

// drawnModule is the module with the name of what each pin does outside its edge.
func drawnModule(v *visit) (templ.Component, error) {
	var out bytes.Buffer
	if err := sheet.Module(&out, v.plan.Drawing()); err != nil {
		return nil, fmt.Errorf("draw module: %w", err)
	}
	return asIs(out.Bytes()), nil
}
