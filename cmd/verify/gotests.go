package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"
	"time"
)

// An event is one line of go test -json, as far as it is needed (go doc test2json).
type event struct {
	Action  string
	Package string
	Test    string
	Elapsed float64
	Output  string
}

// propertySeed makes property tests draw the same cases in every run; without it, as when a package
// is tested by hand, each run draws new ones.
const propertySeed = "-rapid.seed=20261125"

// goTests runs every test of the module with the race detector.
func (h *house) goTests(ctx context.Context) {
	listing, all, err := h.command(ctx, "", "go", "list", "-f", "{{.ImportPath}} {{.TestImports}} {{.XTestImports}}", "./...")
	if err != nil {
		h.fault("list packages", err, all)
		return
	}
	plain, drawn := byProperty(listing)
	h.goTest(ctx, plain)
	h.goTest(ctx, drawn, propertySeed)
}

// byProperty parts packages whose tests draw cases from those whose tests do not know the seed's
// flag.
func byProperty(listing string) (plain, drawn []string) {
	for line := range strings.Lines(listing) {
		pack, imports, _ := strings.Cut(strings.TrimSpace(line), " ")
		switch {
		case pack == "":
		case strings.Contains(imports, "pgregory.net/rapid"):
			drawn = append(drawn, pack)
		default:
			plain = append(plain, pack)
		}
	}
	return plain, drawn
}

func (h *house) goTest(ctx context.Context, packs []string, flags ...string) {
	words := append([]string{"test", "-race", "-json", "-timeout", "40m"}, packs...)
	cmd := exec.CommandContext(ctx, "go", append(words, flags...)...)
	cmd.Dir = h.root
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		h.fault("go test", err, "")
		return
	}
	var errs strings.Builder
	cmd.Stderr = &errs
	if err := cmd.Start(); err != nil {
		h.fault("go test", err, "")
		return
	}
	before := h.counts[failed]
	h.read(pipe)
	if err := cmd.Wait(); err != nil && h.counts[failed] == before {
		h.fault("go test", err, errs.String())
	}
}

func (h *house) fault(name string, err error, text string) {
	h.count(failed)
	fmt.Fprintf(h.out, "FAIL %s: %v\n%s\n", name, err, text)
}

// read counts the tests of a stream of events and prints what failed and skipped, and a line for
// each package.
func (h *house) read(stream io.Reader) {
	said := map[string]*strings.Builder{}
	lines := bufio.NewScanner(stream)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil {
			continue // a compiler's words; the package's own event says that it failed
		}
		key := e.Package + " " + e.Test
		if e.Action == "output" || e.Action == "build-output" {
			if said[key] == nil {
				said[key] = &strings.Builder{}
			}
			said[key].WriteString(e.Output)
			if e.Action == "build-output" {
				fmt.Fprint(h.out, e.Output)
			}
			continue
		}
		h.tell(e, said[key])
		if e.Action == "pass" {
			delete(said, key)
		}
	}
}

// tell counts a finished test, or prints the line of a finished package.
func (h *house) tell(e event, said *strings.Builder) {
	verdicts := map[string]verdict{"pass": passed, "fail": failed, "skip": skipped}
	v, ended := verdicts[e.Action]
	if !ended || e.Test == "" && v == skipped {
		return // a package without tests
	}
	if e.Test != "" {
		h.count(v)
	}
	words := map[verdict]string{passed: "ok  ", failed: "FAIL", skipped: "SKIP"}
	if e.Test == "" || v != passed {
		fmt.Fprintf(h.out, "%s %s %s, %.1f s\n", words[v], e.Package, e.Test, e.Elapsed)
	}
	if v == failed {
		if e.Test == "" {
			h.count(failed)
		}
		if said != nil {
			fmt.Fprint(h.out, said.String())
		}
	}
}

// fuzz runs every fuzz target for a while, one after the other, since each uses all cores.
func (h *house) fuzz(ctx context.Context, each time.Duration) {
	targets, err := h.fuzzTargets(ctx)
	if err != nil {
		h.fault("list fuzz targets", err, "")
		return
	}
	for _, t := range targets {
		words := []string{"go", "test", "-run", "^$", "-fuzz", "^" + t.name + "$", "-fuzztime", each.String(), t.pack}
		// The engine sometimes ends in failure at its time limit without an input that fails; only
		// such a run is repeated, and the repeat counts.
		if _, all, err := h.command(ctx, "", words...); err == nil || strings.Contains(all, "Failing input") {
			h.settle("fuzz "+t.name+" in "+t.pack, all, err)
			continue
		}
		h.check(ctx, check{name: "fuzz " + t.name + " in " + t.pack, words: words})
	}
}

// settle counts a command that has run.
func (h *house) settle(name, all string, err error) {
	if err != nil {
		h.fault(name, err, all)
		return
	}
	h.count(passed)
	fmt.Fprintf(h.out, "ok   %s\n", name)
}

type target struct{ pack, name string }

// fuzzTargets asks each package for its own: go test lists names before the line that names their
// package.
func (h *house) fuzzTargets(ctx context.Context) ([]target, error) {
	stdout, all, err := h.command(ctx, "", "go", "test", "-list", "^Fuzz", "./...")
	if err != nil {
		return nil, errors.Join(err, errors.New(all))
	}
	return parseTargets(stdout), nil
}

func parseTargets(listing string) []target {
	var found []target
	var names []string
	for line := range strings.Lines(listing) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "Fuzz") {
			names = append(names, line)
			continue
		}
		if fields := strings.Fields(line); len(fields) > 1 && fields[0] == "ok" {
			for _, n := range names {
				found = append(found, target{fields[1], n})
			}
		}
		names = nil
	}
	return found
}
