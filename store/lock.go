package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// A folderLock keeps a second program out of a data folder. The system lets go of it when the
// program dies, however it dies. The file holds the address of the program that has the lock.
type folderLock struct{ file *os.File }

func lockFolder(dir string) (*folderLock, error) {
	f, err := os.OpenFile(filepath.Join(dir, "lock"), os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, fmt.Errorf("lock data folder: %w", err)
	}
	switch err := lockFile(f); {
	case errors.Is(err, ErrInUse):
		where := ""
		if text, err := io.ReadAll(io.LimitReader(f, 200)); err == nil && len(text) > 0 {
			where = " at " + strings.TrimSpace(string(text)) + "; open that page,"
		} else {
			where = "; close that one,"
		}
		return nil, errors.Join(fmt.Errorf("%s is %w%s or give another folder with --data", dir, ErrInUse, where), f.Close())
	case err != nil:
		return nil, errors.Join(fmt.Errorf("lock data folder: %w", err), f.Close())
	}
	l := &folderLock{f}
	if err := l.setAddress(""); err != nil {
		return nil, errors.Join(err, l.release())
	}
	return l, nil
}

func (l *folderLock) setAddress(url string) error {
	if err := l.file.Truncate(0); err != nil {
		return fmt.Errorf("write lock: %w", err)
	}
	if _, err := l.file.WriteAt([]byte(url), 0); err != nil {
		return fmt.Errorf("write lock: %w", err)
	}
	return nil
}

// release gives the folder up, once. The file stays: taking it away could take it from the next
// owner.
func (l *folderLock) release() error {
	if err := l.file.Close(); !errors.Is(err, os.ErrClosed) {
		return err
	}
	return nil
}
