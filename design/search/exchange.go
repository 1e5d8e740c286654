package search

// descend takes steps that better the answer until there is none.
func (w *weaver) descend() {
	for w.exchangeAll() {
	}
}

// exchangeAll tries every member in every slot, in exchange with the member there, and keeps what is
// better.
func (w *weaver) exchangeAll() (better bool) {
	for m := range w.slot {
		for j := range w.at {
			if n := w.at[j]; n < m && j != w.slot[m] && w.level(m, j) && w.gains(m, j) && w.exchange(m, j) {
				better = true
			}
		}
	}
	return better
}

// level reports whether the cost stays as it is when m goes to slot j and what is there takes its place.
func (w *weaver) level(m, j int) bool {
	i, n := w.slot[m], w.at[j]
	if w.units[m][j] == Never {
		return false
	}
	if n < 0 {
		return w.units[m][j] == w.units[m][i]
	}
	return w.units[n][i] != Never && w.units[m][j]+w.units[n][i] == w.units[m][i]+w.units[n][j]
}

// gains reports whether fewer pairs are at odds after the exchange of m with slot j, or as many with
// less of Last.
func (w *weaver) gains(m, j int) bool {
	i, n := w.slot[m], w.at[j]
	before, change := w.count[m], w.Last[m][j]-w.Last[m][i]
	if n >= 0 {
		before += w.count[n]
		if w.atOdds(m, i, n, j) {
			before--
		}
		change += w.Last[n][i] - w.Last[n][j]
	}
	if before == 0 {
		if change >= 0 {
			return false
		}
	}
	if change < 0 {
		before++
	}
	return w.countAt(m, j, n, i, before) < before
}

// countAt counts the pairs that m in slot j, and n in slot i unless it is negative, would be in. It
// stops at enough.
func (w *weaver) countAt(m, j, n, i, enough int) int {
	total := 0
	if n >= 0 && w.atOdds(m, j, n, i) {
		total++
	}
	for k, at := range w.slot {
		if k == m || k == n {
			continue
		}
		if w.atOdds(m, j, k, at) {
			total++
		}
		if n >= 0 && w.atOdds(n, i, k, at) {
			total++
		}
		if total >= enough {
			return total
		}
	}
	return total
}

// exchange moves m to slot j and what is there to where m was. It reports false, and changes nothing,
// when a group would then sit where it may not.
func (w *weaver) exchange(m, j int) bool {
	i, n := w.slot[m], w.at[j]
	w.move(m, n, j, i)
	if !w.settled(m, n) {
		w.move(m, n, i, j)
		return false
	}
	w.update(m, i, j, n)
	if n >= 0 {
		w.update(n, j, i, m)
		if w.atOdds(m, i, n, j) != w.atOdds(m, j, n, i) {
			change := 1
			if w.atOdds(m, i, n, j) {
				change = -1
			}
			w.odds += change
			w.count[m] += change
			w.count[n] += change
		}
	}
	return true
}

// update counts anew the pairs that m is in, but that with n, after it went from slot i to slot j.
func (w *weaver) update(m, i, j, n int) {
	for k, at := range w.slot {
		if k == m || k == n {
			continue
		}
		change := 0
		if w.atOdds(m, j, k, at) {
			change++
		}
		if w.atOdds(m, i, k, at) {
			change--
		}
		w.odds += change
		w.count[m] += change
		w.count[k] += change
	}
}

// move puts m into slot j and n, unless it is negative, into slot i.
func (w *weaver) move(m, n, j, i int) {
	w.at[i], w.at[j] = n, m
	w.slot[m] = j
	if n >= 0 {
		w.slot[n] = i
	}
}

// settled brings the tokens of the groups of m and n up to date; false, with the tokens as they were,
// when one cannot sit so.
func (w *weaver) settled(m, n int) bool {
	a, b := w.group[m], -1
	if n >= 0 {
		b = w.group[n]
	}
	if a == b && (a < 0 || w.Problem.Groups[a].AnyOrder) {
		return true
	}
	return w.settle(a, b)
}

func (w *weaver) settle(groups ...int) bool {
	var before [2]uint64
	for k, g := range groups {
		if g >= 0 {
			before[k], w.tokens[g] = w.tokens[g], 0
		}
	}
	ok := true
	for _, g := range groups {
		if g >= 0 && ok {
			w.tokens[g], ok = w.holds(g)
		}
	}
	if !ok {
		for k, g := range groups {
			if g >= 0 {
				w.tokens[g] = before[k]
			}
		}
	}
	return ok
}
