package scan

import "slices"

// mostSets bounds the sets that one chord is written out as.
const mostSets = 200

// sets lists the largest sets of keys that a chord asks for. When there are more than mostSets it is
// the one set of all its keys, which asks for more, and all is false.
func (c *chord) sets() (list [][]int, all bool) {
	ways := 1
	for _, a := range c.choices {
		if ways *= waysToChoose(len(a.of), a.count); ways > mostSets {
			return [][]int{c.all()}, false
		}
	}
	list = [][]int{c.keys}
	for _, a := range c.choices {
		var longer [][]int
		for _, set := range list {
			eachChoice(a.of, a.count, func(chosen []int) {
				more := append(slices.Clone(set), chosen...)
				slices.Sort(more)
				longer = append(longer, slices.Compact(more))
			})
		}
		list = longer
	}
	return list, true
}

// waysToChoose is how many sets of k there are of n, at most mostSets+1.
func waysToChoose(n, k int) int {
	ways := 1
	for i := range min(k, n-k) {
		if ways = ways * (n - i) / (i + 1); ways > mostSets {
			return mostSets + 1
		}
	}
	return ways
}

// eachChoice calls f with every set of k of some numbers, in order.
func eachChoice(of []int, k int, f func(chosen []int)) {
	chosen := make([]int, 0, k)
	var pick func(from int)
	pick = func(from int) {
		if len(chosen) == k {
			f(chosen)
			return
		}
		for i := from; i <= len(of)-(k-len(chosen)); i++ {
			chosen = append(chosen, of[i])
			pick(i + 1)
			chosen = chosen[:len(chosen)-1]
		}
	}
	pick(0)
}

// distinctSets writes chords out, without names and repeats.
func distinctSets(chords []chord) [][]int {
	var sets [][]int
	for i := range chords {
		list, _ := chords[i].sets()
		for _, set := range list {
			if !slices.ContainsFunc(sets, func(s []int) bool { return slices.Equal(s, set) }) {
				sets = append(sets, set)
			}
		}
	}
	return sets
}
