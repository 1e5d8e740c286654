// Package keymap says what each key means once pressed: its place, its code, its legend and its
// USB HID usage.
package keymap

// A Map is the file keymap.json. Where lines both select and read, rows and columns are their number.
type Map struct {
	Rows    int     `json:"rows"`
	Columns int     `json:"columns"`
	Layers  []Layer `json:"layers"`
	Keys    []Key   `json:"keys"`
}

// A Layer gives each code its legend.
type Layer struct {
	Name    string   `json:"name"`
	Legends []string `json:"legends"` // by code; "" where no key has the code
}

// A Key is one entry. A key of a matrix or of lines has row and column, a direct key has gpio, and
// one on an expander has the line of that.
type Key struct {
	Ref       string `json:"ref"`
	Legend    string `json:"legend"`
	Row       *int   `json:"row,omitempty"`
	Column    *int   `json:"column,omitempty"`
	GPIO      string `json:"gpio,omitempty"`
	Expander  string `json:"expander,omitempty"` // ref.terminal, such as U3.GPA0
	Code      int    `json:"code"`
	Usage     string `json:"usage"`
	UsageName string `json:"usage_name,omitempty"`
}
