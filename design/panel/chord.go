package panel

import "slices"

// A Chord is keys to be pressed together, by key reference: S1, or S9.up for one contact of several.
// It asks for all of Keys, and of each AnyOf for any Count of its keys. Keys alone is one set; one
// AnyOf is "any three of these"; two of count 1 are "any of these with any of those".
type Chord struct {
	Name string   `json:"name"`
	Keys []string `json:"keys"`
	Any  []AnyOf  `json:"any,omitempty"`
}

// An AnyOf asks for any Count of the keys in Of.
type AnyOf struct {
	Count int      `json:"count"`
	Of    []string `json:"of"`
}

// MaxAny is the most choices of keys that one chord may hold.
const MaxAny = 4

// All lists every key that the chord names, each once, in the order of its first mention.
func (c *Chord) All() []string {
	var all []string
	add := func(keys []string) {
		for _, k := range keys {
			if !slices.Contains(all, k) {
				all = append(all, k)
			}
		}
	}
	add(c.Keys)
	for _, a := range c.Any {
		add(a.Of)
	}
	return all
}

func (c Chord) clone() Chord {
	c.Keys, c.Any = slices.Clone(c.Keys), slices.Clone(c.Any)
	for i := range c.Any {
		c.Any[i].Of = slices.Clone(c.Any[i].Of)
	}
	return c
}

// forget takes keys out of the chord. A choice asks for no more keys than it has left, and one
// without keys goes.
func (c *Chord) forget(gone func(key string) bool) {
	c.Keys = slices.DeleteFunc(c.Keys, gone)
	for i := range c.Any {
		c.Any[i].Of = slices.DeleteFunc(c.Any[i].Of, gone)
		c.Any[i].Count = min(c.Any[i].Count, len(c.Any[i].Of))
	}
	c.Any = slices.DeleteFunc(c.Any, func(a AnyOf) bool { return len(a.Of) == 0 })
	if len(c.Any) == 0 {
		c.Any = nil
	}
}

// rename gives every key another name.
func (c *Chord) rename(to func(key string) string) {
	for i, k := range c.Keys {
		c.Keys[i] = to(k)
	}
	for _, a := range c.Any {
		for i, k := range a.Of {
			a.Of[i] = to(k)
		}
	}
}
