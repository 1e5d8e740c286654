package store

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
)

// DefaultFolder is the data folder for a maker who names none: fascia inside the folder in which this
// system keeps a user's data (XDG_DATA_HOME and its default, from the XDG Base Directory
// Specification, where nothing else rules).
func DefaultFolder() (string, error) {
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "fascia"), nil
	}
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		dir, err := os.UserConfigDir() // on these systems the same as for data
		if err != nil {
			return "", errors.Join(errNoFolder, err)
		}
		return filepath.Join(dir, "fascia"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", errors.Join(errNoFolder, err)
	}
	return filepath.Join(home, ".local", "share", "fascia"), nil
}

var errNoFolder = errors.New("no folder for data is known; name one with --data")
