package pio

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// emulatorFolder holds the npm package rp2040js, an emulator of the RP2040 written by others.
const emulatorFolder = "../controller/testdata/npm"

// node runs a script of testdata where the emulator is installed, with a file of tasks.
func node(tb testing.TB, script string, tasks []byte) []byte {
	tb.Helper()
	if _, err := os.Stat(filepath.Join(emulatorFolder, "node_modules/rp2040js")); err != nil {
		tb.Fatalf("the emulator is not installed (%v): run go run ./cmd/verify", err)
	}
	text, err := os.ReadFile(filepath.Join("testdata", script))
	if err != nil {
		tb.Fatal(err)
	}
	file := filepath.Join(tb.TempDir(), "tasks.json")
	if err := os.WriteFile(file, tasks, 0o600); err != nil {
		tb.Fatal(err)
	}
	cmd := exec.Command("node", "--input-type=module", "-e", string(text), file)
	cmd.Dir = emulatorFolder
	var faults bytes.Buffer
	cmd.Stderr = &faults
	out, err := cmd.Output()
	if err != nil {
		tb.Fatalf("node %s: %v: run go run ./cmd/verify\n%s", script, err, faults.String())
	}
	return out
}

// TestWordsOfAnotherAssembler compares words with those that the encoder of rp2040js 1.4.1 makes.
func TestWordsOfAnotherAssembler(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(string(node(t, "words.js", nil))), "\n")
	for len(lines) > 0 {
		part := lines[:min(Memory, len(lines))]
		lines = lines[len(part):]
		var source, want []string
		for _, line := range part {
			text, word, _ := strings.Cut(line, "\t")
			source, want = append(source, text), append(want, word)
		}
		programs, err := Assemble(strings.Join(source, "\n"), RP2040)
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range programs[0].Words {
			if fmt.Sprint(w) != want[i] {
				t.Errorf("%s is %d, theirs is %s", source[i], w, want[i])
			}
		}
	}
}

// A traceTask is a program, and all that happens to it from outside.
type traceTask struct {
	Machine      int       `json:"machine"`
	Memory       []uint16  `json:"memory"`
	Registers    [4]uint32 `json:"registers"`
	Inputs       []change  `json:"inputs"`
	Deeds        []deed    `json:"deeds"`
	Cycles       int       `json:"cycles"`
	Instructions int       `json:"instructions"`
	config       Config
}

type change struct {
	Cycle  uint64
	Levels uint32
}

func (c change) MarshalJSON() ([]byte, error) {
	return fmt.Appendf(nil, "[%d,%d]", c.Cycle, c.Levels), nil
}

type deed struct {
	Cycle uint64
	Kind  string
	Value uint32
}

func (d deed) MarshalJSON() ([]byte, error) {
	return fmt.Appendf(nil, "[%d,%q,%d]", d.Cycle, d.Kind, d.Value), nil
}

// recorded are pins whose levels were fixed beforehand.
type recorded struct{ changes []change }

func (r *recorded) Levels(now uint64, _ Drive) (uint32, uint64) {
	for len(r.changes) > 1 && r.changes[1].Cycle <= now {
		r.changes = r.changes[1:]
	}
	if len(r.changes) == 1 {
		return r.changes[0].Levels, Forever
	}
	return r.changes[0].Levels, r.changes[1].Cycle
}

// TestTracesOfAnotherEmulator compares 200 random programs, instruction by instruction and to the
// cycle, with rp2040js 1.4.1. The programs avoid what that emulator is known to leave out: autopull,
// iffull without autopush, ifempty, exec, joined queues, dividers, synchronisers, pin runs past GPIO 29,
// and reserved words. They also avoid "out ..., 32", after which it keeps the OSR as it was, where the
// data sheet (3.4.5) shifts in zeros.
func TestTracesOfAnotherEmulator(t *testing.T) {
	r := rand.New(rand.NewPCG(2040, 5))
	tasks := make([]traceTask, 200)
	for i := range tasks {
		tasks[i] = randomTask(r)
	}
	text, err := json.Marshal(tasks)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(node(t, "trace.js", text))), "\n")
	compared, ran := 0, map[string]bool{}
	var replay *replayed
	for _, line := range lines {
		number, _, _ := strings.Cut(line, " ")
		if !ran[number] {
			ran[number] = true
			replay = newReplay(t, tasks, number)
		}
		replay.compare(t, line)
		compared++
	}
	if len(ran) < 190 || compared < 20000 {
		t.Errorf("only %d instructions of %d programs were compared", compared, len(ran))
	}
	t.Logf("%d instructions of %d programs are the same to the cycle", compared, len(ran))
}

// replayed is our side of a task.
type replayed struct {
	task  traceTask
	block *Block
	deeds []deed
	last  uint32 // word read
	wrong bool
}

func newReplay(t *testing.T, tasks []traceTask, number string) *replayed {
	t.Helper()
	var i int
	if _, err := fmt.Sscan(number, &i); err != nil {
		t.Fatalf("line of program %q: %v", number, err)
	}
	task := tasks[i]
	b := New(RP2040, &recorded{task.Inputs})
	b.BypassSynchronisers(1<<32 - 1)
	b.Load(task.Memory, 0)
	b.Configure(task.Machine, task.config)
	b.Enable(1 << task.Machine)
	return &replayed{task: task, block: b, deeds: task.Deeds}
}

// runTo runs to a cycle and does on the way what the processor does.
func (r *replayed) runTo(cycle uint64) {
	for len(r.deeds) > 0 && r.deeds[0].Cycle < cycle {
		d := r.deeds[0]
		r.deeds = r.deeds[1:]
		if d.Cycle > r.block.Now() {
			r.block.Run(d.Cycle - r.block.Now())
		}
		switch d.Kind {
		case "put":
			r.block.Put(r.task.Machine, d.Value)
		case "get":
			if w, ok := r.block.Get(r.task.Machine); ok {
				r.last = w
			}
		case "raise":
			r.block.RaiseFlags(d.Value)
		case "clear":
			r.block.ClearFlags(d.Value)
		}
	}
	r.block.Run(cycle - r.block.Now())
}

func (r *replayed) compare(t *testing.T, line string) {
	t.Helper()
	if r.wrong {
		return
	}
	var number string
	var clock uint64
	if _, err := fmt.Sscan(line, &number, &clock); err != nil {
		t.Fatalf("line %q: %v", line, err)
	}
	r.runTo(clock)
	s, d := r.block.State(r.task.Machine), r.block.Drive()
	tx, rx := r.block.Waiting(r.task.Machine)
	got := fmt.Sprint(number, " ", clock, " ", s.PC, " ", s.X, " ", s.Y, " ", s.ISR, " ", s.OSR, " ", s.InCount, " ", s.OutCount, " ",
		d.Levels, " ", d.Directions, " ", r.block.Flags(), " ", tx, " ", rx, " ", r.last)
	if got != line {
		r.wrong = true
		t.Errorf("program, cycle, pc, x, y, isr, osr, counts, levels, directions, flags, queues, word:\nours   %s\ntheirs %s\nafter %04x %s\n%+v",
			got, line, r.task.Memory[s.At], Disassemble(r.task.Memory[s.At], RP2040, r.task.config.Side), r.task.config)
	}
}

// randomTask makes a program of 12 words with everything that both emulators do alike.
func randomTask(r *rand.Rand) traceTask {
	const length, cycles = 12, 1500
	task := traceTask{Machine: r.IntN(4), Cycles: cycles, Instructions: 250, config: randomTraceConfig(r, length)}
	for range Memory {
		task.Memory = append(task.Memory, randomWord(r, task.config, length))
	}
	a, b, c, d := task.config.Registers(RP2040)
	task.Registers = [4]uint32{a, b, c, d}
	task.Inputs = []change{{0, r.Uint32() & 0x3fffffff}}
	for at := uint64(0); at < cycles; {
		at += r.Uint64N(12) + 1
		task.Inputs = append(task.Inputs, change{at, r.Uint32() & 0x3fffffff})
	}
	for at := uint64(0); at < cycles; {
		at += r.Uint64N(16) + 1
		kind := []string{"put", "get", "put", "get", "raise", "clear"}[r.IntN(6)]
		value := r.Uint32()
		if kind == "raise" || kind == "clear" {
			value &= 0xff
		}
		task.Deeds = append(task.Deeds, deed{at, kind, value})
	}
	return task
}

func randomTraceConfig(r *rand.Rand, length int) Config {
	c := DefaultConfig()
	c.Wrap, c.WrapTarget = length-1, r.IntN(3)
	c.Side = SideSet{Pins: r.IntN(4), Optional: r.IntN(2) == 0, Directions: r.IntN(2) == 0}
	c.OutBase, c.SetBase, c.SideBase = r.IntN(15), r.IntN(25), r.IntN(25)
	c.OutCount, c.SetCount = r.IntN(16), r.IntN(6)
	c.InBase, c.JumpPin = r.IntN(30), r.IntN(30)
	c.InShift, c.OutShift = Shift(r.IntN(2) == 0), Shift(r.IntN(2) == 0)
	c.AutoPush = r.IntN(2) == 0
	c.PushAt, c.PullAt = r.IntN(32)+1, r.IntN(32)+1
	c.Status, c.StatusLevel = StatusSource(r.IntN(2)), r.IntN(6)
	return c
}

// randomWord draws until both emulators know the word.
func randomWord(r *rand.Rand, c Config, length int) uint16 {
	for {
		w := uint16(r.Uint32())
		low, middle := int(w&31), w>>5&7
		wait := w>>13 == opWait
		switch {
		case strings.HasPrefix(Disassemble(w, RP2040, c.Side), ".word"):
		case w>>13 == opJump && low >= length:
		case w>>13 == opOut && (middle == codeOutExec || middle == codePC || low == 0):
		case w>>13 == opMove && (middle == codeMoveExec || middle == codePC):
		case w>>13 == opPushPull && w&ifBit != 0 && (w&0x80 != 0 || !c.AutoPush):
		case wait && middle&3 == waitGPIO && low > 29, wait && middle&3 == waitPin && (c.InBase+low)%32 > 29:
		case wait && r.IntN(3) > 0: // fewer of them
		default:
			return w
		}
	}
}
