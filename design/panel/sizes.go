package panel

// A Size is a board outline as it is commonly sold, the long side across.
type Size struct {
	WidthMM, HeightMM int
	Columns, Rows     int
}

// CommonSizes lists the usual outlines with the hole counts they mostly have. Common practice, no
// source: makers differ, so a maker must be able to say otherwise.
var CommonSizes = []Size{
	{80, 20, 28, 6}, {70, 30, 24, 10}, {60, 40, 20, 14}, {70, 50, 24, 18}, {80, 60, 28, 22},
	{90, 70, 31, 26}, {120, 80, 45, 30}, {150, 90, 54, 31}, {100, 100, 37, 37},
}

// Upright is the same board with its long side upright.
func (s Size) Upright() Size { return Size{s.HeightMM, s.WidthMM, s.Rows, s.Columns} }

// Margins are the distances from the outer hole centres to the edges: left, top, right, bottom, to
// a hundredth of a millimetre. The holes are taken to lie in the middle.
func (s Size) Margins() [4]float64 {
	x, y := margin(s.WidthMM, s.Columns), margin(s.HeightMM, s.Rows)
	return [4]float64{x, y, x, y}
}

// margin works in hundredths of a millimetre, in which the pitch is 254; an odd hundredth falls away.
func margin(length, holes int) float64 {
	return float64((length*100-(holes-1)*254)/2) / 100
}
