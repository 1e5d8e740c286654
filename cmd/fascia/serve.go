package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"

	"fascia/design/panel"
	"fascia/design/panel/demo"
	"fascia/design/plan"
	"fascia/static"
	"fascia/store"
	"fascia/web"
)

// serve answers on the loopback address until the program is told to end.
func serve(ctx context.Context, args []string, s streams) (code int, err error) {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	addr := flags.String("addr", "127.0.0.1:7340", "the loopback `ADDRESS` and port to answer on; port 0 takes any free one")
	data := flags.String("data", "", "the data `DIR`ectory; the user's own when left out")
	if _, err := parse("serve", flags, args, s, 0); err != nil {
		return exitError, err
	}
	dir := *data
	if dir == "" {
		if dir, err = userData(); err != nil {
			return exitError, err
		}
	}
	kept, err := store.Open(ctx, dir)
	if err != nil {
		return exitError, err
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	if err := kept.SeedDemos(ctx, demoPanels()); err != nil {
		return exitError, err
	}
	cfg := web.Config{Panels: kept, Outputs: kept, Parts: kept, Ticks: kept, Plan: plan.Make, Static: static.Files,
		Log: slog.New(slog.NewTextHandler(s.err, nil))}
	err = web.Serve(ctx, cfg, *addr, func(url string) {
		if err := kept.SetAddress(url); err != nil {
			cfg.Log.Warn("the address was not noted beside the data", "error", err)
		}
		fmt.Fprintf(s.out, "Fascia is at %s\nIts data is in %s\nCtrl+C ends it.\n", url, dir)
	})
	if err != nil {
		return exitError, err
	}
	return exitGood, nil
}

func demoPanels() []panel.Panel {
	var panels []panel.Panel
	for _, d := range demo.All() {
		panels = append(panels, d.Panel)
	}
	return panels
}

// userData is where programs of this system keep a user's data: XDG Base Directory on Unix, the
// usual places elsewhere.
func userData() (string, error) {
	home, err := os.UserHomeDir()
	base := ""
	switch runtime.GOOS {
	case "windows":
		base = os.Getenv("LocalAppData")
	case "darwin":
		base = filepath.Join(home, "Library", "Application Support")
	default:
		if base = os.Getenv("XDG_DATA_HOME"); !filepath.IsAbs(base) {
			base = filepath.Join(home, ".local", "share")
		}
	}
	if base == "" || err != nil && !filepath.IsAbs(base) {
		return "", errors.New("this user has no home directory; say where to keep data with --data DIR")
	}
	return filepath.Join(base, "fascia"), nil
}
