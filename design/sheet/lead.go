package sheet

import "fascia/design/grid"

// first is where the first lead is; a part without leads, which no valid panel holds, is at its
// own origin.
func (k *sketch) first() grid.Point {
	if len(k.def.Terminals) == 0 {
		return grid.Point{}
	}
	return k.lead(k.def.Terminals[0])
}

// dots draws the terminals: round, the first one square.
func (k *sketch) dots(c class, radius grid.Millimetre) {
	for i, t := range k.def.Terminals {
		at := k.lead(t)
		if i == 0 {
			k.tag("rect", c+"-first")
			k.rectangle(grid.RectOf(at, at).Grown(radius*0.9), 0)
		} else {
			k.tag("circle", c)
			k.round(at, radius)
		}
		if k.classes {
			k.word("data-terminal", t.Name)
		}
		k.shut()
	}
}

// hidden rings the leads that the part's own cap or body covers, once they are covered.
func (k *sketch) hidden() {
	for _, t := range k.def.Terminals {
		if at := k.lead(t); k.main.Grown(-0.3).Contains(at) {
			k.circle(at, 0.42, "lead-hidden", "detail-near")
		}
	}
}

// joinedBars links terminals that are one metal inside the part.
func (k *sketch) joinedBars(classes ...class) {
	t := &trace{}
	for _, set := range k.def.Joined {
		for i, name := range set {
			if term, ok := k.def.Terminal(name); !ok {
				continue
			} else if i == 0 {
				t.move(k.lead(term))
			} else {
				t.line(k.lead(term))
			}
		}
	}
	k.path(t, classes...)
}
