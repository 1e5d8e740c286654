// Package usage holds the USB HID usages that a key may mean, by page and id, with the names of the
// USB-IF tables. It knows nothing of panels.
package usage

import (
	"fmt"
	"strconv"
	"strings"
)

// A Usage is one entry of the USB HID usage tables: a page and an id.
type Usage struct {
	Page, ID int
	Name     string
}

// Code writes the usage as project files do: page and id in hexadecimal, such as 07:57.
func (u Usage) Code() string {
	if u.ID > 0xFF {
		return fmt.Sprintf("%02X:%04X", u.Page, u.ID)
	}
	return fmt.Sprintf("%02X:%02X", u.Page, u.ID)
}

// Parse reads page:id. Whether the pair has a name in the tables is another question.
func Parse(code string) (page, id int, err error) {
	a, b, ok := strings.Cut(code, ":")
	if ok && len(a) == 2 && (len(b) == 2 || len(b) == 4) {
		p, errP := strconv.ParseUint(a, 16, 16)
		i, errI := strconv.ParseUint(b, 16, 16)
		if errP == nil && errI == nil {
			return int(p), int(i), nil
		}
	}
	return 0, 0, fmt.Errorf("usage %q: write page and id in hexadecimal, such as 07:57", code)
}

// Named returns the table's entry for code; false when the code is malformed, or the tables
// carried here give it no name.
func Named(code string) (Usage, bool) {
	page, id, err := Parse(code)
	if err != nil {
		return Usage{}, false
	}
	for _, u := range All() {
		if u.Page == page && u.ID == id {
			return u, true
		}
	}
	if page == 0x09 && id >= 1 {
		return Usage{page, id, fmt.Sprintf("Button %d", id)}, true
	}
	return Usage{}, false
}

// Suggest returns the usage that a legend most plainly means, such as 07:04 for A; false when
// there is no plain one. Keypad keys are meant only when the legend says so.
func Suggest(legend string) (Usage, bool) {
	want := strings.ToLower(strings.TrimSpace(legend))
	if id, ok := plainLegends[want]; ok {
		return Named(fmt.Sprintf("07:%02X", id))
	}
	if len(want) == 1 && want[0] >= 'a' && want[0] <= 'z' {
		return Named(fmt.Sprintf("07:%02X", 0x04+want[0]-'a'))
	}
	return Usage{}, false
}

// plainLegends maps what makers print on caps to ids of the keyboard page.
var plainLegends = map[string]int{
	"1": 0x1E, "2": 0x1F, "3": 0x20, "4": 0x21, "5": 0x22, "6": 0x23, "7": 0x24, "8": 0x25, "9": 0x26, "0": 0x27,
	"enter": 0x28, "return": 0x28, "ok": 0x28, "esc": 0x29, "escape": 0x29, "back": 0x29, "backspace": 0x2A,
	"tab": 0x2B, "space": 0x2C, "delete": 0x4C, "home": 0x4A, "end": 0x4D, "menu": 0x65,
	"up": 0x52, "down": 0x51, "left": 0x50, "right": 0x4F, "↑": 0x52, "↓": 0x51, "←": 0x50, "→": 0x4F,
	"+": 0x57, "-": 0x56, "*": 0x55, "/": 0x54,
	"f1": 0x3A, "f2": 0x3B, "f3": 0x3C, "f4": 0x3D, "f5": 0x3E, "f6": 0x3F,
	"f7": 0x40, "f8": 0x41, "f9": 0x42, "f10": 0x43, "f11": 0x44, "f12": 0x45,
}
