package scan

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// fullMatrix is a result with a key K0, K1 … in every cell and no diodes.
func fullMatrix(rows, columns int) *Result {
	r := &Result{Style: "matrix", Rows: rows, Columns: columns}
	for cell := range rows * columns {
		r.Cells = append(r.Cells, Cell{Key: fmt.Sprintf("K%d", cell), Row: cell / columns, Column: cell % columns, Code: cell})
	}
	return r
}

// held names cells of a full matrix.
func held(cells ...int) []string {
	var ids []string
	for _, c := range cells {
		ids = append(ids, fmt.Sprintf("K%d", c))
	}
	return ids
}

func TestReads(t *testing.T) {
	const zephyr = "Zephyr input_kbd_matrix driver, comment on ghosting"
	tests := []struct {
		name, source  string
		rows, columns int
		diodes        []int
		pressed, want []int
	}{
		{"nothing held", "common practice, no source", 2, 2, nil, nil, nil},
		{"three corners ghost the fourth", zephyr, 2, 2, nil, []int{0, 1, 2}, []int{0, 1, 2, 3}},
		{"corners need not be neighbours", zephyr, 3, 4, nil, []int{0, 3, 8}, []int{0, 3, 8, 11}},
		{"a line never ghosts", "common practice, no source", 3, 3, nil, []int{0, 1, 2}, []int{0, 1, 2}},
		{"a diode at the elbow is enough", "computed with a circuit simulator: row at 3.30 V", 2, 2, []int{0}, []int{0, 1, 2}, []int{0, 1, 2}},
		{"diodes at the other two are not", "the current passes both forward, computed", 2, 2, []int{1, 2}, []int{0, 1, 2}, []int{0, 1, 2, 3}},
		{"a diode at every key", "RIOT matrix_keypad driver documentation", 2, 2, []int{0, 1, 2, 3}, []int{0, 1, 2}, []int{0, 1, 2}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := fullMatrix(tt.rows, tt.columns)
			for _, d := range tt.diodes {
				r.Cells[d].Diode = true
			}
			if got := Reads(r, held(tt.pressed...)); !slices.Equal(got, held(tt.want...)) {
				t.Errorf("%v held reads %v, want %v (%s)", held(tt.pressed...), got, held(tt.want...), tt.source)
			}
		})
	}
}

func TestReadsDirectKeys(t *testing.T) {
	r := fullMatrix(2, 2)
	r.Direct = []Direct{{Key: "D1"}, {Key: "D2"}}
	got := Reads(r, []string{"D2", "K0", "K1", "nobody", "D1"})
	if want := []string{"K0", "K1", "D1", "D2"}; !slices.Equal(got, want) {
		t.Errorf("read %v, want %v", got, want)
	}
}

// Counted by hand: an L of three keys picks two rows, two columns and the corner left open, so
// 4 * C(5,2) * C(8,2) = 1,120. The quadruples are counted by a second method, merging clusters.
func TestGhostingSetsOfFiveByEight(t *testing.T) {
	b := benchOf(fullMatrix(5, 8))
	ghosts := func(size int) (n, all int) {
		for part, more := firstPart(size, 40); more; part, more = nextPart(part, 40) {
			all++
			if len(b.read(pick(numbers(40), part))) > size {
				n++
			}
		}
		return n, all
	}
	tests := []struct{ size, ghosting, all int }{{2, 0, 780}, {3, 4 * 10 * 28, 9880}, {4, 30240, 91390}}
	for _, tt := range tests {
		if n, all := ghosts(tt.size); n != tt.ghosting || all != tt.all {
			t.Errorf("%d of %d sets of %d keys ghost, want %d of %d", n, all, tt.size, tt.ghosting, tt.all)
		}
	}
	merged := 0
	for part, more := firstPart(4, 40); more; part, more = nextPart(part, 40) {
		if len(joinedCells(5, 8, pick(numbers(40), part))) > 4 {
			merged++
		}
	}
	if merged != 30240 {
		t.Errorf("by merging clusters %d quadruples ghost, want 30240", merged)
	}
}

func numbers(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

func TestReadsEqualsClusters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows, columns := rapid.IntRange(1, 5).Draw(t, "rows"), rapid.IntRange(1, 5).Draw(t, "columns")
		pressed := rapid.SliceOfNDistinct(rapid.IntRange(0, rows*columns-1), 0, -1, rapid.ID[int]).Draw(t, "pressed")
		got := benchOf(fullMatrix(rows, columns)).read(pressed)
		if want := joinedCells(rows, columns, pressed); !slices.Equal(got, want) {
			t.Fatalf("%v in %d x %d reads %v, want %v", pressed, rows, columns, got, want)
		}
	})
}

func TestPartsOfASet(t *testing.T) {
	for width := range 12 {
		for size := 1; size <= width; size++ {
			n := 0
			for _, more := firstPart(size, width); more; n++ {
				var part uint64
				part, more = firstPart(size, width)
				for range n {
					part, more = nextPart(part, width)
				}
				if !more {
					break
				}
			}
			if want := choose(width, size); n != want {
				t.Errorf("%d parts of %d from %d, want %d", n, size, width, want)
			}
		}
	}
	last := uint64(7) << 61
	if _, more := nextPart(last, 64); more {
		t.Error("the last part of 64 has a next one")
	}
}

func choose(n, k int) int {
	c := 1
	for i := range k {
		c = c * (n - i) / (i + 1)
	}
	return c
}
