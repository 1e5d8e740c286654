package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// patience is how long a condition may take to come true. Only a failing test waits for all of it:
// the machine may be slow, and the race detector makes it slower.
const patience = 60 * time.Second

// TestMain ends the browser that all tests share. The same binary is also the server that a test
// kills: see browser_desk_test.go.
func TestMain(m *testing.M) {
	if dir := os.Getenv(serveHere); dir != "" {
		ctx, cancel := context.WithCancel(context.Background())
		go func() { // the tests hold the other end: when they are gone, so is this
			_, _ = io.Copy(io.Discard, os.Stdin)
			cancel()
		}()
		os.Exit(run(ctx, []string{"serve", "--addr", os.Getenv(serveAt), "--data", dir}, streams{os.Stdin, os.Stdout, os.Stderr}))
	}
	code := m.Run()
	endChromium()
	os.Exit(code)
}

var endChromium = func() {}

// chromium is the one browser of this test binary, started by the first test that looks at a page.
// It reaches no host but this machine.
var chromium = sync.OnceValues(func() (context.Context, error) {
	if _, err := exec.LookPath("chromium"); err != nil {
		return nil, fmt.Errorf("%w; go run ./cmd/verify installs what the tests need", err)
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath("chromium"), chromedp.WindowSize(1280, 800),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("no-pings", true))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, done := chromedp.NewContext(alloc)
	endChromium = func() {
		done()
		stop()
	}
	if err := chromedp.Do(ctx); err != nil {
		return nil, fmt.Errorf("start chromium: %w; go run ./cmd/verify installs what the tests need", err)
	}
	return ctx, nil
})

// A tab is one page of the browser, watched: whatever goes wrong in it fails its test.
type tab struct {
	*testing.T
	desk   *desk
	origin string // the desk's address when the tab was opened; a restart keeps it
	ctx    context.Context
	mu     sync.Mutex
	faults []string
	minds  []string // what the test provokes and so expects in the log
}

// newTab opens a tab of a new visitor of the desk: nothing is remembered from other tests.
func newTab(t *testing.T, d *desk, opts ...chromedp.ContextOption) *tab {
	t.Helper()
	browser, err := chromium()
	if err != nil {
		t.Fatal(err)
	}
	p := &tab{T: t, desk: d, origin: d.url}
	if len(opts) == 0 {
		opts = append(opts, chromedp.WithNewBrowserContext())
	}
	ctx, done := chromedp.NewContext(browser, append(opts, chromedp.WithListener(p.watch))...)
	p.ctx = ctx
	if err := chromedp.Do(ctx); err != nil { // owns the tab, so without a time limit
		t.Fatal(err)
	}
	t.Cleanup(func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		for _, f := range p.faults {
			t.Error(f)
		}
		done()
	})
	return p
}

// secondTab is another tab of the same visitor.
func (p *tab) secondTab() *tab {
	p.Helper()
	return newTab(p.T, p.desk, chromedp.WithExistingBrowserContext(p.visitor()))
}

func (p *tab) visitor() cdp.BrowserContextID { return chromedp.FromContext(p.ctx).BrowserContextID }

// expects lets messages with these words pass: the test provokes them.
func (p *tab) expects(words ...string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.minds = append(p.minds, words...)
}

func (p *tab) fault(kind, text string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, words := range p.minds {
		if strings.Contains(text, words) {
			return
		}
	}
	p.faults = append(p.faults, kind+": "+text)
}

// watch is called with every event of the tab, in order; it must not call the tab.
func (p *tab) watch(event any) {
	switch e := event.(type) {
	case *log.EventEntryAdded:
		// A broken Content-Security-Policy is told here too, with the source "security".
		if e.Entry.Level == log.EntryLevelError || e.Entry.Source == log.EntrySourceSecurity {
			p.fault("the browser's log", fmt.Sprintf("%s (%s, line %d)", e.Entry.Text, e.Entry.URL, e.Entry.LineNumber))
		}
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			text += " " + x.Description
		}
		p.fault("uncaught exception", text)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning || e.Type == runtime.ConsoleAPICalledTypeAssert {
			p.fault("console", fmt.Sprintf("%s %v", e.Type, e.Args))
		}
	case *network.EventRequestWillBeSent:
		if url := e.Request.URL; !strings.HasPrefix(url, p.origin+"/") && !strings.HasPrefix(url, "data:") && !strings.HasPrefix(url, "blob:") {
			p.fault("request to elsewhere", url)
		}
	case *page.EventJavascriptDialogOpening:
		p.fault("dialog", fmt.Sprintf("%s %q", e.Type, e.Message))
		go func() { // an error here means that the tab is gone, and the dialog with it
			_, _ = chromedp.Call(p.ctx, page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{Accept: true})
		}()
	}
}
