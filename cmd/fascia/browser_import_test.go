package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fascia/design/panel"
)

// A file that cannot be a panel is refused on the page, with the place in it that is wrong, and
// leaves nothing behind.
func TestBrokenFilesAreRefused(t *testing.T) {
	good := demoFile(t, "lantern-run")
	tests := []struct {
		name, file string
		says       []string // on the page
	}{
		{"empty", "", []string{"not a project file"}},
		{"words", "Dear Fascia", []string{"not a project file"}},
		{"packed", "PK\x03\x04\x14\x00\x00\x00\x08\x00", []string{"not a project file"}},
		{"cut short", good[:len(good)/2], []string{"not a project file"}},
		{"newer", changed(t, good, `"fascia": 2`, `"fascia": 3`), []string{"/fascia", "version 3"}},
		{"unknown key", changed(t, good, `"notes":`, `"wishes": 1, "notes":`), []string{"/wishes"}},
		{"unknown key in a part", changed(t, good, `"ref": "S1",`, `"ref": "S1", "colour": "red",`), []string{"/placed/", "/colour"}},
		{"no hole", changed(t, good, `"at": "E9"`, `"at": "9E"`), []string{"/placed/", "/at"}},
		{"no part", changed(t, good, `"part": "tact6"`, `"part": "tact7"`), []string{"/placed/", "tact7"}},
		{"a text for a number", changed(t, good, `"columns": 45`, `"columns": "45"`), []string{"/boards/0/columns"}},
		{"a key twice", changed(t, good, `"notes":`, `"name": "other", "notes":`), []string{"/name"}},
		{"deep", changed(t, good, `"notes": ""`, `"notes": `+strings.Repeat("[", 20000)+strings.Repeat("]", 20000)), []string{"not a project file"}},
		{"huge", changed(t, good, `"notes": ""`, `"notes": "`+strings.Repeat("x", panel.MaxFileBytes)+`"`), []string{"larger than"}},
	}
	d := newDesk(t)
	p := newTab(t, d)
	p.expects("status of 422", "status of 413")
	m := mouse{p}
	p.open("/")
	panels := p.count(".card")
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p.T = t
			file := filepath.Join(t.TempDir(), "strange.fascia.json")
			if err := os.WriteFile(file, []byte(tt.file), 0o600); err != nil {
				t.Fatal(err)
			}
			p.open("/")
			p.fileFor(file, func() { m.press(`input[type="file"]`) })
			p.turnsPage(func() { m.press(`form[action="/import"] button`) })
			says := p.text("main")
			for _, words := range tt.says {
				if !strings.Contains(says, words) {
					t.Errorf("the page says %q, want in it %q", says, words)
				}
			}
			p.turnsPage(func() { m.press(`main a[href="/"]`) })
			if now := p.count(".card"); now != panels || p.count(".trash") != 0 {
				t.Errorf("%d panels are listed, want %d as before", now, panels)
			}
		})
	}
	p.T = t
}
