package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The main job, from an empty data folder to the files, once with the mouse and once with keys alone.
// Both hands must come to the same bytes.
func TestMainJobByMouseAndByKeyboard(t *testing.T) {
	var made []outcome
	for _, by := range []struct {
		name string
		hand func(*tab) hand
	}{
		{"mouse", func(p *tab) hand { return mouse{p} }},
		{"keyboard", func(p *tab) hand { return keyboard{p} }},
	} {
		t.Run(by.name, func(t *testing.T) {
			p := newTab(t, newDesk(t))
			p.size(1280, 800)
			pointed := p.countPointing()
			made = append(made, mainJob(p, by.hand(p)))
			if n := pointed(); (n == 0) != (by.name == "keyboard") {
				t.Errorf("%d pointer events in the run by %s", n, by.name)
			}
		})
	}
	if len(made) != 2 || t.Failed() {
		return
	}
	if made[0].project != made[1].project {
		t.Errorf("the project files differ:\n%s\n%s", made[0].project, made[1].project)
	}
	for name, data := range made[0].files {
		if made[1].files[name] != data {
			t.Errorf("%s differs", name)
		}
	}
	if len(made[0].files) < 10 || len(made[1].files) != len(made[0].files) {
		t.Errorf("%d and %d outputs, want 10 or more, the same of both", len(made[0].files), len(made[1].files))
	}
}

// An outcome is what the main job leaves.
type outcome struct {
	project string
	files   map[string]string
}

var twelve = []string{"C16", "I16", "O16", "U16", "C21", "I21", "O21", "U21", "C26", "I26", "O26", "U26"}

var twelveLegends = []string{"1", "2", "3", "+", "4", "5", "6", "-", "7", "8", "9", "=>"}

func mainJob(p *tab, h hand) outcome {
	p.Helper()
	p.open("/")
	demos := p.texts(".card-name")
	slices.Sort(demos)
	if want := []string{"Hive notebook", "Lantern run", "Pocket organ"}; !slices.Equal(demos, want) {
		p.Fatalf("the first start shows %q, want %q", demos, want)
	}
	h.write(`form[action="/panels"] input[name="name"]`, "Field counter")
	h.choose(`form[action="/panels"] select`, "120")
	p.turnsPage(func() { h.press(`form[action="/panels"] button`) })

	h.place("oled096-i2c", "128 x 64 i2c", "D4")
	h.turnOver()
	h.place("module40-rp2040-sockets", "rp2040 socket", "AR5")
	h.turnOver()
	h.placeMany("tact6", "tactile 4 leg", twelve)
	h.legends(twelve[0], twelveLegends)
	seePlacement(p)
	chooseMatrix(p, h)
	seePinsAndWires(p, h)
	return carryAway(p, h)
}

func seePlacement(p *tab) {
	p.Helper()
	type placed struct{ Ref, Face, Hole, Legend string }
	got := ask[[]placed](p, `(async () => {
		const { holeName } = await import(document.querySelector('script[type=module]').src.replace('main.js', 'holes.js'));
		return `+facts+`.parts.map((q) => ({ Ref: q.ref, Face: q.face, Hole: holeName({ col: q.at[0], row: q.at[1] }), Legend: q.keys[0]?.legend ?? '' }));
	})()`)
	var want []placed
	for i, hole := range twelve {
		want = append(want, placed{fmt.Sprint("S", i+1), "front", hole, twelveLegends[i]})
	}
	want = append(want, placed{"U1", "front", "D4", ""}, placed{"U2", "back", "AR5", ""})
	if !slices.Equal(got, want) {
		p.Errorf("placed %v, want %v", got, want)
	}
	drawn := p.texts(".part .legend")
	slices.Sort(drawn)
	all := slices.Clone(twelveLegends)
	slices.Sort(all)
	if !slices.Equal(drawn, all) {
		p.Errorf("the caps say %q, want %q", drawn, all)
	}
}

func chooseMatrix(p *tab, h hand) {
	p.Helper()
	p.turnsPage(func() { h.press(`#tabs a[href*="/scan"]`) })
	p.edits(1, func() { h.choose("#scan-style", "m") })
	if rows, columns := p.count(".matrix tbody tr"), p.count(".matrix thead th"); rows*columns < 12 || rows > 4 || columns > 4 {
		p.Errorf("the matrix is %d x %d for 12 keys, want 3 x 4 or 4 x 3", rows, columns)
	}
}

var gpio = regexp.MustCompile(`^GP[0-9]{1,2}$`)

func seePinsAndWires(p *tab, h hand) {
	p.Helper()
	p.turnsPage(func() { h.press(`#tabs a[href*="/wire"]`) })
	pins := map[string]string{}
	for _, row := range ask[[][]string](p, `[...document.querySelectorAll('.pins-table tbody tr')].map((r) => [r.querySelector('th span').textContent, r.dataset.pin])`) {
		pins[row[0]] = row[1]
	}
	used := map[string]string{}
	for _, net := range []string{"row 0", "row 1", "row 2", "column 0", "column 1", "column 2", "display SDA", "display SCL"} {
		if !gpio.MatchString(pins[net]) || used[pins[net]] != "" {
			p.Errorf("%s has the pin %q, also of %q; want a GPIO of its own. All: %v", net, pins[net], used[pins[net]], pins)
		}
		used[pins[net]] = net
	}
	listed := ask[[]string](p, `[...document.querySelectorAll('#wires [data-wire]')].map((r) => r.dataset.wire)`)
	drawn := ask[[]string](p, `[...new Set([...document.querySelectorAll('#board-svg .wire')].map((w) => w.dataset.index))]`)
	if len(listed) < 12 {
		p.Errorf("%d wires listed: %v", len(listed), listed)
	}
	for _, index := range listed {
		if !slices.Contains(drawn, index) {
			p.Errorf("wire %s is listed and not drawn", index)
		}
	}
	if n := p.count("#notes .note.stop"); n != 0 {
		p.Errorf("the plan has %d stops: %q", n, p.texts("#notes .note.stop"))
	}
}

// carryAway exports the panel, deletes it, brings it back, deletes it again, imports the file, and
// exports once more: the same bytes.
func carryAway(p *tab, h hand) outcome {
	p.Helper()
	panel := p.panel()
	archive := p.desk.get(panel + "/files.zip")
	p.turnsPage(func() { h.press(".home") })
	card := `.card-deeds:has([href="` + panel + `/export"])`
	name, first := p.saves(func() { h.press(card + " a") })
	if name != "Field-counter.fascia.json" || !strings.Contains(first, `"name": "Field counter"`) {
		p.Errorf("the file is called %s", name)
	}
	remove := func() { p.turnsPage(func() { h.press(card + ` form[action$="/delete"] button`) }) }
	remove()
	if cards := p.texts(".card-name"); slices.Contains(cards, "Field counter") {
		p.Errorf("deleted, and still listed: %q", cards)
	}
	p.turnsPage(func() { h.press(".bar form button") })
	if p.panel() != panel {
		p.Errorf("undo of the delete shows %s, want %s", p.panel(), panel)
	}
	p.turnsPage(func() { h.press(".home") })
	remove()
	file := filepath.Join(p.TempDir(), name)
	if err := os.WriteFile(file, []byte(first), 0o600); err != nil {
		p.Fatal(err)
	}
	p.fileFor(file, func() { h.press(`input[type="file"]`) })
	p.turnsPage(func() { h.press(`form[action="/import"] button`) })
	again := p.panel()
	if again == panel {
		p.Errorf("the import came back as the deleted panel")
	}
	if got := string(p.desk.get(again + "/files.zip")); got != string(archive) {
		p.Errorf("the plan of the imported panel differs: %d bytes, want the same %d", len(got), len(archive))
	}
	p.turnsPage(func() { h.press(".home") })
	if _, second := p.saves(func() { h.press(`[href="` + again + `/export"]`) }); second != first {
		p.Errorf("exported again the file differs:\n%s\n%s", first, second)
	}
	return outcome{first, unzip(p, archive)}
}

func unzip(p *tab, data []byte) map[string]string {
	p.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		p.Fatal(err)
	}
	files := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			p.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			p.Fatal(err)
		}
		files[f.Name] = string(text)
	}
	return files
}
