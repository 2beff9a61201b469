package pace

import "math"

const (
	// edgeReach is how many frames about an edge tell when it was: the softest laws are half a
	// second on their way before they show.
	edgeReach = 14
	// latest is how late an edge may be and be found, frames.
	latest = 8.0
	// mostOdd is the share of an edge's frames that may say something else.
	mostOdd = 0.34
	// mostEdges is how many are told one by one: each is an unknown of a dense solve.
	mostEdges = 120
)

// tellEdges finds how late each edge of rest was: first each for itself, the gain being what all
// the take has it be, then all together with the gain.
func (l *laid) tellEdges() (out []Edge) {
	edges, slopes := l.edges(), l.slopes()
	edges = edges[:min(len(edges), mostEdges)]
	var t lateness
	var told []int
	for i, e := range edges {
		from, to := e.frame-edgeReach, e.frame+edgeReach
		if i > 0 {
			from = max(from, edges[i-1].frame)
		}
		if i < len(edges)-1 {
			to = min(to, edges[i+1].frame)
		}
		one := Edge{Planned: e.frame, Sets: e.sets, Late: Number{0, math.Inf(1)}}
		first, last := l.shown(from), l.shown(to)
		if beside := l.between(first, last); first >= -edgeReach/2 && last <= float64(l.frames)+edgeReach/2 && len(beside) >= leastMatches {
			var late float64
			if late, one.Known = l.edgeLate(beside, slopes); one.Known {
				t.at, t.late, told = append(t.at, e.frame), append(t.late, late), append(told, i)
			}
		}
		out = append(out, one)
	}
	if len(told) > 0 {
		l.better(out, t, told)
	}
	for i := range out {
		out[i].Frame = l.shown(out[i].Planned) + out[i].Late.Value
	}
	return out
}

// better fits the edges that are told all together.
func (l *laid) better(edges []Edge, t lateness, told []int) {
	variance, kin := l.together(&t), l.kin()
	for k, i := range told {
		e := &edges[i]
		if e.Known = variance != nil; !e.Known {
			continue
		}
		e.Late = Number{t.late[k], math.Sqrt(kin * variance[k])}
		e.Known = e.Late.Sure < mostDoubt && math.Abs(e.Late.Value) < 2*latest
	}
}

// shown is the frame that shows a planned frame.
func (l *laid) shown(planned float64) float64 { return l.zero + planned*(1+l.slower) }

// doubt adds to the uncertainty of edges by how much they are later or earlier with a gain of twice
// as many terms, or half as many where that is more than there may be: what the gain does not follow
// shows there, and not in what is left over. It returns half of what all of them move by.
func (l *laid) doubt(edges []Edge) float64 {
	other := l.copied()
	if other.model.order = max(2, 2*l.model.order); other.model.order > mostOrder {
		other.model.order = mostOrder / 2
	}
	other.share = nil
	other.fit()
	other.scatters()
	other.fit()
	sum, n := 0.0, 0.0
	for i, o := range other.tellEdges() {
		if e := &edges[i]; e.Known && o.Known {
			sum, n = sum+o.Late.Value-e.Late.Value, n+1
			e.Late.Sure = math.Hypot(e.Late.Sure, (e.Late.Value-o.Late.Value)/2)
			e.Known = e.Late.Sure < mostDoubt
		}
	}
	return math.Abs(sum) / max(1, n) / 2
}

// between are the changes between two frames.
func (l *laid) between(first, last float64) (out []int) {
	for k := range l.y {
		if float64(l.from[k]) >= first && float64(l.to[k]) <= last {
			out = append(out, k)
		}
	}
	return out
}

// edgeLate is by how much later some changes go best; false where too many of them say something
// else.
func (l *laid) edgeLate(of []int, slopes []float64) (float64, bool) {
	const step = 0.25
	best, least := 0.0, math.Inf(1)
	for by := -latest; by <= latest; by += step {
		if c := l.costLate(of, by); c < least {
			least, best = c, by
		}
	}
	told, odd := 0.0, 0
	for _, k := range of {
		s := l.scatter(k)
		told += slopes[k] * slopes[k] / (s * s)
		from, to := l.planned(float64(l.from[k])-best), l.planned(float64(l.to[k])-best)
		if weigh((l.log[k]-math.Log(l.expected(from, to)))/s) == 0 {
			odd++
		}
	}
	return best, float64(odd) <= mostOdd*float64(len(of)) && told*mostDoubt*mostDoubt > 1
}

func (l *laid) costLate(of []int, by float64) (sum float64) {
	for _, k := range of {
		want := l.expected(l.planned(float64(l.from[k])-by), l.planned(float64(l.to[k])-by))
		sum += rho((l.log[k] - math.Log(want)) / l.scatter(k))
	}
	return sum
}
