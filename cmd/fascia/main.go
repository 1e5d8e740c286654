// Command fascia lays out hand-held panels: it serves the page, and works plans out for files.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
)

// Exit codes of the contract: what was asked for is wrong or cannot be read is 2, findings that
// stop the maker are 1.
const (
	exitGood  = 0
	exitStops = 1
	exitError = 2
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})
	stop()
	os.Exit(code)
}

// streams are what a run reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// A verb is one thing the program does.
type verb struct {
	name, args, does string
	run              func(ctx context.Context, args []string, s streams) (int, error)
}

func verbs() []verb {
	return []verb{
		{"serve", "[--addr 127.0.0.1:7340] [--data DIR]", "serves the page (the default)", serve},
		{"plan", "FILE [--out DIR] [--json]", "writes every output of a project file into DIR", planFile},
		{"check", "FILE", "prints findings; exit 1 when one of them is a stop", checkFile},
		{"demo", "[NAME]", "lists the demo panels, or prints one as a project file", demos},
	}
}

// errHelp ends a run whose help was asked for and printed.
var errHelp = errors.New("help was printed")

// run does what args ask for and returns the exit code. Errors are one line on s.err.
func run(ctx context.Context, args []string, s streams) int {
	v, rest, err := choose(args, s.out)
	code := exitError
	if err == nil {
		code, err = v.run(ctx, rest, s)
	}
	switch {
	case errors.Is(err, errHelp):
		return exitGood
	case err != nil:
		fmt.Fprintln(s.err, "fascia: "+oneLine(err.Error()))
		return exitError
	}
	return code
}

// choose finds the verb that args begin with; without one the page is served.
func choose(args []string, out io.Writer) (verb, []string, error) {
	all := verbs()
	if len(args) == 0 {
		return all[0], nil, nil
	}
	switch first := args[0]; {
	case first == "-h" || first == "--help" || first == "help":
		usage(out)
		return verb{}, nil, errHelp
	case strings.HasPrefix(first, "-"):
		return all[0], args, nil
	}
	for _, v := range all {
		if v.name == args[0] {
			return v, args[1:], nil
		}
	}
	return verb{}, nil, fmt.Errorf("no verb is called %q; fascia -h lists them", args[0])
}

func usage(out io.Writer) {
	fmt.Fprintln(out, "fascia lays out hand-held panels: keys, display, pins, wires.")
	for _, v := range verbs() {
		fmt.Fprintf(out, "  fascia %s %s\n      %s\n", v.name, v.args, v.does)
	}
}

// parse reads flags that may stand before or after the plain arguments, and returns the latter.
func parse(name string, flags *flag.FlagSet, args []string, s streams, plainMost int) ([]string, error) {
	flags.SetOutput(io.Discard)
	var plain []string
	for {
		err := flags.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			for _, v := range verbs() {
				if v.name == name {
					fmt.Fprintf(s.out, "fascia %s %s\n    %s\n", v.name, v.args, v.does)
				}
			}
			flags.SetOutput(s.out)
			flags.PrintDefaults()
			return nil, errHelp
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w; fascia %s -h shows how", name, err, name)
		}
		if flags.NArg() == 0 {
			break
		}
		plain = append(plain, flags.Arg(0))
		args = flags.Args()[1:]
	}
	if len(plain) > plainMost {
		return nil, fmt.Errorf("%s: %q is one argument too many; fascia %s -h shows how", name, plain[plainMost], name)
	}
	return plain, nil
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
