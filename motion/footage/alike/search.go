package alike

import (
	"container/heap"
	"context"
	"math"
	"runtime"
	"sync"
	"sync/atomic"
)

const (
	// block is how many neighbouring pairs of a diagonal are looked at together.
	block = 64
	// batch is how many blocks are looked at closer before any is judged; more than are
	// needed do no harm.
	batch = 32
	// coarseShare is how much of the work the coarsest look is, about, for Tell.
	coarseShare = 0.2
	// rounding is what single precision may add to a root mean square: a coarse value is off
	// by 2^-24 of its size, a difference of differences by seven times that, all of them by
	// under 6 * 2^-24 = 4e-7 of the greatest pixel. A bound is lowered by more than that.
	rounding = 1e-6
)

// search looks at blocks of pairs, the most promising first. A block stands by a number that
// none of its pairs scores below: first that of the coarsest level, then that of the next,
// then the least of its scores. Whatever stands first with a score is the best there is.
type search struct {
	of     *Sketches
	asked  Range
	bound  Bound
	blocks queue
	runs   []Run
	// walkers are those of each worker at each level.
	walkers [][]*diagonal

	pairs, exact int
	all, looked  int // blocks, for Tell
}

func newSearch(s *Sketches, r Range) *search {
	q := &search{of: s, asked: r, bound: s.Bound(), walkers: make([][]*diagonal, workers())}
	for w := range q.walkers {
		q.walkers[w] = make([]*diagonal, len(s.levels))
	}
	return q
}

func (q *search) finest() int { return len(q.of.levels) - 1 }

func (q *search) tell(share float64) {
	if q.asked.Tell != nil {
		q.asked.Tell(share)
	}
}

// coarse fills the queue with all blocks at the coarsest level.
func (q *search) coarse(ctx context.Context) error {
	lengths := q.asked.lengths(q.of.Len())
	for from := 0; from < len(lengths); from += batch {
		part := lengths[from:min(from+batch, len(lengths))]
		rows := make([][]look, len(part))
		each(len(q.walkers), len(part), func(w, k int) { rows[k] = q.row(w, part[k]) })
		for k, row := range rows {
			q.blocks = append(q.blocks, row...)
			q.pairs += q.of.Len() - part[k]
		}
		q.tell(coarseShare * float64(from+len(part)) / float64(len(lengths)))
		if err := ctx.Err(); err != nil {
			return err
		}
	}
	q.all = len(q.blocks)
	heap.Init(&q.blocks)
	return nil
}

// row are the blocks of one length.
func (q *search) row(worker, length int) (out []look) {
	d := q.walker(worker, 0, length)
	for from := 0; from < d.pairs(); from += block {
		l := look{Pair: Pair{from, length}, from: from}
		l.least = q.least(d, &l)
		out = append(out, l)
	}
	return out
}

// next finds one more run; false if nothing is left.
func (q *search) next(ctx context.Context) (bool, error) {
	for len(q.blocks) > 0 {
		if err := ctx.Err(); err != nil {
			return false, err
		}
		top := q.blocks[0]
		if top.level == q.finest() && !q.near(top.Pair) {
			q.runs = append(q.runs, q.run(top))
			return true, nil
		}
		q.closer()
	}
	return false, nil
}

// closer takes the foremost blocks that are no score yet, or one that is taken, and puts each
// back as it is at the next level.
func (q *search) closer() {
	var part []look
	for len(part) < batch && len(q.blocks) > 0 {
		top := q.blocks[0]
		if top.level == q.finest() && !q.near(top.Pair) {
			break
		}
		part = append(part, heap.Pop(&q.blocks).(look))
	}
	left, exact := make([]bool, len(part)), make([]int, len(part))
	each(len(q.walkers), len(part), func(w, k int) { exact[k], left[k] = q.refine(w, &part[k]) })
	for k, l := range part {
		q.exact += exact[k]
		if exact[k] > 0 {
			q.looked++
		}
		if left[k] {
			heap.Push(&q.blocks, l)
		}
	}
	q.tell(coarseShare + (1-coarseShare)*min(1, float64(q.looked)/float64(q.all)))
}

// refine looks at a block at its next level: at how many pairs cell by cell that were not
// looked at so before, and whether any is left that is near no run.
func (q *search) refine(worker int, l *look) (exact int, left bool) {
	if q.covered(*l) {
		return 0, false
	}
	if l.level++; l.level == q.finest() {
		exact = min(block, q.of.Len()-l.Length-l.from)
	}
	l.level = min(l.level, q.finest())
	l.least = q.least(q.walker(worker, l.level, l.Length), l)
	return exact, !math.IsInf(l.least, 1)
}

// least is a number that no pair of the block that is not near a run scores below; of a block
// at the finest level it is the least score, and the block knows whose.
func (q *search) least(d *diagonal, l *look) float64 {
	scores := d.walk(l.from, min(l.from+block, d.pairs()))
	best := math.Inf(1)
	for k, s := range scores {
		p := Pair{l.from + k, l.Length}
		if s < best && !q.near(p) {
			best, l.Pair = s, p
		}
	}
	if l.level == q.finest() {
		return best
	}
	low := max(0, math.Sqrt(best)-rounding)
	return low * low
}

// walker is the diagonal of a level that a worker uses over and over, at a lag.
func (q *search) walker(worker, level, lag int) *diagonal {
	d := &q.walkers[worker][level]
	if *d == nil {
		*d = q.of.diagonal(level, lag)
	}
	(*d).lag = lag
	return *d
}

// workers is how many do things at a time.
func workers() int { return runtime.GOMAXPROCS(0) }

// each calls do with 0..n-1, by some workers; worker is which of them calls.
func each(workers, n int, do func(worker, k int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for worker := range min(n, workers) {
		all.Go(func() {
			for k := next.Add(1) - 1; k < int64(n); k = next.Add(1) - 1 {
				do(worker, int(k))
			}
		})
	}
	all.Wait()
}
