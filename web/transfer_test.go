package web

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fascia/design/panel"
)

// upload sends a file as the form on the start page does.
func (b *desk) upload(field string, file []byte) *http.Response {
	b.t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile(field, "../../evil"+panel.FileSuffix)
	if err == nil {
		_, err = part.Write(file)
	}
	if err == nil {
		err = form.Close()
	}
	if err != nil {
		b.t.Fatal(err)
	}
	return b.send(http.MethodPost, "/import", body.String(), "Content-Type", form.FormDataContentType())
}

func TestExportAndImportGiveTheSameBytes(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	out := b.get("/panels/" + string(id) + "/export")
	file := text(t, out)
	if kind := out.Header.Get("Content-Type"); out.StatusCode != http.StatusOK || kind != "application/json; charset=utf-8" {
		t.Errorf("export: %d %s", out.StatusCode, kind)
	}
	_, named, err := mime.ParseMediaType(out.Header.Get("Content-Disposition"))
	if err != nil || named["filename"] != "Counter.fascia.json" {
		t.Errorf("export is called %q, %v", named["filename"], err)
	}
	elsewhere := newDesk(t)
	twin := idOf(t, elsewhere.upload("file", []byte(file)))
	if again := text(t, elsewhere.get("/panels/"+string(twin)+"/export")); again != file {
		t.Errorf("after import the file is\n%s\nand was\n%s", again, file)
	}
	want, got := text(t, b.get("/panels/"+string(id)+"/plan.json")), text(t, elsewhere.get("/panels/"+string(twin)+"/plan.json"))
	if got != want || !strings.HasPrefix(got, "{") {
		t.Errorf("after import the plan is another one")
	}
}

func TestImportRefuses(t *testing.T) {
	b := newDesk(t)
	whole, err := panel.Encode(panel.New("Counter"))
	if err != nil {
		t.Fatal(err)
	}
	change := func(old, new string) []byte {
		if !bytes.Contains(whole, []byte(old)) {
			t.Fatalf("no %s in a project file", old)
		}
		return bytes.Replace(whole, []byte(old), []byte(new), 1)
	}
	tests := []struct {
		name   string
		file   []byte
		status int
		says   string
	}{
		{"nothing", nil, 422, "not a project file"},
		{"half a file", whole[:len(whole)/2], 422, "not a project file"},
		{"a newer file", change(`"fascia": 2`, `"fascia": 99`), 422, "/fascia"},
		{"an unknown member", change(`"name": "Counter"`, `"name": "Counter", "colour": "red"`), 422, "/colour"},
		{"an unknown member deep down", change(`"columns": 30`, `"columns": 30, "depth": 2`), 422, "/boards/0/depth"},
		{"a word for a number", change(`"columns": 30`, `"columns": "thirty"`), 422, "/boards/0/columns"},
		{"a board beyond all size", change(`"columns": 30`, `"columns": 1000000000`), 422, "/boards/0"},
		{"a member twice", change(`"columns": 30`, `"columns": 30, "columns": 31`), 422, "columns"},
		{"a name that turns text round", change(`Counter`, `evil\u202Egnp`), 422, "/name"},
		{"a name that is not UTF-8", change(`Counter`, "\xff\xfe"), 422, "UTF-8"},
		{"deep nesting", bytes.Repeat([]byte("["), 10001), 422, "not a project file"},
		{"zip-like bytes", []byte("PK\x03\x04" + strings.Repeat("\x00", 400)), 422, "not a project file"},
		{"a file over 4 MiB", append(whole, bytes.Repeat([]byte(" "), panel.MaxFileBytes)...), 413, "4 MiB"},
		{"a body over all limits", bytes.Repeat([]byte("x"), 2*panel.MaxFileBytes), 413, "4 MiB"},
	}
	for _, tt := range tests {
		resp := b.upload("file", tt.file)
		if got := decoded[problem](t, resp); resp.StatusCode != tt.status || !strings.Contains(got.Text, tt.says) || got.Fix == "" {
			t.Errorf("%s: %d %+v; want %d saying %q", tt.name, resp.StatusCode, got, tt.status, tt.says)
		}
	}
	if resp := b.upload("picture", whole); resp.StatusCode != 400 {
		t.Errorf("a file in another field: %d", resp.StatusCode)
	}
	if resp := b.send(http.MethodPost, "/import", string(whole), "Content-Type", "application/json"); resp.StatusCode != 415 {
		t.Errorf("a file without a form: %d", resp.StatusCode)
	}
	if resp := b.send(http.MethodPost, "/import", "--x\r\nbroken", "Content-Type", "multipart/form-data; boundary=x"); resp.StatusCode != 400 {
		t.Errorf("a broken form: %d", resp.StatusCode)
	}
	if got := b.snapshot(); got != "" {
		t.Errorf("stored: %s", got)
	}
}

// TestScriptInTextsStaysText imports what a stranger could have written into a file.
func TestScriptInTextsStaysText(t *testing.T) {
	b := newDesk(t)
	p := panel.New(`</title><script>alert(1)</script>`)
	p.Notes = `<img src=x onerror=alert(1)> =HYPERLINK("http://evil.example")`
	file, err := panel.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	id := idOf(t, b.upload("file", file))
	for _, name := range []string{"front.svg", "back.svg"} {
		resp := b.get("/panels/" + string(id) + "/files/" + name)
		if body := text(t, resp); resp.StatusCode != http.StatusOK || strings.Contains(body, "<script") {
			t.Errorf("%s: %d %s", name, resp.StatusCode, body)
		}
	}
}

func TestDownloadsAreSavedAndNeverShown(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	for path, kind := range map[string]string{
		"/export": "application/json", "/files.zip": "application/zip", "/files/wiring.csv": "text/csv", "/files/front.svg": "image/svg+xml",
		"/files/keymap.json": "application/json", "/files/plan.json": "application/json",
	} {
		resp := b.get("/panels/" + string(id) + path)
		got, _, err := mime.ParseMediaType(resp.Header.Get("Content-Type"))
		if resp.StatusCode != http.StatusOK || err != nil || got != kind {
			t.Errorf("%s: %d %s, %v", path, resp.StatusCode, got, err)
		}
		how, _, err := mime.ParseMediaType(resp.Header.Get("Content-Disposition"))
		if err != nil || how != "attachment" || resp.Header.Get("Content-Security-Policy") != downloadPolicy {
			t.Errorf("%s: %s, %v under %s", path, how, err, resp.Header.Get("Content-Security-Policy"))
		}
	}
	for _, path := range []string{"/files/", "/files/nothing.csv", "/files/../export", "/files/%2e%2e%2fexport", "/files/wiring.csv/", "/files/WIRING.CSV"} {
		if resp := b.get("/panels/" + string(id) + path); resp.StatusCode != http.StatusNotFound || resp.Header.Get("Content-Disposition") != "" {
			t.Errorf("%s: %d", path, resp.StatusCode)
		}
	}
}

func TestArchiveHoldsEveryOutput(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	data := text(t, b.get("/panels/"+string(id)+"/files.zip"))
	if again := text(t, b.get("/panels/"+string(id)+"/files.zip")); again != data {
		t.Error("the same plan gave another archive")
	}
	z, err := zip.NewReader(strings.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, f := range z.File {
		names[f.Name] = true
		if !filepath.IsLocal(f.Name) || !f.Modified.Equal(archiveTime) {
			t.Errorf("%s of %v", f.Name, f.Modified)
		}
		inside, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(inside)
		if err != nil {
			t.Fatal(err)
		}
		if alone := text(t, b.get("/panels/"+string(id)+"/files/"+f.Name)); alone != string(body) {
			t.Errorf("%s differs between archive and download", f.Name)
		}
	}
	for _, name := range []string{"plan.json", "findings.csv", "scan.csv", "pins.csv", "nets.csv", "nets.ipc", "nets-mm.ipc", "wiring.csv", "bom.csv", "keymap.json", "front.svg", "back.svg"} {
		if !names[name] {
			t.Errorf("%s is missing", name)
		}
	}
}

func TestPartsListCountsTheStock(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	if resp := b.postJSON("/parts/tact6/stock", `{"have":25}`); resp.StatusCode != http.StatusOK {
		t.Fatal(resp.Status)
	}
	rows, err := csv.NewReader(b.get("/panels/" + string(id) + "/files/bom.csv").Body).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		if row[4] == "S1" {
			if row[6] != "25" || row[7] != "0" {
				t.Errorf("have %s, need %s of %v", row[6], row[7], row)
			}
			return
		}
	}
	t.Errorf("no line for S1 in %v", rows)
}

func TestFileName(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"plain", "Counter", "Counter"},
		{"spaces and signs", " Two-key  counter! ", "Two-key-counter"},
		{"another script", "Пчёлы 2", "Пчёлы-2"},
		{"a path", "../../etc/passwd", "etc-passwd"},
		{"a drive", `C:\con`, "C-con"},
		{"quotes and line ends", "a\"\r\nSet-Cookie: x", "a-Set-Cookie-x"},
		{"nothing usable", "***", "panel"},
		{"empty", "", "panel"},
		{"a device", "CON", "CON-panel"},
		{"another device", "lpt1", "lpt1-panel"},
		{"long", strings.Repeat("n", 100), strings.Repeat("n", 60)},
	}
	for _, tt := range tests {
		if got := fileName(tt.in); got != tt.want {
			t.Errorf("%s: fileName(%q) = %q, want %q", tt.name, tt.in, got, tt.want)
		}
	}
}

// TestFileNamesFitAHeader holds any name to RFC 6266: the header reads back as the name, on one line.
func TestFileNamesFitAHeader(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := fileName(rapid.String().Draw(t, "name")) + panel.FileSuffix
		header := mime.FormatMediaType("attachment", map[string]string{"filename": name})
		how, named, err := mime.ParseMediaType(header)
		if err != nil || how != "attachment" || named["filename"] != name {
			t.Fatalf("%q became %q and read back as %q, %v", name, header, named["filename"], err)
		}
		if strings.ContainsAny(header, "\r\n\x00") || strings.ContainsAny(name, `/\:*?"<>|`) || strings.HasPrefix(name, ".") {
			t.Fatalf("%q in %q", name, header)
		}
	})
}

func TestPlanNamesItsRevision(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	resp := b.get("/panels/" + string(id) + "/plan.json")
	if got := resp.Header.Get("Panel-Revision"); got != fmt.Sprint(1) || resp.Header.Get("Content-Disposition") != "" {
		t.Errorf("revision %q, %q", got, resp.Header.Get("Content-Disposition"))
	}
}
