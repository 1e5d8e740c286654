package bench

import (
	"cmp"
	"slices"

	"fascia/design/fit"
	"fascia/design/grid"
	"fascia/design/panel"
)

// require says which jobs wait for which: a wire for the parts whose leads it meets, and whatever
// is soldered at a hole for nothing that covers that hole.
func require(f *fit.Result, jobs []*job) {
	byRef := map[string]int{}
	for i, j := range jobs {
		if len(j.step.Refs) > 0 {
			byRef[j.step.Refs[0]] = i
		}
	}
	for _, o := range f.Orders {
		first, then := byRef[o.First], byRef[o.Then]
		jobs[then].after = append(jobs[then].after, first)
	}
	leadsAt := map[grid.Hole][]string{}
	for _, l := range f.Leads {
		leadsAt[l.Hole] = append(leadsAt[l.Hole], l.Ref)
	}
	for i, j := range jobs {
		if j.step.Wire == 0 {
			continue
		}
		own := map[string]bool{}
		for _, h := range []grid.Hole{j.step.Holes[0], j.step.Holes[len(j.step.Holes)-1]} {
			for _, ref := range leadsAt[h] {
				own[ref] = true
				j.after = append(j.after, byRef[ref])
			}
		}
		for _, ref := range coverers(f, j.step) {
			if !own[ref] {
				jobs[byRef[ref]].after = append(jobs[byRef[ref]].after, i)
			}
		}
	}
}

// coverers lists the parts with a body over a hole of s on the face that s is done on. What comes
// off its socket covers nothing.
func coverers(f *fit.Result, s Step) []string {
	var refs []string
	for _, b := range f.Bodies {
		if b.Plugged || b.Face != s.Face || slices.Contains(refs, b.Ref) {
			continue
		}
		if slices.ContainsFunc(s.Holes, func(h grid.Hole) bool { return b.Rect.Contains(h.Centre()) }) {
			refs = append(refs, b.Ref)
		}
	}
	return refs
}

// inOrder takes, again and again, the job of lowest stage, height and list place that waits for
// nothing; in a circle of waiting jobs, simply the lowest.
func inOrder(jobs []*job) []*job {
	done := make([]bool, len(jobs))
	var order []*job
	for range jobs {
		best, ready := -1, false
		for i, j := range jobs {
			if done[i] {
				continue
			}
			free := !slices.ContainsFunc(j.after, func(k int) bool { return !done[k] && k != i })
			if best < 0 || free && !ready || free == ready && j.before(jobs[best]) {
				best, ready = i, free
			}
		}
		done[best] = true
		order = append(order, jobs[best])
	}
	return order
}

func (j *job) before(k *job) bool {
	if j.rank != k.rank {
		return j.rank < k.rank
	}
	if j.step.Wire == 0 && k.step.Wire == 0 {
		return cmp.Or(cmp.Compare(j.height, k.height), panel.CompareRefs(j.step.Refs[0], k.step.Refs[0])) < 0
	}
	return j.height < k.height
}
