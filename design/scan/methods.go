package scan

// The methods, as a Choice names them.
const (
	methodDirect   = "direct"
	methodMatrix   = "matrix"
	methodDiodes   = "matrix with diodes"
	methodLines    = "lines with diodes"
	methodExpander = "expander"
)

// A part with two leads adds two joints.
const jointsEach = 2

// matrixHolds is the most keys that a matrix on so many pins holds.
func matrixHolds(pins int) int { return pins / 2 * (pins - pins/2) }

// linesHold is the most keys that lines with diodes hold: one for each ordered pair of lines.
func linesHold(pins int) int { return max(0, pins*(pins-1)) }

// linesFor is the fewest lines that hold n keys.
func linesFor(n int) int {
	l := 2
	for linesHold(l) < n {
		l++
	}
	return l
}

// chipsFor is how many expanders n keys take, each of which can read so many.
func chipsFor(n, each int) int {
	if each < 1 {
		each = 1
	}
	return (n + each - 1) / each
}

// leastShapes lists, for each number of rows, the matrix of fewest columns that holds n keys, if it
// takes fewer pins than a pin for each key does: fewest pins first, then fewer rows. None of them
// could lose a row or a column.
func leastShapes(n int) []shape {
	var list []shape
	for pins := 2; pins < n; pins++ {
		for r := 1; r < pins; r++ {
			if s := (shape{r, pins - r}); s.holdsTight(n) {
				list = append(list, s)
			}
		}
	}
	return list
}
