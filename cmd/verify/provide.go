package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// A tool is a program that the tests call, and the Debian package that holds it.
type tool struct{ program, pack string }

var tools = []tool{
	{"gcc", "gcc libc6-dev"}, // the race detector links with it
	{"node", "nodejs"},
	{"npm", "npm"},
	{"chromium", "chromium"},
	{"ngspice", "ngspice"},   // circuits are compared with it
	{"cbc", "coinor-cbc"},    // optima are compared with it
	{"glpsol", "glpk-utils"}, // and with it
}

// npmFolders hold a package.json and a lock file for what the tests take from npm. The first one
// holds the type checker.
var npmFolders = []string{"static/testdata/npm", "design/controller/testdata/npm"}

// provide installs what is missing. Where it may not, it names the packages and fails.
func (h *house) provide(ctx context.Context, install bool) error {
	var packs []string
	for _, t := range tools {
		if _, err := exec.LookPath(t.program); err != nil {
			packs = append(packs, strings.Fields(t.pack)...)
		}
	}
	if err := h.debian(ctx, packs, install); err != nil {
		return err
	}
	for _, dir := range npmFolders {
		if err := h.npm(ctx, dir, install); err != nil {
			return err
		}
	}
	return nil
}

func (h *house) debian(ctx context.Context, packs []string, install bool) error {
	if len(packs) == 0 {
		return nil
	}
	list := strings.Join(packs, " ")
	_, err := exec.LookPath("apt-get")
	if !install || err != nil || os.Geteuid() != 0 {
		return fmt.Errorf("FAIL missing tools; install these packages and run again: %s", list)
	}
	fmt.Fprintln(h.out, "installing", list)
	for _, words := range [][]string{{"apt-get", "update", "-q"}, append([]string{"apt-get", "install", "-q", "-y", "--no-install-recommends"}, packs...)} {
		if _, all, err := h.command(ctx, "", words...); err != nil {
			return fmt.Errorf("FAIL %s: %w\n%s", strings.Join(words, " "), err, all)
		}
	}
	return nil
}

// npm fills node_modules from the lock file, unless the last filling was of the same lock file.
func (h *house) npm(ctx context.Context, dir string, install bool) error {
	lock, err := os.ReadFile(filepath.Join(h.root, dir, "package-lock.json"))
	if err != nil {
		return fmt.Errorf("FAIL %s has no lock file: %w", dir, err)
	}
	mark := filepath.Join(h.root, dir, "node_modules", ".filled-from")
	if had, err := os.ReadFile(mark); err == nil && string(had) == string(lock) {
		return nil
	}
	if !install {
		return fmt.Errorf("FAIL %s is not filled; run npm ci there", dir)
	}
	fmt.Fprintln(h.out, "filling", dir)
	if _, all, err := h.command(ctx, dir, "npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund"); err != nil {
		return errors.Join(fmt.Errorf("FAIL npm ci in %s: %w", dir, err), errors.New(all))
	}
	return os.WriteFile(mark, lock, 0o644)
}
