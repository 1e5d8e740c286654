package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// These make the test binary serve instead of testing, as a process that can be killed.
const (
	serveHere = "FASCIA_TEST_DATA"
	serveAt   = "FASCIA_TEST_ADDRESS"
)

// A desk is a running Fascia with a data folder of its own.
type desk struct {
	*testing.T
	url  string
	data string
	stop func()
}

// newDesk starts the program in this process on an empty data folder.
func newDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{T: t, data: filepath.Join(t.TempDir(), "data")}
	d.start("127.0.0.1:0")
	t.Cleanup(func() { d.stop() })
	return d
}

// start runs the program on the desk's data folder until stop.
func (d *desk) start(addr string) {
	d.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	read, write := io.Pipe()
	var said bytes.Buffer
	ended := make(chan int, 1)
	go func() {
		ended <- run(ctx, []string{"serve", "--addr", addr, "--data", d.data}, streams{strings.NewReader(""), write, &said})
		_ = write.Close() // of a pipe: never fails
	}()
	d.readURL(read)
	d.stop = func() {
		cancel()
		code := <-ended
		if code != exitGood || strings.Contains(said.String(), "level=ERROR") {
			d.Errorf("the server ended with %d and said %s", code, said.String())
		}
		d.stop = func() {}
	}
}

// startApart runs the program in a process of its own, whose stop is a kill.
func (d *desk) startApart(addr string) {
	d.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), serveHere+"="+d.data, serveAt+"="+addr)
	out, err := child.StdoutPipe()
	var in io.Closer
	if err == nil {
		in, err = child.StdinPipe()
	}
	if err == nil {
		err = child.Start()
	}
	if err != nil {
		d.Fatal(err)
	}
	d.readURL(out)
	d.stop = func() {
		if err := child.Process.Kill(); err != nil {
			d.Error(err)
		}
		_ = in.Close()   // nobody reads it any more
		_ = child.Wait() // says that it was killed
		d.stop = func() {}
	}
}

// readURL waits for the line that tells the address.
func (d *desk) readURL(out io.Reader) {
	d.Helper()
	lines := bufio.NewScanner(out)
	if !lines.Scan() || !strings.HasPrefix(lines.Text(), "Fascia is at http://127.0.0.1:") {
		d.Fatalf("the server said %q instead of its address", lines.Text())
	}
	d.url = strings.TrimPrefix(lines.Text(), "Fascia is at ")
	go func() {
		for lines.Scan() { // the pipe must not fill up
		}
	}()
}

func (d *desk) addr() string { return strings.TrimPrefix(d.url, "http://") }

// get reads an address beside the browser.
func (d *desk) get(path string) []byte {
	d.Helper()
	answer, err := http.Get(d.url + path)
	if err != nil {
		d.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		d.Fatalf("GET %s: %s, %v", path, answer.Status, err)
	}
	return body
}

// file is the panel's project file, read beside the browser.
func (d *desk) file(panel string) string { return string(d.get(panel + "/export")) }

// bring imports a project file beside the browser, and returns the panel's address.
func (d *desk) bring(text string) string {
	d.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	field, err := form.CreateFormFile("file", "panel.fascia.json")
	if err == nil {
		_, err = io.WriteString(field, text)
	}
	if err == nil {
		err = form.Close()
	}
	if err != nil {
		d.Fatal(err)
	}
	ask, err := http.NewRequest(http.MethodPost, d.url+"/import", &body)
	if err != nil {
		d.Fatal(err)
	}
	ask.Header.Set("Content-Type", form.FormDataContentType())
	answer, err := http.DefaultTransport.RoundTrip(ask) // the redirect is the answer
	if err != nil {
		d.Fatal(err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusSeeOther {
		said, _ := io.ReadAll(answer.Body)
		d.Fatalf("import: %s %s", answer.Status, said)
	}
	return answer.Header.Get("Location")
}

// edit sends one edit beside the browser, as another page would.
func (d *desk) edit(panel, edit string) {
	d.Helper()
	ask := fmt.Sprintf(`{"id": "test%d", "base": 0, "edit": %s}`, time.Now().UnixNano(), edit)
	answer, err := http.Post(d.url+panel+"/edits", "application/json", strings.NewReader(ask))
	if err != nil {
		d.Fatal(err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		said, _ := io.ReadAll(answer.Body)
		d.Fatalf("edit %s: %s %s", edit, answer.Status, said)
	}
}

// demoFile is one of the demo panels as a project file.
func demoFile(t *testing.T, name string) string {
	t.Helper()
	code, text, errs := call(t, "", "demo", name)
	if code != exitGood {
		t.Fatalf("demo %s: %d %s", name, code, errs)
	}
	return text
}
