package check

import (
	"fascia/design/netlist"
	"fascia/design/panel"
)

// A loss is what wires take from one part between it and the part that feeds it, there and back.
type loss struct {
	it, giver *item
	net       string
	span      span
	mv        float64
	ways      [2]way // there, and back
}

// A way leads from the part that feeds to a joint of the part that is fed; the zero way is unknown.
type way struct {
	over     *conductor
	from, to joint
}

// ohms is the resistance of both ways.
func (l *loss) ohms() float64 {
	sum := 0.0
	for _, w := range l.ways {
		if w.over != nil {
			sum += w.over.drops(w.from, map[joint]float64{w.to: 1000})[w.to] / 1000
		}
	}
	return sum
}

// losses is what the wires take from every part that is fed, in order of nets and parts.
func (v *view) losses() []loss {
	if v.lost == nil {
		list := v.findLosses()
		v.lost = &list
	}
	return *v.lost
}

func (v *view) findLosses() []loss {
	if v.Wiring == nil || len(v.Wiring.Wires) == 0 {
		return nil
	}
	all := v.loads()
	var list []loss
	for i := range v.nets.Nets {
		if s, fed := v.volts(&v.nets.Nets[i]); fed {
			list = append(list, v.lossesOn(&v.nets.Nets[i], s, all)...)
		}
	}
	return list
}

func (v *view) lossesOn(n *netlist.Net, s span, all []load) []loss {
	giver, ends := v.giver(n)
	if giver == nil {
		return nil
	}
	c, root := v.conductorOf(n, ends), v.jointOf(ends[0])
	leave := map[joint]float64{}
	for _, l := range all {
		if v.netOf[l.from] == n && l.from.Ref != giver.Ref {
			leave[c.find(v.jointOf(l.from))] += l.ma
		}
	}
	there, back := c.drops(root, leave), v.groundOf(giver, all)
	var list []loss
	for i := range v.items {
		it := &v.items[i]
		ref, fed := v.fedAt(it)
		if !fed || it == giver || v.netOf[ref] != n {
			continue
		}
		at := c.find(v.jointOf(ref))
		if mv, ok := there[at]; ok {
			home, lift := back.to(v.groundEnd(it))
			list = append(list, loss{it, giver, n.Name, s, mv + lift, [2]way{{c, root, at}, home}})
		}
	}
	return list
}

// A returnPath is the ground wires as seen from a part that feeds others, with the currents of all
// supplies in them. Without wires it is zero and knows no way.
type returnPath struct {
	over  *conductor
	root  joint
	drops map[joint]float64
}

func (v *view) groundOf(giver *item, all []load) returnPath {
	end := v.groundEnd(giver)
	n := v.netOf[end]
	if n == nil {
		return returnPath{}
	}
	var inside panel.TerminalRef // the module's ground: where currents come back that pins take or give
	var one []panel.TerminalRef
	if m := v.module(); m != nil {
		if inside = v.groundEnd(m); inside.Ref != "" {
			one = v.endsOn(m, n)
		}
	}
	c := v.conductorOf(n, one)
	leave := map[joint]float64{}
	add := func(t panel.TerminalRef, ma float64) {
		if t.Ref == "" {
			t = inside
		}
		if t.Ref != "" {
			leave[c.find(v.jointOf(t))] += ma
		}
	}
	for _, l := range all {
		add(l.to, l.ma)
		add(v.homeOf(l), -l.ma)
	}
	root := v.jointOf(end)
	return returnPath{c, root, c.drops(root, leave)}
}

// homeOf is the ground of the part that a load is fed by, the zero terminal when a pin feeds it.
func (v *view) homeOf(l load) panel.TerminalRef {
	if n := v.netOf[l.from]; n != nil {
		if giver, _ := v.giver(n); giver != nil {
			return v.groundEnd(giver)
		}
	}
	return panel.TerminalRef{}
}

// to is the way to a terminal, and by how many millivolts ground lies higher there.
func (r returnPath) to(t panel.TerminalRef) (way, float64) {
	if r.over == nil || t.Ref == "" {
		return way{}, 0
	}
	at := r.over.find(r.over.v.jointOf(t))
	mv, ok := r.drops[at]
	if !ok {
		return way{}, 0
	}
	return way{r.over, r.root, at}, mv
}
