package pinning

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"fascia/design/panel"
	"fascia/design/part"
	"fascia/design/signal"
)

// possible tries everything: whether wishes hold together, by the closed forms of the function table and
// the wording of the wishes alone. A lock gives its pin to its signal, whether or not that is wanted.
func possible(t *task, wishes []wish) bool {
	owner, closed := map[int]int{}, slices.Clone(t.joined)
	locked := map[int]int{}
	var order []int
	for _, w := range wishes {
		switch w.kind {
		case wishKept:
			closed[w.pin] = true
		case wishLock:
			s := w.signals[0]
			if pin, twice := locked[s]; twice && pin != w.pin {
				return false
			}
			if other, twice := owner[w.pin]; twice && other != s {
				return false
			}
			locked[s], owner[w.pin] = w.pin, s
		default:
			order = append(order, w.signals...)
		}
	}
	for pin := range owner {
		if closed[pin] {
			return false
		}
	}
	at := map[int]int{}
	var try func(i int) bool
	try = func(i int) bool {
		if i == len(order) {
			return true
		}
		s := order[i]
		for pin := range t.pins {
			if _, able := instanceFor(t.pins[pin].GPIO, t.signals[s].Wants); !able || closed[pin] {
				continue
			}
			if lock, tied := locked[s]; tied && lock != pin {
				continue
			}
			if o, owned := owner[pin]; owned && o != s {
				continue
			}
			at[s] = pin
			if agrees(t, wishes, at, s) && try(i+1) {
				return true
			}
			delete(at, s)
		}
		return false
	}
	return try(0)
}

// agrees reports whether signal s on its pin goes with what is placed so far.
func agrees(t *task, wishes []wish, at map[int]int, s int) bool {
	for other, pin := range at {
		if other == s {
			continue
		}
		a, b := t.signals[s], t.signals[other]
		i, _ := instanceFor(t.pins[at[s]].GPIO, a.Wants)
		j, _ := instanceFor(t.pins[pin].GPIO, b.Wants)
		kind := func(s signal.Signal) string { return string(s.Wants)[:3] }
		switch {
		case pin == at[s]:
			return false
		case a.Wants == part.PWM && b.Wants == part.PWM && i == j:
			return false
		case a.Bus != "" && b.Bus != "" && kind(a) == kind(b) && (a.Bus == b.Bus) != (i == j):
			return false
		}
	}
	for _, w := range wishes {
		if w.kind != wishRun || !slices.Contains(w.signals, s) {
			continue
		}
		least, most := 64, -1
		for _, line := range w.signals {
			if pin, placed := at[line]; placed {
				least, most = min(least, t.pins[pin].GPIO), max(most, t.pins[pin].GPIO)
			}
		}
		if most-least >= len(w.signals) {
			return false
		}
	}
	return true
}

// refusedTasks calls f with each of so many impossible panels.
func refusedTasks(t *testing.T, many int, f func(seed uint64, t *task, r Result)) {
	t.Helper()
	seen := 0
	for seed := uint64(1_000); seen < many && seed < 10_000; seed++ {
		p, m, list := smallPanel(seed)
		if r := Assign(p, m, "U1", list); len(r.Conflict) > 0 {
			seen++
			f(seed, newTask(p, m, "U1", list), r)
		}
	}
	if seen < many {
		t.Errorf("only %d panels were impossible", seen)
	}
}

// A conflict clashes, and no part of it does: by trying everything.
func TestConflictIsSmallestByTryingAll(t *testing.T) {
	refusedTasks(t, 250, func(seed uint64, task *task, _ Result) {
		conflict := task.smallest()
		if plain := task.plainClashes(); len(plain) > 0 && plain[0].finding.Code != "pin-too-few" {
			conflict = plain[0].wishes
		}
		if len(conflict) == 0 {
			t.Fatalf("seed %d: no conflict", seed)
		}
		if possible(task, conflict) {
			t.Errorf("seed %d: no clash: %v", seed, task.sentences(conflict))
		}
		for i := range conflict { // what holds with more wishes holds with fewer
			if rest := slices.Delete(slices.Clone(conflict), i, i+1); !possible(task, rest) {
				t.Errorf("seed %d: a clash without %q too: %v", seed, task.sentence(conflict[i]), task.sentences(conflict))
			}
		}
	})
}

// Every concession that is an edit works when it is made, and costs what it says.
func TestConcessionsWork(t *testing.T) {
	edits, several, none := 0, 0, 0
	refusedTasks(t, 250, func(seed uint64, task *task, r Result) {
		if len(r.Concessions) == 0 {
			none++
		}
		for _, c := range r.Concessions {
			if c.Change == "" || c.Wish == "" && !strings.Contains(c.Change, ".") {
				t.Errorf("seed %d: %+v", seed, c)
			}
			if len(c.Edit) == 0 {
				continue
			}
			edits++
			if c.Wish == "" {
				several++
			}
			edit, err := panel.DecodeEdit(c.Edit)
			if err != nil {
				t.Fatal(err)
			}
			after, _, err := panel.Apply(*task.panel, edit)
			if err != nil {
				t.Fatal(err)
			}
			signals := task.signals
			if after.Scan.Reader == "polled" {
				signals = polling(signals)
			}
			again := Assign(&after, task.module, "U1", signals)
			if len(again.Conflict) > 0 {
				t.Errorf("seed %d: %s: %v", seed, c.Change, again.Conflict)
			} else if again.Cost != c.Cost && c.Proved {
				t.Errorf("seed %d: %s: costs %v, not %v", seed, c.Change, again.Cost, c.Cost)
			}
		}
	})
	if edits < 100 || several == 0 || none > 100 {
		t.Errorf("%d edits were tried, %d of several wishes; %d panels had nothing to offer", edits, several, none)
	}
}

// What a part's absence would mend is mended by it.
func TestLeavingOutWorks(t *testing.T) {
	tried := 0
	refusedTasks(t, 120, func(seed uint64, task *task, r Result) {
		wishes := task.smallest()
		if plain := task.plainClashes(); len(plain) > 0 {
			wishes = plain[0].wishes
		}
		for _, w := range wishes {
			c, ok := task.giveUp(w)
			if !ok || c.edit != nil || !slices.ContainsFunc(r.Concessions, func(o Concession) bool { return o.Change == c.says }) {
				continue
			}
			tried++
			edit := panel.Remove{Refs: task.where(w.signals[0]).Refs}
			for _, s := range w.signals[1:] {
				edit.Refs = append(edit.Refs, task.where(s).Refs...)
			}
			after, _, err := panel.Apply(*task.panel, &edit)
			if err != nil {
				t.Fatal(err)
			}
			rest := slices.DeleteFunc(slices.Clone(task.signals), func(s signal.Signal) bool { return slices.Contains(edit.Refs, s.Terminals[0].Ref) })
			if again := Assign(&after, task.module, "U1", rest); len(again.Conflict) > 0 {
				t.Errorf("seed %d: %s: %v", seed, c.says, again.Conflict)
			}
		}
	})
	if tried == 0 {
		t.Error("no part was left out")
	}
}

// The page gets edits as it sends them.
func TestConcessionAsJSON(t *testing.T) {
	p, m := bench(near(4, 5)...)
	p.Pins.Locked = map[string]string{"P1.X": "GP2", "P2.X": "GP2"}
	r := Assign(p, m, "U1", wants(out, out))
	text, err := json.Marshal(r.Concessions)
	if err != nil {
		t.Fatal(err)
	}
	// GP2 is beside P1 and GP3 beside P2, which are a row apart.
	want := `[{"wish":"P2.X is locked to GP2.","change":"Take the lock of P2.X away.","edit":{"do":"lock-pin","signal":"P2.X","gpio":""},"cost":2,"proved":true},` +
		`{"wish":"P2.X is locked to GP2.","change":"Lock P2.X to GP3 in place of GP2.","edit":{"do":"lock-pin","signal":"P2.X","gpio":"GP3"},"cost":2,"proved":true},` +
		`{"wish":"P1.X is locked to GP2.","change":"Take the lock of P1.X away.","edit":{"do":"lock-pin","signal":"P1.X","gpio":""},"cost":4,"proved":true},` +
		`{"wish":"P1.X is locked to GP2.","change":"Lock P1.X to GP3 in place of GP2.","edit":{"do":"lock-pin","signal":"P1.X","gpio":"GP3"},"cost":4,"proved":true}]`
	if string(text) != want {
		t.Errorf("got %s\nwant %s", text, want)
	}
}
