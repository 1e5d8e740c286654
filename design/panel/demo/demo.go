// Package demo holds the panels that come with the program: scenarios of our own that fit, plan
// without a stop and can be built. They are made of edits on the built-in catalogue, so that they
// keep up with it.
package demo

import (
	"fmt"
	"sync"

	"fascia/design/grid"
	"fascia/design/panel"
)

// A Demo is one panel and what it shows.
type Demo struct {
	ID    string // its name on the command line
	Says  string
	Panel panel.Panel
}

// All returns the demos, made once. Callers must not change them.
var All = sync.OnceValue(func() []Demo {
	return []Demo{hive(), lantern(), organ()}
})

// A layout is a panel being laid out. An edit that is refused is a mistake in this package.
type layout struct{ panel panel.Panel }

func layOut(name string, boards ...panel.Board) *layout {
	l := &layout{panel.New(name)}
	for _, b := range boards {
		l.do(&panel.SetBoard{Board: b})
	}
	return l
}

func (l *layout) do(e panel.Edit) {
	after, _, err := panel.Apply(l.panel, e)
	if err != nil {
		panic(fmt.Sprintf("demo %s: %v", l.panel.Name, err))
	}
	l.panel = after
}

// put places a part by the hole of its first terminal.
func (l *layout) put(ref, id, hole string, turn grid.Turn, face grid.Face) {
	l.do(&panel.Place{Placed: panel.Placed{Ref: ref, Part: id, At: grid.MustHole(hole), Turn: turn, Face: face}})
}

// valued places a part that has a value.
func (l *layout) valued(ref, id, hole string, turn grid.Turn, value string) {
	l.do(&panel.Place{Placed: panel.Placed{Ref: ref, Part: id, At: grid.MustHole(hole), Turn: turn, Value: value}})
}

// key places a switch on the front with its legend and usage.
func (l *layout) key(ref, id string, at grid.Hole, k panel.Key) {
	l.do(&panel.Place{Placed: panel.Placed{Ref: ref, Part: id, At: at, Key: &k}})
}

// chord declares keys that are pressed together.
func (l *layout) chord(name string, keys ...string) {
	l.do(&panel.SetChord{Name: name, Keys: keys})
}
