package controller

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fascia/design/part"
)

// TestPWMAgainstEmulator asks an independent RP2040 emulator, the npm package in testdata/npm,
// which GPIOs each PWM output drives. It also gives the number of GPIOs.
func TestPWMAgainstEmulator(t *testing.T) {
	if _, err := os.Stat("testdata/npm/node_modules/rp2040js"); err != nil {
		t.Fatalf("the emulator is not installed (%v): run go run ./cmd/verify", err)
	}
	node := exec.Command("node", "pwm.js")
	node.Dir = "testdata/npm"
	out, err := node.CombinedOutput()
	if err != nil {
		t.Fatalf("node pwm.js: %v: run go run ./cmd/verify\n%s", err, out)
	}
	chip := mustChip(t, "RP2040")
	outputs := 0
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		if f[0] == "gpios" {
			if f[1] != strconv.Itoa(chip.GPIOs) {
				t.Errorf("the emulator has %s GPIOs, ours %d", f[1], chip.GPIOs)
			}
			continue
		}
		outputs++
		if got := drivenBy(chip, f[0], f[1]); !slices.Equal(got, f[2:]) {
			t.Errorf("PWM%s %s drives GPIOs %v, the emulator says %v", f[0], f[1], got, f[2:])
		}
	}
	if outputs != 16 {
		t.Errorf("the emulator told of %d outputs, want 16", outputs)
	}
}

// drivenBy lists the GPIOs that the closed form puts on one PWM output.
func drivenBy(chip Chip, slice, channel string) []string {
	var list []string
	for gpio := range chip.GPIOs {
		if f, ok := chip.Can(gpio, part.PWM); ok && fmt.Sprint(f.Instance) == slice && f.Channel == channel {
			list = append(list, strconv.Itoa(gpio))
		}
	}
	return list
}
