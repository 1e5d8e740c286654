package web

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"slices"
	"strings"
	"testing"

	"fascia/design/plan"
	"fascia/static"
)

func TestServe(t *testing.T) {
	b := newDesk(t)
	id := b.counter()
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	cfg := Config{Panels: b.store, Outputs: b.store, Parts: b.store, Ticks: b.store, Plan: plan.Make, Static: static.Files}
	urls, ended := make(chan string, 1), make(chan error, 1)
	go func() { ended <- Serve(ctx, cfg, "127.0.0.1:0", func(url string) { urls <- url }) }()
	url := <-urls
	if !strings.HasPrefix(url, "http://127.0.0.1:") {
		t.Fatalf("serves at %s", url)
	}
	stream, err := http.Get(url + "/panels/" + string(id) + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Body.Close()
	lines := bufio.NewReader(stream.Body)
	if line, err := lines.ReadString('\n'); err != nil || line != "retry: 1000\n" {
		t.Errorf("stream begins with %q, %v", line, err)
	}
	resp, err := http.Post(url+"/panels/"+string(id)+"/edits", "application/json", strings.NewReader(`{"id":"c2","base":1,"edit":{"do":"rename","name":"Served"}}`))
	if err != nil || resp.StatusCode != http.StatusOK {
		t.Errorf("edit: %v, %v", resp, err)
	}
	resp.Body.Close()

	stop()
	rest, err := io.ReadAll(lines)
	if err != nil || !strings.Contains(string(rest), `"by":"c2"`) {
		t.Errorf("the stream ended with %q, %v", rest, err)
	}
	if err := <-ended; err != nil {
		t.Errorf("Serve ended with %v", err)
	}
	if rev, _, err := b.store.Outputs(t.Context(), id); err != nil || rev != 2 {
		t.Errorf("at the end the outputs are of revision %d, %v", rev, err)
	}
}

func TestServeStaysOnThisMachine(t *testing.T) {
	for _, addr := range []string{"0.0.0.0:0", ":0", "[::]:0", "192.0.2.1:0", "fascia.example:0", "127.0.0.1", "", "127.0.0.1:port", "8.8.8.8:53"} {
		if l, err := listen(addr); err == nil {
			t.Errorf("listens on %q as %v", addr, l.Addr())
			l.Close()
		}
	}
	l, err := listen("localhost:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if !strings.HasPrefix(l.Addr().String(), "127.0.0.1:") {
		t.Errorf("localhost is %v", l.Addr())
	}
	if _, err := listen(l.Addr().String()); err == nil || !strings.Contains(err.Error(), "--addr") {
		t.Errorf("a port in use: %v", err)
	}
}

func TestHostsOf(t *testing.T) {
	if got, want := hostsOf(7340), []string{"127.0.0.1:7340", "localhost:7340", "[::1]:7340"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	// RFC 9110, section 4.2.3: the default port may be left out, so browsers do.
	if got := hostsOf(80); !slices.Contains(got, "localhost") || !slices.Contains(got, "localhost:80") {
		t.Errorf("on port 80: %v", got)
	}
}
