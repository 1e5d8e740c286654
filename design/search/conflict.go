package search

import "slices"

// Conflict returns a smallest-by-inclusion set of wishes, out of n, that cannot hold together: it is
// infeasible, and without any one of its members it is feasible. Of several such sets it returns one
// that avoids late wishes, so put those first that should be blamed. It returns nil when all n hold
// together, and an empty set when not even none of them do. feasible is given ascending numbers and
// must not keep the slice; it must say yes to every part of a set it said yes to. It is called
// O(k log(n/k)) times for a set of k.
//
// Junker, QuickXplain: preferred explanations and relaxations for over-constrained problems (2004).
func Conflict(n int, feasible func([]int) bool) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	if feasible(all) {
		return nil
	}
	if n == 0 || !feasible(nil) {
		return []int{}
	}
	found := explain(nil, false, all, feasible)
	slices.Sort(found)
	return found
}

// explain returns the wishes out of open that clash together with those of held. grown says that
// held was added to since it was last tried.
func explain(held []int, grown bool, open []int, feasible func([]int) bool) []int {
	if grown && !feasible(sorted(held)) {
		return nil
	}
	if len(open) == 1 {
		return open
	}
	first, second := open[:len(open)/2], open[len(open)/2:]
	late := explain(slices.Concat(held, first), true, second, feasible)
	early := explain(slices.Concat(held, late), len(late) > 0, first, feasible)
	return slices.Concat(early, late)
}

func sorted(list []int) []int {
	list = slices.Clone(list)
	slices.Sort(list)
	return list
}
