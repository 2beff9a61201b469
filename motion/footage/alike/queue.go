package alike

import "cmp"

// look is a block of pairs as far as it was looked at.
type look struct {
	Pair          // the best of it, once the level is the finest
	from  int     // the first of its pairs
	level int     // at which it was looked at
	least float64 // the square of what none of its pairs scores below
}

// queue is a heap: the least first, of those what is no score yet, then as pairs are ordered.
type queue []look

func (q queue) Len() int { return len(q) }

func (q queue) Less(i, j int) bool {
	a, b := q[i], q[j]
	return cmp.Or(cmp.Compare(a.least, b.least), cmp.Compare(a.level, b.level), a.before(b.Pair)) < 0
}

func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

// Push is of heap.Interface.
func (q *queue) Push(x any) { *q = append(*q, x.(look)) }

// Pop is of heap.Interface.
func (q *queue) Pop() any {
	last := len(*q) - 1
	out := (*q)[last]
	*q = (*q)[:last]
	return out
}
