package scan

// count sets how many wires of the forests each crowd has.
func (p *pricing) count() {
	for i := range p.crowds {
		p.crowds[i].have = 0
	}
	for side := range 2 {
		for _, e := range p.chosen[side] {
			for _, c := range p.in[e] {
				p.crowds[c].have++
			}
		}
	}
}

// The step of prices: how much of the last direction stays in the next, in 1/256, and how often the
// bound may fail to rise before the steps get smaller.
const (
	carried  = 180
	patience = 8
)

// move changes prices along the subgradient by a step that would close gap if the bound rose
// straight; pace is in 1/256. It is false when there is nowhere to go.
func (p *pricing) move(gap int64, pace int64) bool {
	norm := int64(0)
	for i := range p.crowds {
		c := &p.crowds[i]
		c.pull = int64(c.have-c.most)*256 + c.pull*carried/256
		if c.pull > 0 || c.price > 0 {
			norm += c.pull * c.pull
		}
	}
	if norm == 0 {
		return false
	}
	for i := range p.crowds {
		c := &p.crowds[i]
		p.charge(c, max(0, c.price+gap*pace/256*c.pull*256/norm))
	}
	return true
}

func (p *pricing) charge(c *crowd, price int64) {
	if price == c.price {
		return
	}
	for _, e := range c.spans {
		p.extra[e] += price - c.price
	}
	c.price = price
}

// remember lets the forests count among those of late, for one part in fade.
func (p *pricing) remember(fade int32) {
	kept := p.recent[:0]
	for _, e := range p.recent {
		if p.late[e] -= (p.late[e] + fade - 1) / fade; p.late[e] > 0 {
			kept = append(kept, e)
		}
	}
	p.recent = kept
	for side := range 2 {
		for _, e := range p.chosen[side] {
			if p.late[e] == 0 {
				p.recent = append(p.recent, e)
			}
			p.late[e] += weight / fade
		}
	}
}

// seek opens crowds that were overfull of late and reports whether there were any.
func (p *pricing) seek(slack int32) (found bool) {
	p.web.clear()
	for _, e := range p.recent {
		if p.late[e] > weight/50 {
			p.web.tie(p.ends[e][0], p.ends[e][1], p.late[e])
		}
	}
	for _, e := range p.recent {
		if p.late[e] > weight/50 {
			p.web.overfull(p.ends[e][0], p.ends[e][1], &p.crowding, slack, func(keys []int) { found = p.add(keys) || found })
		}
	}
	for _, thin := range p.crowding.thin {
		if keys := p.web.knot(thin, slack); keys != nil {
			found = p.add(keys) || found
		}
	}
	return found
}

// back returns to the best prices.
func (p *pricing) back() int64 {
	for i := range p.crowds {
		p.charge(&p.crowds[i], p.crowds[i].best)
		p.crowds[i].pull = 0
	}
	return p.forests()
}

// forget closes crowds that have had no price for long.
func (p *pricing) forget() {
	const tooLong = 1
	gone := false
	for i := range p.crowds {
		c := &p.crowds[i]
		c.idle++
		if c.price > 0 || c.best > 0 {
			c.idle = 0
		}
		gone = gone || c.idle > tooLong
	}
	if !gone {
		return
	}
	kept := p.crowds
	p.crowds = make([]crowd, 0, len(kept))
	p.known = map[string]bool{}
	for _, e := range p.priced {
		p.in[e] = p.in[e][:0]
	}
	for _, c := range kept {
		if c.idle <= tooLong {
			p.add(c.keys)
			last := &p.crowds[len(p.crowds)-1]
			last.price, last.best, last.pull, last.idle = c.price, c.best, c.pull, c.idle
		}
	}
}

// climb raises the bound in so many rounds and returns the best, in whole holes; it stops when that
// reaches enough, and leaves the best prices.
func (p *pricing) climb(rounds, enough int) int {
	target := int64(enough) * perPrice
	z := p.forests()
	best := z
	pace, since := int64(256), 0
	p.remember(1)
	p.seek(0)
	for round := 1; round <= rounds && best <= target-perPrice; round++ {
		p.count()
		if !p.move(max(target-z, perPrice), pace) {
			if p.remember(1); !p.seek(0) {
				break // the forests keep to all crowds there are
			}
			continue
		}
		z = p.forests()
		p.remember(10)
		if z > best {
			best, since = z, 0
			for i := range p.crowds {
				p.crowds[i].best = p.crowds[i].price
			}
		} else if since++; since > patience {
			pace, since = max(1, pace*7/10), 0
			z = p.back()
		}
		if round%5 == 0 {
			p.seek(weight / 20)
		}
		if round%40 == 0 {
			p.forget()
		}
	}
	p.back()
	return int((best + perPrice - 1) / perPrice)
}
