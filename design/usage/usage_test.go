package usage

import "testing"

// USB-IF, HID Usage Tables for USB: Keyboard/Keypad page (section 10), Consumer, Generic Desktop
// and Button pages.
func TestNamed(t *testing.T) {
	for code, want := range map[string]string{
		"07:04": "a and A", "07:1D": "z and Z", "07:1E": "1 and !", "07:27": "0 and )",
		"07:28": "Return (ENTER)", "07:29": "ESCAPE", "07:2A": "DELETE (Backspace)", "07:2C": "Spacebar",
		"07:31": `\ and |`, "07:36": ", and <", "07:3A": "F1", "07:45": "F12", "07:4F": "RightArrow", "07:50": "LeftArrow",
		"07:51": "DownArrow", "07:52": "UpArrow", "07:57": "Keypad +", "07:59": "Keypad 1 and End",
		"07:64": `Non-US \ and |`, "07:65": "Application", "07:E0": "LeftControl", "07:E7": "Right GUI",
		"01:92": "D-pad Right", "01:93": "D-pad Left", "01:3D": "Start", "09:01": "Button 1", "09:40": "Button 64",
		"0C:CD": "Play/Pause", "0C:0192": "AL Calculator",
	} {
		u, ok := Named(code)
		if !ok || u.Name != want || u.Code() != code {
			t.Errorf("Named(%q) = %+v, %v; want %q", code, u, ok, want)
		}
	}
	for _, code := range []string{"", "07", "07:00", "07:01", "07:03", "07:E8", "7:04", "07:004", "09:00", "0x07:04", "ZZ:04"} {
		if u, ok := Named(code); ok {
			t.Errorf("Named(%q) = %+v; want none", code, u)
		}
	}
}

// The keyboard page has no gap from 04 to 65: 98 usages, the size of a bitmap report.
func TestKeyboardPageIsWhole(t *testing.T) {
	seen := map[int]bool{}
	for _, u := range All() {
		if u.Page == 0x07 && u.ID >= 0x04 && u.ID <= 0x65 {
			if seen[u.ID] || u.Name == "" {
				t.Errorf("usage %s stands twice or has no name", u.Code())
			}
			seen[u.ID] = true
		}
	}
	if len(seen) != 98 {
		t.Errorf("%d usages from 04 to 65, want 98", len(seen))
	}
}

func TestSuggest(t *testing.T) {
	for legend, want := range map[string]string{"a": "07:04", " Z ": "07:1D", "Enter": "07:28", "↑": "07:52", "0": "07:27"} {
		if u, ok := Suggest(legend); !ok || u.Code() != want {
			t.Errorf("Suggest(%q) = %s, %v; want %s", legend, u.Code(), ok, want)
		}
	}
	if u, ok := Suggest("Frames"); ok {
		t.Errorf("Suggest(Frames) = %s; want none", u.Code())
	}
}

func FuzzParse(f *testing.F) {
	f.Add("07:57")
	f.Add("0C:0192")
	f.Fuzz(func(t *testing.T, code string) {
		page, id, err := Parse(code)
		if err != nil {
			return
		}
		if p, i, err := Parse(Usage{Page: page, ID: id}.Code()); err != nil || p != page || i != id {
			t.Fatalf("%q became %02X:%02X, %v", code, p, i, err)
		}
	})
}
