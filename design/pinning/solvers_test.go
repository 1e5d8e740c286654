package pinning

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// solver finds a solver's program, which the tests need.
func solver(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("%s is not installed: run go run ./cmd/verify", name)
	}
	return path
}

// byCBC is the least cost by the solver of coin-or (CBC user guide: the solution file begins with its status).
func byCBC(t *testing.T, text string) int {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "model.lp"), filepath.Join(dir, "solution.txt")
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	log, err := exec.CommandContext(t.Context(), solver(t, "cbc"), in, "seconds", "60", "solve", "solution", out).CombinedOutput()
	if err != nil {
		t.Fatalf("cbc: %v\n%s", err, log)
	}
	answer, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("cbc: %v\n%s", err, log)
	}
	status, _, _ := strings.Cut(string(answer), "\n")
	value, ok := strings.CutPrefix(status, "Optimal - objective value ")
	if !ok {
		t.Fatalf("cbc: %s\n%s", status, text)
	}
	return whole(t, value)
}

// byGLPK is the least cost by glpsol (GLPK reference manual, chapter on glpsol).
func byGLPK(t *testing.T, text string) int {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "model.lp"), filepath.Join(dir, "solution.txt")
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	log, err := exec.CommandContext(t.Context(), solver(t, "glpsol"), "--lp", in, "--tmlim", "60", "-o", out).CombinedOutput()
	if err != nil {
		t.Fatalf("glpsol: %v\n%s", err, log)
	}
	answer, err := os.ReadFile(out)
	if err != nil || !strings.Contains(string(answer), "INTEGER OPTIMAL") {
		t.Fatalf("glpsol: %v\n%s", err, log)
	}
	_, rest, _ := strings.Cut(string(answer), "Objective:  obj = ")
	value, _, _ := strings.Cut(rest, " ")
	return whole(t, value)
}

func whole(t *testing.T, value string) int {
	t.Helper()
	f, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	if err != nil || math.Abs(f-math.Round(f)) > 1e-3 {
		t.Fatalf("objective %q: %v", value, err)
	}
	return int(math.Round(f))
}
