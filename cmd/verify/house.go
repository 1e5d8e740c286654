package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"time"
)

// A verdict is what became of one check or test.
type verdict int

const (
	passed verdict = iota
	failed
	skipped
)

// A house is the checkout under test and the count so far.
type house struct {
	root   string
	out    io.Writer
	counts [3]int
}

func (h *house) count(v verdict) { h.counts[v]++ }

// A check is one command that must succeed, and that may have to print nothing.
type check struct {
	name   string
	dir    string // below the root
	words  []string
	silent bool // anything on standard output is a failure
}

// checks are what is done before the tests, cheapest first.
func checks() []check {
	return []check{
		{name: "Go code is formatted", words: []string{"gofmt", "-l", "cmd", "design", "migrations", "static", "store", "web"}, silent: true},
		{name: "modules are as go.sum says", words: []string{"go", "mod", "verify"}},
		{name: "go.mod is tidy", words: []string{"go", "mod", "tidy", "-diff"}, silent: true},
		{name: "generated pages are current", words: []string{"go", "tool", "templ", "generate", "-check"}},
		{name: "go vet", words: []string{"go", "vet", "./..."}},
		{name: "static analysis", words: []string{"go", "tool", "staticcheck", "./..."}},
		{name: "types of the page's scripts", dir: npmFolders[0], words: []string{"node_modules/.bin/tsc", "--project", "../../js/jsconfig.json"}},
	}
}

func (h *house) check(ctx context.Context, c check) {
	began := time.Now()
	stdout, all, err := h.command(ctx, c.dir, c.words...)
	if err == nil && c.silent && stdout != "" {
		err = fmt.Errorf("it printed something")
	}
	if err != nil {
		h.count(failed)
		fmt.Fprintf(h.out, "FAIL %s (%s): %v\n%s\n", c.name, strings.Join(c.words, " "), err, all)
		return
	}
	h.count(passed)
	fmt.Fprintf(h.out, "ok   %s, %.1f s\n", c.name, time.Since(began).Seconds())
}

// command runs words in a folder below the root and returns standard output, and all output.
func (h *house) command(ctx context.Context, dir string, words ...string) (stdout, all string, err error) {
	cmd := exec.CommandContext(ctx, words[0], words[1:]...)
	cmd.Dir = h.root
	if dir != "" {
		cmd.Dir += string(os.PathSeparator) + dir
	}
	var only, both bytes.Buffer
	cmd.Stdout = io.MultiWriter(&only, &both)
	cmd.Stderr = &both
	err = cmd.Run()
	return only.String(), both.String(), err
}
