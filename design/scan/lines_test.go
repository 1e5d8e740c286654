package scan

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"fascia/design/finding"
	"fascia/design/grid"
	"fascia/design/panel"
	"pgregory.net/rapid"
)

func onLines(p *panel.Panel) *panel.Panel { p.Scan.Style = "lines"; return p }

// leastOnLines tries every way to give keys pairs of lines and returns the fewest possible ghosts and
// the least wire with those, from the panel and results alone.
func leastOnLines(p *panel.Panel, lines int) (ghosts, wire int) {
	keys := p.Keys()
	r := &Result{Style: "lines", Rows: lines, Columns: lines, Cells: make([]Cell, len(keys))}
	ghosts, wire = 1<<30, 1<<30
	taken := make([]bool, lines*lines)
	var deal func(k int)
	deal = func(k int) {
		if k == len(keys) {
			g := len(hauntedLines(p, r))
			if w := lineWire(p, r); g < ghosts || g == ghosts && w < wire {
				ghosts, wire = g, w
			}
			return
		}
		for pair := range taken {
			if taken[pair] || pair/lines == pair%lines {
				continue
			}
			taken[pair] = true
			r.Cells[k] = Cell{Key: keys[k].ID, Row: pair / lines, Column: pair % lines}
			deal(k + 1)
			taken[pair] = false
		}
	}
	deal(0)
	return ghosts, wire
}

// Three lines hold six keys; the expected figures come from trying all arrangements, up to 720.
func TestLinesEqualBruteForce(t *testing.T) {
	for n := 1; n <= 6; n++ {
		for seed := range uint64(3) {
			t.Run(fmt.Sprintf("%d keys, seed %d", n, seed), func(t *testing.T) {
				p := onLines(scatteredKeys(n, seed))
				if n == 5 {
					withChords(p, []int{1, 2, 3})
				}
				r := Plan(p, rp2040(), 3)
				ghosts, wire := leastOnLines(p, r.Rows)
				if int(r.Cost) != wire || len(hauntedLines(p, &r)) != ghosts || !r.Proved {
					t.Errorf("%g holes and %d possible ghosts on %d lines, proved %v; want %d and %d", r.Cost, len(hauntedLines(p, &r)), r.Rows, r.Proved, wire, ghosts)
				}
				sound(t, p, &r)
			})
		}
	}
}

// The search finds what trying all arrangements finds, and the bound lies below it.
func TestLineSearchEqualsExhaustion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 6).Draw(t, "keys")
		keys := keysOf(scatteredKeys(n, rapid.Uint64Range(0, 500).Draw(t, "seed")))
		var chords [][]int
		for i := range rapid.IntRange(0, 2).Draw(t, "chords") {
			chords = append(chords, rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), 2, 3, rapid.ID[int]).Draw(t, fmt.Sprint("chord", i)))
		}
		task := newLineTask(keys, together(chords...))
		pair, ok := task.place(3)
		if !ok {
			t.Fatal("three lines don't hold the keys")
		}
		all, found := task.lineUp(3, pair), task.lineUp(3, pair)
		all.exhaust()
		for seed := range uint64(4) {
			u := task.lineUp(3, pair)
			u.anneal(6000, 8, seed+1)
			u.polish()
			if u.energy < found.energy {
				found = u
			}
		}
		if found.energy != all.energy && found.doubts >= all.doubts {
			t.Fatalf("search: %d doubts, %d holes; all: %d, %d", found.doubts, found.total, all.doubts, all.total)
		}
		if b := task.bound(3, int(all.total)); int64(b) > all.total {
			t.Fatalf("bound %d is above the least, %d", b, all.total)
		} else if f := task.ends.forestOf(rowSide, 2*n-3); b < f {
			t.Fatalf("bound %d is below the forest, %d", b, f)
		}
	})
}

// An exchange taken back leaves no trace, and one kept agrees with a count from scratch.
func TestTradesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := scatteredKeys(rapid.IntRange(2, 11).Draw(t, "keys"), rapid.Uint64Range(0, 50).Draw(t, "seed"))
		if rapid.Bool().Draw(t, "nav") {
			add(p, "five", grid.Hole{Col: 60}, "S50")
		}
		keys := keysOf(p)
		share(p, keys)
		n := len(keys)
		var chords [][]int
		for i := range rapid.IntRange(0, 3).Draw(t, "chords") {
			chords = append(chords, rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), 2, min(5, n), rapid.ID[int]).Draw(t, fmt.Sprint("chord", i)))
		}
		task := newLineTask(keys, together(chords...))
		lines := 6
		pair, ok := task.place(lines)
		if !ok {
			t.Fatal("no first pairs")
		}
		u := task.lineUp(lines, pair)
		for range 40 {
			p, q := rapid.IntRange(0, len(u.holder)-1).Draw(t, "p"), rapid.IntRange(0, len(u.holder)-1).Draw(t, "q")
			before := u.energy
			if !u.trade(p, q) {
				continue
			}
			change := u.settle(1 << 40)
			if fresh := task.lineUp(lines, u.pair); fresh.energy != u.energy || fresh.doubts != u.doubts || change != u.energy-before {
				t.Fatalf("energy %d, counted anew %d; %d doubts, counted anew %d", u.energy, fresh.energy, u.doubts, fresh.doubts)
			}
			if rapid.Bool().Draw(t, "back") {
				u.revert()
				if fresh := task.lineUp(lines, u.pair); fresh.energy != u.energy || u.energy != before || !slices.Equal(fresh.ring.occupied, u.ring.occupied) {
					t.Fatalf("energy %d after going back to %d, counted anew %d", u.energy, before, fresh.energy)
				}
			}
		}
		row := map[int]bool{}
		for k := range keys {
			if keys[k].Ref == "S50" {
				row[u.pair[k]/lines] = true
			}
		}
		if len(row) > 1 {
			t.Fatalf("contacts with a common terminal are read by %d lines", len(row))
		}
	})
}

// Ghosts listed are those that a count of diodes in a row finds, for every part of every chord.
func TestLineGhostsEqualCountedDiodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "keys")
		p := onLines(scatteredKeys(n, rapid.Uint64Range(0, 50).Draw(t, "seed")))
		withChoices(t, p, max(4, n), 4)
		r := Plan(p, rp2040(), rapid.IntRange(3, 8).Draw(t, "free"))
		listed := map[string]bool{}
		for _, g := range r.Ghosts {
			listed[g.Chord+": "+g.Phantom] = true
			if !slices.Contains(doubtful(&r, g.Pressed), g.Phantom) || !slices.Contains(Unsure(&r, g.Pressed), g.Phantom) {
				t.Fatalf("%v held leave %s in no doubt", g.Pressed, g.Phantom)
			}
			if len(g.Pressed) < 2 || slices.Contains(g.Pressed, g.Phantom) {
				t.Fatalf("ghost %+v is odd", g)
			}
		}
		if want := hauntedLines(p, &r); !reflect.DeepEqual(listed, want) {
			t.Fatalf("listed %v, counted %v", listed, want)
		}
		if stops := codes(&r)["scan-ghost"]; (stops > 0) != (len(listed) > 0) {
			t.Fatalf("%d findings for %d possible ghosts", stops, len(listed))
		}
		sound(t, p, &r)
	})
}

func TestUnsureEqualsCountedDiodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.IntRange(2, 6).Draw(t, "lines")
		r := &Result{Style: "lines", Rows: lines, Columns: lines}
		var held []string
		for row := range lines {
			for column := range lines {
				if row == column || rapid.IntRange(0, 3).Draw(t, "hole") == 0 {
					continue
				}
				k := fmt.Sprintf("K%d.%d", row, column)
				r.Cells = append(r.Cells, Cell{Key: k, Row: row, Column: column, Diode: true})
				if rapid.IntRange(0, 2).Draw(t, "held") == 0 {
					held = append(held, k)
				}
			}
		}
		if got, want := Unsure(r, held), doubtful(r, held); !slices.Equal(got, want) {
			t.Fatalf("%v held: unsure of %v, want %v", held, got, want)
		}
		if got := Reads(r, held); !slices.Equal(sorted(got), sorted(held)) {
			t.Fatalf("%v held reads %v", held, got)
		}
	})
}

func sorted(list []string) []string {
	list = slices.Clone(list)
	slices.Sort(list)
	return list
}

// Voltages of a line behind one, two and three silicon diodes and a pull of 65 k, 0.44, 0.91 and
// 1.37 V, come from a circuit simulator; V_IL is 0.8 V and V_IH 2.0 V: RP2040 data sheet table 625.
func TestTwoKeysOnLines(t *testing.T) {
	r := &Result{Style: "lines", Rows: 3, Columns: 3}
	for i, pair := range [][2]int{{0, 1}, {1, 2}, {0, 2}, {2, 0}} {
		r.Cells = append(r.Cells, Cell{Key: fmt.Sprint("K", i), Row: pair[0], Column: pair[1], Diode: true})
	}
	tests := []struct {
		name       string
		held, want []string
	}{
		{"one key never disturbs another", []string{"K0"}, nil},
		{"two in a row reach the key between their ends", []string{"K0", "K1"}, []string{"K2"}},
		{"not when that is held too", []string{"K0", "K1", "K2"}, nil},
		{"two that read by one line lie side by side", []string{"K0", "K2"}, nil},
		{"there and back reaches nothing", []string{"K2", "K3"}, nil},
	}
	for _, tt := range tests {
		if got := Unsure(r, tt.held); !slices.Equal(got, tt.want) {
			t.Errorf("%s: unsure of %v, want %v", tt.name, got, tt.want)
		}
	}
	r.Style = "matrix"
	if got := Unsure(r, []string{"K0", "K1"}); got != nil {
		t.Errorf("a matrix leaves %v in doubt", got)
	}
}

// Twenty keys fill five lines, so chords must find pairs that share their lines the right way; twelve
// chords of three do.
func TestChordsAreKeptApartOnLines(t *testing.T) {
	p := onLines(regularKeys(4, 5))
	for i := range 6 {
		withChords(p, []int{i + 1, i + 6, i + 11})
		p.Chords[i].Name = fmt.Sprint("c", i)
	}
	r := Plan(p, rp2040(), 5)
	if len(r.Ghosts) > 0 || r.Rows != 5 || len(hauntedLines(p, &r)) > 0 {
		t.Errorf("%d lines, possible ghosts %v", r.Rows, r.Ghosts)
	}
	sound(t, p, &r)
}

// A chord that no arrangement on the fewest lines keeps apart gets a line more, if a pin is free.
func TestALineMoreForAChord(t *testing.T) {
	p := withChords(onLines(regularKeys(1, 6)), []int{1, 2, 3, 4, 5})
	tight, roomy := Plan(p, rp2040(), 3), Plan(p, rp2040(), 8)
	if tight.Rows != 3 || len(tight.Ghosts) == 0 || codes(&tight)["scan-ghost"] != 1 {
		t.Errorf("on 3 pins: %d lines, ghosts %v", tight.Rows, tight.Ghosts)
	}
	if roomy.Rows <= 3 || len(roomy.Ghosts) > 0 || codes(&roomy)["scan-ghost"] != 0 {
		t.Errorf("on 8 pins: %d lines, ghosts %v", roomy.Rows, roomy.Ghosts)
	}
	i := slices.IndexFunc(tight.Choices, func(c Choice) bool { return c.Chosen })
	if c := tight.Choices[i]; c.Method != methodLines || c.Chords != 1 || c.SafeChords != 0 {
		t.Errorf("chosen %+v, want no chord safe", c)
	}
}

func TestLinesFindings(t *testing.T) {
	tests := []struct {
		name   string
		change func(p *panel.Panel)
		style  string
		code   string
		sev    finding.Severity
	}{
		{"no diodes wished for", func(p *panel.Panel) { p.Scan.Diodes = "none" }, "lines", "scan-diodes", finding.Mind},
		{"every key marked direct", func(p *panel.Panel) { markedDirect(p) }, "direct", "", 0},
		{"both sides shared", func(p *panel.Panel) {
			p.Joins = []panel.Join{{Name: "r", Terminals: []string{"S1.A1", "S2.A1"}}, {Name: "c", Terminals: []string{"S1.B1", "S3.B1"}}}
		}, "matrix", "scan-lines-shared", finding.Stop},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := onLines(regularKeys(2, 3))
			tt.change(p)
			r := Plan(p, rp2040(), 6)
			if r.Style != tt.style {
				t.Errorf("style %s, want %s", r.Style, tt.style)
			}
			if tt.code != "" && !slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { return f.Code == tt.code && f.Severity == tt.sev }) {
				t.Errorf("findings %v, want %s", r.Findings, tt.code)
			}
			sound(t, p, &r)
		})
	}
}

// A diode sits at each key's column side, so keys joined there can't be on lines; keys joined at the
// row side share the line that reads them.
func TestSharedTerminalsOnLines(t *testing.T) {
	p := onLines(regularKeys(2, 5))
	p.Joins = []panel.Join{{Name: "c", Terminals: []string{"S1.B1", "S2.B1"}}}
	add(p, "five", grid.Hole{Col: 40}, "S20")
	r := Plan(p, rp2040(), 12)
	if len(r.Direct) != 2 || r.Direct[0].Return != "S1.B1" || len(r.Cells) != 13 {
		t.Errorf("direct %+v and %d keys on lines, want S1 and S2 with pins and 13", r.Direct, len(r.Cells))
	}
	read := map[int]int{}
	for _, c := range r.Cells {
		if len(c.Key) > 3 {
			read[c.Row]++
		}
	}
	if len(read) != 1 || r.Rows != 6 {
		t.Errorf("the five-way switch is read by lines %v of %d, want one line of six: it leads to five others", read, r.Rows)
	}
	sound(t, p, &r)
}

// Chords that leave a wide choice can be held in more ways than can be listed; the plan ends all the
// same, and says what it knows.
func TestWideChoicesOnLinesEnd(t *testing.T) {
	p := onLines(scatteredKeys(30, 1))
	var all []string
	for i := range 30 {
		all = append(all, fmt.Sprint("S", i+1))
	}
	for i := range 10 {
		p.Chords = append(p.Chords, panel.Chord{Name: fmt.Sprint("c", i), Any: []panel.AnyOf{{Count: 2 + i%8, Of: all[i : i+20]}}})
	}
	r := Plan(p, rp2040(), 6)
	if got := codes(&r); got["scan-ghost"] != 10 || len(r.Ghosts) == 0 {
		t.Errorf("findings %v", got)
	}
	for _, g := range r.Ghosts {
		if len(g.Pressed) > 2 && g.Chord == "c0" || !slices.Contains(doubtful(&r, g.Pressed), g.Phantom) {
			t.Fatalf("ghost %+v, and two keys of c0 may be held", g)
		}
	}
	sound(t, p, &r)
}
