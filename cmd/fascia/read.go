package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"fascia/design/panel"
)

// readPanel reads a project file; - is standard input.
func readPanel(name string, in io.Reader) (panel.Panel, error) {
	text, err := readBounded(name, in)
	if err != nil {
		var path *os.PathError
		if errors.As(err, &path) {
			return panel.Panel{}, fmt.Errorf("cannot read %s: %w; name a file that ends in %s", name, path.Err, panel.FileSuffix)
		}
		return panel.Panel{}, fmt.Errorf("cannot read %s: %w", name, err)
	}
	p, err := panel.Decode(text)
	if err != nil {
		return panel.Panel{}, fmt.Errorf("%s is not a panel: %w", name, err)
	}
	return p, nil
}

// readBounded reads no more than a project file may hold, and a byte to show that there is more.
func readBounded(name string, in io.Reader) ([]byte, error) {
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in = f
	}
	return io.ReadAll(io.LimitReader(in, panel.MaxFileBytes+1))
}
