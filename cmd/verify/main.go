// Command verify installs what the tests need and runs all of them: form, generated code, static
// analysis, types of the page's scripts, tests with the race detector, and each fuzz target a
// while. It ends with one line, "N passed, N failed, N skipped". A check whose tool is missing has
// failed; so has a test that skips.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"time"
)

func main() {
	fuzz := flag.Duration("fuzz", 4*time.Second, "how long each fuzz target runs; 0 leaves them out")
	install := flag.Bool("install", true, "install missing tools")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	good, err := verify(ctx, *fuzz, *install, os.Stdout)
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "verify:", err)
	}
	if err != nil || !good {
		os.Exit(1)
	}
}

// verify runs everything below the module's root and reports whether all of it passed.
func verify(ctx context.Context, fuzz time.Duration, install bool, out io.Writer) (bool, error) {
	root, err := moduleRoot()
	if err != nil {
		return false, err
	}
	h := &house{root: root, out: out}
	if err := h.provide(ctx, install); err != nil {
		fmt.Fprintln(out, err)
		h.count(failed)
	}
	for _, c := range checks() {
		h.check(ctx, c)
	}
	h.goTests(ctx)
	if fuzz > 0 {
		h.fuzz(ctx, fuzz)
	}
	fmt.Fprintf(out, "\n%d passed, %d failed, %d skipped\n", h.counts[passed], h.counts[failed], h.counts[skipped])
	return h.counts[failed] == 0 && h.counts[skipped] == 0, nil
}

// moduleRoot walks up from the working directory to the folder of go.mod.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("no go.mod above the working directory; run verify inside the checkout")
		}
		dir = up
	}
}
