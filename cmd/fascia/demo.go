package main

import (
	"context"
	"flag"
	"fmt"
	"strings"

	"fascia/design/panel"
	"fascia/design/panel/demo"
)

// demos lists the demo panels, or prints one.
func demos(_ context.Context, args []string, s streams) (int, error) {
	plain, err := parse("demo", flag.NewFlagSet("demo", flag.ContinueOnError), args, s, 1)
	if err != nil {
		return exitError, err
	}
	var names []string
	for _, d := range demo.All() {
		if len(plain) == 0 {
			fmt.Fprintf(s.out, "%-14s %s\n", d.ID, d.Says)
			continue
		}
		names = append(names, d.ID)
		if d.ID != plain[0] {
			continue
		}
		text, err := panel.Encode(d.Panel)
		if err != nil {
			return exitError, err
		}
		_, err = s.out.Write(text)
		return exitGood, err
	}
	if len(plain) > 0 {
		return exitError, fmt.Errorf("demo: no demo panel is called %q; there are %s", plain[0], strings.Join(names, ", "))
	}
	return exitGood, nil
}
