package main

import (
	"context"
	"errors"
	"flag"
	"fmt"

	"fascia/design/plan"
)

// checkFile prints the findings of a project file, one a line, worst first.
func checkFile(_ context.Context, args []string, s streams) (int, error) {
	plain, err := parse("check", flag.NewFlagSet("check", flag.ContinueOnError), args, s, 1)
	if err != nil {
		return exitError, err
	}
	if len(plain) == 0 {
		return exitError, errors.New("check: name a project file; fascia demo prints one to start from")
	}
	p, err := readPanel(plain[0], s.in)
	if err != nil {
		return exitError, err
	}
	made := plan.Make(&p)
	for _, f := range made.Findings {
		fmt.Fprintf(s.out, "%s %s %s: %s\n", f.Severity, f.Code, f.Where, oneLine(f.Text+" "+f.Fix))
	}
	if made.Stops() > 0 {
		return exitStops, nil
	}
	return exitGood, nil
}
