package pio

// Settled are Pins that can promise something more: until the cycle that SameUntil returns, asked in
// cycle now, what Levels answers depends on the drive alone, not on the cycle nor on earlier drives.
// Levels is then not asked again and again what a program that goes round in circles would ask.
type Settled interface {
	Pins
	SameUntil(now uint64) uint64
}

// A moment is all that a lone machine's future depends on, just before an operation. Queues differ
// only if their levels do: within a run, words are only put into one and only taken from the other.
type moment struct {
	pc, inCount, outCount uint8
	tx, rx                uint8
	x, y, isr, osr        uint32
	flags, debug          uint32
	phase                 uint64 // of the divider
	written, drive        Drive
	coming, later         Drive
	comes, follows        uint64 // in cycles from here
	level                 [3]uint32
	since                 [2]uint64 // cycles ago, as far as it matters
}

// A watch looks for a moment that comes again: then all that follows does too, until the inputs change.
// It compares each round with one moment, which it replaces after 1, 2, 4, 8 ... rounds, so that it
// finds a circle of any length (Brent, An improved Monte Carlo factorization algorithm, 1980).
type watch struct {
	then   moment
	at     uint64 // cycle of then
	asked  uint64 // how often the pins had been, by then
	same   uint64 // what they promised then
	rounds int    // before then is replaced
	span   int
	rest   int // rounds before it looks again, after circles that could not be left out
	tired  int // how many such rounds it rested last
}

// round is called when the machine has gone back in its program.
func (b *Block) round(m *machine, end uint64) {
	w := &b.watch
	if w.rest > 0 {
		w.rest--
		return
	}
	if t := &w.then; w.span > 0 && m.pc == t.pc && m.x == t.x && m.y == t.y && m.isr == t.isr && m.osr == t.osr && m.rx.level == t.rx {
		if b.moment(m) == *t {
			b.skip(m, end)
			return
		}
	}
	if w.rounds--; w.rounds > 0 {
		return
	}
	w.span = max(2*w.span, 1)
	w.rounds = w.span
	w.then, w.at, w.asked, w.same = b.moment(m), m.next, b.wires.asked, 0
	if s, ok := b.wires.pins.(Settled); ok {
		w.same = s.SameUntil(m.next - 1)
	}
}

// moment settles the pins of all cycles before the machine's next.
func (b *Block) moment(m *machine) moment {
	w := &b.wires
	w.settle(m.next - 1)
	return moment{
		pc: m.pc, inCount: m.inCount, outCount: m.outCount, tx: m.tx.level, rx: m.rx.level,
		x: m.x, y: m.y, isr: m.isr, osr: m.osr, flags: b.flags, debug: b.debug, phase: m.due & (1<<partBits - 1),
		written: w.written, drive: w.drive, coming: w.coming, later: w.later,
		comes: fromHere(w.comes, m.next), follows: fromHere(w.follows, m.next),
		level: w.level, since: [2]uint64{ago(w.since[0], m.next), ago(w.since[1], m.next)},
	}
}

func fromHere(cycle, now uint64) uint64 {
	if cycle == never {
		return never
	}
	return cycle - now
}

// ago is how long something has been, but longer than the synchronisers remember is all one.
func ago(cycle, now uint64) uint64 { return min(now-cycle, inputDelay+1) }

// skip goes as many whole circles ahead as are the same. Without a promise of the pins, they are only
// if nothing was written or asked on the way.
func (b *Block) skip(m *machine, end uint64) {
	w := &b.wires
	circle, horizon := m.next-b.watch.at, b.watch.same
	if w.asked == b.watch.asked && w.comes == never {
		horizon = max(horizon, w.next)
	}
	horizon = min(horizon, end)
	if horizon <= m.next+circle {
		tired := min(2*b.watch.tired+1, 1<<12)
		b.watch = watch{rest: tired, tired: tired}
		return
	}
	b.watch = watch{}
	ahead := (horizon - m.next) / circle * circle
	m.due += ahead << partBits
	m.next += ahead
	b.skipped += ahead
	w.shift(ahead)
}

// shift moves what is under way, and what the synchronisers remember, to later cycles. Answers from
// before stay good until the same cycle.
func (w *wires) shift(ahead uint64) {
	if w.comes != never {
		w.comes += ahead
	}
	if w.follows != never {
		w.follows += ahead
	}
	w.since[0] += ahead
	w.since[1] += ahead
	w.steady += ahead
	w.next = min(w.until, w.comes)
}
