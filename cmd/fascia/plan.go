package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/plan"
)

// planFile writes the outputs of a project file.
func planFile(_ context.Context, args []string, s streams) (int, error) {
	flags := flag.NewFlagSet("plan", flag.ContinueOnError)
	out := flags.String("out", "", "the `DIR`ectory for the outputs, made if missing; NAME-plan when left out")
	asJSON := flags.Bool("json", false, "print the whole plan; files are written only when --out is given")
	plain, err := parse("plan", flags, args, s, 1)
	if err != nil {
		return exitError, err
	}
	if len(plain) == 0 {
		return exitError, errors.New("plan: name a project file; fascia demo prints one to start from")
	}
	p, err := readPanel(plain[0], s.in)
	if err != nil {
		return exitError, err
	}
	made := plan.Make(&p)
	if *asJSON {
		text, err := made.JSON()
		if err != nil {
			return exitError, err
		}
		if _, err := s.out.Write(text); err != nil {
			return exitError, err
		}
		if *out == "" {
			return exitGood, nil
		}
	}
	dir := *out
	if dir == "" {
		dir = strings.TrimSuffix(filepath.Base(plain[0]), panel.FileSuffix) + "-plan"
	}
	files, err := made.Files()
	if err != nil {
		return exitError, err
	}
	if err := writeAll(dir, files); err != nil {
		return exitError, err
	}
	if !*asJSON {
		report(s, dir, made, files)
	}
	return exitGood, nil
}

func report(s streams, dir string, made *plan.Plan, files []plan.File) {
	fmt.Fprintf(s.out, "%s: %d files in %s\n", made.Panel.Name, len(files), dir)
	line := func(stage string, cost, bound, gap float64, proved bool) {
		word := "best known"
		if proved {
			word = "proved best"
		}
		fmt.Fprintf(s.out, "  %-7s cost %.1f, bound %.1f, gap %.1f %%, %s\n", stage, cost, bound, gap*100, word)
	}
	line("scan", made.Scan.Cost, made.Scan.Bound, made.Scan.Gap, made.Scan.Proved)
	line("pins", made.Pins.Cost, made.Pins.Bound, made.Pins.Gap, made.Pins.Proved)
	line("wiring", made.Wiring.Cost, made.Wiring.Bound, made.Wiring.Gap, made.Wiring.Proved)
	fmt.Fprintf(s.out, "  findings: %d stop, %d mind, %d note\n", made.Stops(),
		finding.Count(made.Findings, finding.Mind), finding.Count(made.Findings, finding.Note))
}

// writeAll puts files into dir, each whole: written beside its place, then renamed onto it.
func writeAll(dir string, files []plan.File) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("make %s: %w; choose another directory with --out", dir, err)
	}
	for _, f := range files {
		if err := writeWhole(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data); err != nil {
			return fmt.Errorf("write %s: %w", f.Name, err)
		}
	}
	return nil
}

func writeWhole(path string, data []byte) (err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, errWrite := f.Write(data)
	if err := errors.Join(errWrite, f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
