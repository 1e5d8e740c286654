package plan

import (
	"errors"
	"slices"

	"fascia/design/ipc356"
)

// errNetsDiffer says that a netlist was written that does not read as it was meant.
var errNetsDiffer = errors.New("the nets read back are not those of the plan")

// netsIPC writes the nets as IPC-D-356A. What is written is read back before it is given out, since
// nobody looks through such a file.
func (pl *Plan) netsIPC(u ipc356.Units) ([]byte, error) {
	f := ipc356.Of(pl.Panel, &pl.Nets, u)
	text, err := f.Write()
	if err != nil {
		return nil, err
	}
	back, err := ipc356.Parse(text)
	if err != nil {
		return nil, err
	}
	if back.Units != u || !slices.Equal(back.Points, f.Points) {
		return nil, errNetsDiffer
	}
	return text, nil
}
