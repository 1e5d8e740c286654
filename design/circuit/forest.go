package circuit

// A forest joins numbers into sets (union-find).
type forest struct{ parent []int }

func (f *forest) reset(n int) {
	f.parent = f.parent[:0]
	for i := range n {
		f.parent = append(f.parent, i)
	}
}

func (f *forest) find(n int) int {
	for f.parent[n] != n {
		f.parent[n] = f.parent[f.parent[n]]
		n = f.parent[n]
	}
	return n
}

// unite joins two sets; the smaller number stands for the whole.
func (f *forest) unite(a, b int) {
	a, b = f.find(a), f.find(b)
	f.parent[max(a, b)] = min(a, b)
}
