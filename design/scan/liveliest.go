package scan

// liveliest gives open variables, those of the latest conflicts first. It is a heap.
type liveliest struct {
	life  []uint64
	step  uint64
	heap  []int32
	place []int32 // in the heap, or -1
}

func (q *liveliest) grow(v int) {
	q.life, q.place = append(q.life, 0), append(q.place, -1)
	if q.step == 0 {
		q.step = 1 << 8
	}
	q.push(v)
}

// before orders by life, and of equals the first made first.
func (q *liveliest) before(a, b int32) bool {
	return q.life[a] > q.life[b] || q.life[a] == q.life[b] && a < b
}

func (q *liveliest) push(v int) {
	if q.place[v] < 0 {
		q.heap = append(q.heap, int32(v))
		q.place[v] = int32(len(q.heap) - 1)
		q.up(len(q.heap) - 1)
	}
}

func (q *liveliest) pop() int {
	if len(q.heap) == 0 {
		return -1
	}
	v := q.heap[0]
	last := len(q.heap) - 1
	q.move(0, q.heap[last])
	q.heap = q.heap[:last]
	q.place[v] = -1
	if last > 0 {
		q.down(0)
	}
	return int(v)
}

// stir makes a variable livelier.
func (q *liveliest) stir(v int) {
	q.life[v] += q.step
	if q.place[v] >= 0 {
		q.up(int(q.place[v]))
	}
}

// fade lets what was stirred before count less.
func (q *liveliest) fade() {
	q.step += q.step/16 + 1
	if q.step > 1<<48 {
		for v := range q.life {
			q.life[v] >>= 40
		}
		q.step >>= 40
		heap := q.heap
		q.heap = nil
		for _, v := range heap {
			q.place[v] = -1
		}
		for _, v := range heap {
			q.push(int(v))
		}
	}
}

func (q *liveliest) move(i int, v int32) {
	q.heap[i] = v
	q.place[v] = int32(i)
}

func (q *liveliest) up(i int) {
	v := q.heap[i]
	for i > 0 && q.before(v, q.heap[(i-1)/2]) {
		q.move(i, q.heap[(i-1)/2])
		i = (i - 1) / 2
	}
	q.move(i, v)
}

func (q *liveliest) down(i int) {
	v := q.heap[i]
	for {
		child := 2*i + 1
		if child >= len(q.heap) {
			break
		}
		if child+1 < len(q.heap) && q.before(q.heap[child+1], q.heap[child]) {
			child++
		}
		if !q.before(q.heap[child], v) {
			break
		}
		q.move(i, q.heap[child])
		i = child
	}
	q.move(i, v)
}
