package alike

// near tells whether a pair is near a run.
func (q *search) near(p Pair) bool {
	for _, r := range q.runs {
		if r.holds(p.First, p.First, p.Length, q.asked.Apart) {
			return true
		}
	}
	return false
}

// covered tells whether all pairs of a block are near one run.
func (q *search) covered(l look) bool {
	last := min(l.from+block, q.of.Len()-l.Length) - 1
	for _, r := range q.runs {
		if r.holds(l.from, last, l.Length, q.asked.Apart) {
			return true
		}
	}
	return false
}

// holds tells whether pairs of a length that begin with frames from to last are all near.
func (r Run) holds(from, last, length, apart int) bool {
	return max(length-r.Length, r.Length-length) <= apart && from >= r.From-apart && last <= r.To+apart
}

// run is the run whose best is the pair of a block.
func (q *search) run(l look) Run {
	bar := max(q.bound.Score*q.bound.Score, l.least*alikeShare*alikeShare)
	out := Run{Seam: q.of.seam(l.Pair), From: l.First, To: l.First}
	d := q.of.diagonal(q.finest(), l.Length)
	for out.To+1 < d.pairs() {
		grown := leading(d.walk(out.To+1, min(out.To+1+block, d.pairs())), bar)
		out.To += grown
		if grown < block {
			break
		}
	}
	for out.From > 0 {
		grown := trailing(d.walk(max(0, out.From-block), out.From), bar)
		out.From -= grown
		if grown < block {
			break
		}
	}
	out.Unseen = out.Score <= q.bound.Score
	out.Dissolve, out.Fits = q.bound.dissolve(out.Seam, q.of.Len())
	return out
}

// leading is how many of the first are within the bar.
func leading(scores []float64, bar float64) int {
	for k, s := range scores {
		if s > bar {
			return k
		}
	}
	return len(scores)
}

// trailing is how many of the last are.
func trailing(scores []float64, bar float64) int {
	for k := range scores {
		if scores[len(scores)-1-k] > bar {
			return k
		}
	}
	return len(scores)
}
