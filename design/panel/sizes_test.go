package panel

import "testing"

// Margins computed by hand from outline, pitch and count: (50 - 17 x 2.54) / 2 = 3.41 and so on.
func TestSizeMargins(t *testing.T) {
	tests := []struct {
		name string
		size Size
		want [4]float64
	}{
		{"70 x 50", Size{70, 50, 24, 18}, [4]float64{5.79, 3.41, 5.79, 3.41}},
		{"50 x 70", Size{70, 50, 24, 18}.Upright(), [4]float64{3.41, 5.79, 3.41, 5.79}},
		{"90 x 70", Size{90, 70, 31, 26}, [4]float64{6.9, 3.25, 6.9, 3.25}},
		{"100 x 100", Size{100, 100, 37, 37}, [4]float64{4.28, 4.28, 4.28, 4.28}},
	}
	for _, tt := range tests {
		if got := tt.size.Margins(); got != tt.want {
			t.Errorf("%s: margins %v, want %v", tt.name, got, tt.want)
		}
	}
}

// Every common size makes a board that is valid.
func TestCommonSizesAreValid(t *testing.T) {
	for _, s := range CommonSizes {
		for _, z := range []Size{s, s.Upright()} {
			p := New("x")
			m := z.Margins()
			p.Boards[0].Columns, p.Boards[0].Rows, p.Boards[0].Margins = z.Columns, z.Rows, &m
			if err := p.Validate(); err != nil {
				t.Errorf("%d x %d mm: %v", z.WidthMM, z.HeightMM, err)
			}
		}
	}
}
