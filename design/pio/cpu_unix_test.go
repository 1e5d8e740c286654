//go:build unix

package pio

import (
	"syscall"
	"testing"
)

// processorSeconds returns how long this process has been computing: on a machine that others use too,
// wall time would measure them as well.
func processorSeconds(tb testing.TB) float64 {
	tb.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		tb.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}
