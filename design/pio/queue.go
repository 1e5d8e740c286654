package pio

// A queue is one of a machine's FIFOs.
type queue struct {
	words [8]uint32
	first uint8
	level uint8
	depth uint8 // 0, 4 or 8; with 0 it is full and empty at once (3.5.4)
}

func (q *queue) full() bool  { return q.level >= q.depth }
func (q *queue) empty() bool { return q.level == 0 }

// put adds a word to a queue that is not full.
func (q *queue) put(w uint32) {
	q.words[(q.first+q.level)&7] = w
	q.level++
}

// take removes the oldest word of a queue that is not empty.
func (q *queue) take() uint32 {
	w := q.words[q.first&7]
	q.first++
	q.level--
	return w
}

// depths returns how deep a join makes the queues to and from the machine. The put and get modes
// leave no queue from the machine; Open: the data sheet calls a push then undefined, here it finds the
// queue full.
func (j Join) depths() (tx, rx uint8) {
	switch j {
	case JoinTX:
		return 8, 0
	case JoinRX:
		return 0, 8
	case JoinNone:
		return 4, 4
	}
	return 4, 0
}
