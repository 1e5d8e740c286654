package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// call runs the program with args and returns its exit code and both outputs.
func call(t *testing.T, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	code = run(context.Background(), args, streams{strings.NewReader(stdin), &out, &err})
	return code, out.String(), err.String()
}

func TestDemoListsAndPrints(t *testing.T) {
	code, list, _ := call(t, "", "demo")
	lines := strings.Split(strings.TrimSpace(list), "\n")
	if code != 0 || len(lines) != 3 {
		t.Fatalf("demo: exit %d, %q", code, list)
	}
	for i, name := range []string{"hive-notebook", "lantern-run", "pocket-organ"} {
		if !strings.HasPrefix(lines[i], name+" ") {
			t.Errorf("line %d is %q, want it to begin with %s", i+1, lines[i], name)
		}
		code, text, _ := call(t, "", "demo", name)
		if code != 0 || !strings.HasPrefix(text, "{\n  \"fascia\": 2,\n") || !strings.HasSuffix(text, "}\n") {
			t.Errorf("demo %s: exit %d, begins %.40q", name, code, text)
		}
	}
}

func TestPlanWritesEveryOutput(t *testing.T) {
	dir := t.TempDir()
	_, text, _ := call(t, "", "demo", "lantern-run")
	file := filepath.Join(dir, "lantern.fascia.json")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "made", "here")
	code, said, errs := call(t, "", "plan", file, "--out", out)
	if code != 0 || !strings.Contains(said, "gap") || errs != "" {
		t.Fatalf("plan: exit %d, said %q, %q", code, said, errs)
	}
	for _, name := range []string{"plan.json", "findings.csv", "scan.csv", "pins.csv", "nets.csv", "nets.ipc", "nets-mm.ipc", "wiring.csv", "bom.csv", "keymap.json", "front.svg", "back.svg"} {
		if info, err := os.Stat(filepath.Join(out, name)); err != nil || info.Size() == 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
	entries, err := os.ReadDir(out)
	if err != nil || len(entries) != 12 {
		t.Errorf("%d entries in the folder, want 12 and nothing half-written: %v", len(entries), err)
	}
	code, fromStdin, _ := call(t, text, "plan", "-", "--json")
	whole, err := os.ReadFile(filepath.Join(out, "plan.json"))
	if code != 0 || err != nil || fromStdin != string(whole) {
		t.Errorf("plan --json: exit %d, %v; it must print plan.json", code, err)
	}
}

func TestCheck(t *testing.T) {
	_, good, _ := call(t, "", "demo", "hive-notebook")
	code, out, _ := call(t, good, "check", "-")
	if code != exitGood || strings.Contains(out, "stop ") {
		t.Errorf("check of a demo: exit %d\n%s", code, out)
	}
	for _, line := range strings.Split(strings.TrimSpace(out), "\n") {
		fields := strings.SplitN(line, " ", 3)
		if len(fields) != 3 || fields[0] != "mind" && fields[0] != "note" || !strings.Contains(fields[2], ": ") {
			t.Errorf("line %q is not: severity code where: text", line)
		}
	}
	bad := strings.Replace(good, `"at": "S3"`, `"at": "D25"`, 1)
	if code, out, _ := call(t, bad, "check", "-"); code != exitStops || !strings.HasPrefix(out, "stop fit-") {
		t.Errorf("a display on the keys: exit %d\n%s", code, out)
	}
}

func TestRefusals(t *testing.T) {
	tests := []struct {
		name, stdin string
		args        []string
		want        string
	}{
		{"no such verb", "", []string{"fly"}, "no verb is called"},
		{"no file", "", []string{"check"}, "name a project file"},
		{"file is missing", "", []string{"check", "nowhere.fascia.json"}, "cannot read nowhere.fascia.json"},
		{"a folder", "", []string{"plan", t.TempDir()}, "cannot read"},
		{"not a panel", "hello", []string{"check", "-"}, "not a panel"},
		{"newer", `{"fascia": 3}`, []string{"plan", "-"}, "/fascia: the file has version 3"},
		{"unknown flag", "", []string{"plan", "--fast"}, "fascia plan -h shows how"},
		{"one too many", "", []string{"check", "a", "b"}, "one argument too many"},
		{"unknown demo", "", []string{"demo", "x"}, "there are hive-notebook"},
		{"open to the network", "", []string{"serve", "--addr", "0.0.0.0:0", "--data", filepath.Join(t.TempDir(), "d")}, "not on this machine alone"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			code, out, errs := call(t, tt.stdin, tt.args...)
			if code != exitError || !strings.Contains(errs, tt.want) || strings.Count(errs, "\n") != 1 || out != "" {
				t.Errorf("exit %d, out %q, errors %q; want 2 and one line with %q", code, out, errs, tt.want)
			}
		})
	}
}

func TestHelp(t *testing.T) {
	for _, args := range [][]string{{"-h"}, {"serve", "-h"}, {"plan", "-h"}, {"check", "--help"}, {"demo", "-h"}} {
		code, out, errs := call(t, "", args...)
		if code != 0 || errs != "" || !strings.Contains(out, "fascia ") {
			t.Errorf("%v: exit %d, out %q, errors %q", args, code, out, errs)
		}
	}
}

// A plan that cannot be written leaves what was there.
func TestPlanDoesNotHalfWrite(t *testing.T) {
	_, text, _ := call(t, "", "demo", "pocket-organ")
	file := filepath.Join(t.TempDir(), "in-the-way")
	if err := os.WriteFile(file, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	code, _, errs := call(t, text, "plan", "-", "--out", file)
	kept, err := os.ReadFile(file)
	if code != exitError || err != nil || string(kept) != "mine" || !strings.Contains(errs, "choose another directory") {
		t.Errorf("exit %d, %q, file holds %q, %v", code, errs, kept, err)
	}
}
