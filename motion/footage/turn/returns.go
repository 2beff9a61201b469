package turn

import (
	"context"
	"math"
	"runtime"
	"sync"

	"gonum.org/v1/gonum/stat"
)

const (
	// groups is in how many parts the frames that a lag begins with are looked at, each for
	// itself: what they differ by is what the whole may be off.
	groups = 8
	// leastGroup is how many frames a part must have.
	leastGroup = 2
	// earlyStarts is how many frames are looked at to tell faces; a period is fitted of all.
	earlyStarts = 1500
	// fitDoubt is by how much of a frame a polynomial may miss a dip: the worst of clean
	// footage in the tests, of dips a few frames wide.
	fitDoubt = 0.002
)

// measuring is a film on which a repeat is followed from return to return.
type measuring struct {
	film
	course course
	dip    dip
	repeat float64
	first  []seen
}

// seen is a return of the picture, as a whole and by parts.
type seen struct {
	times      int
	lag, doubt float64
	unlike     float64
	bend       float64         // of the curve, a squared frame
	parts      [groups]float64 // what each part is unlike; NaN of one that has no least
}

// look finds the return near a lag; false if there is none, or too few frames to tell.
func (m *measuring) look(times int, near float64, w window) (seen, bool) {
	centre := int(math.Round(near))
	for range 3 { // a dip that lies beside is gone to
		s, lag, ok := m.about(times, centre, w)
		if ok {
			return s, true
		}
		if lag == centre {
			break
		}
		centre = lag
	}
	return seen{}, false
}

// closely is a return as narrower windows have it, as long as a polynomial misses a wide dip
// by more than noise makes of a narrow one. Of the miss, which goes with the fifth power of
// the window and more, a half leaves a thirtieth; the doubt has a tenth of it.
func (m *measuring) closely(s seen) seen {
	miss := 0.0
	for w := m.dip.window; w.reach >= 2*leastReach; {
		w = newWindow(w.reach / 2)
		n, ok := m.look(s.times, s.lag, w)
		if !ok || math.IsInf(n.doubt, 1) {
			break
		}
		if miss = math.Abs(n.lag - s.lag); miss < n.doubt && n.doubt > s.doubt {
			break
		}
		miss /= 10
		s = n
	}
	s.doubt = math.Hypot(s.doubt, miss)
	return s
}

// about looks at lags about one. Where the least is not within half the reach it returns
// where to look instead.
func (m *measuring) about(times, centre int, w window) (s seen, instead int, ok bool) {
	starts := m.of.Len() - centre - 2*w.reach
	if centre-w.reach < 1 || starts < groups*leastGroup {
		return s, centre, false
	}
	parts := m.means(centre, starts, w)
	whole := make([]float64, len(parts[0]))
	for _, row := range parts {
		for k, v := range row {
			whole[k] += v / groups
		}
	}
	f, fine := through(centre, w.stride, whole)
	lag, unlike, bend, found := f.least()
	if !fine || !found {
		return s, lower(centre, w.stride, whole), false
	}
	if math.Abs(lag-float64(centre)) > max(1, float64(w.reach)/2) {
		return s, int(math.Round(lag)), false
	}
	s = seen{times: times, lag: lag, unlike: unlike, bend: bend}
	s.divide(centre, w.stride, parts)
	return s, centre, true
}

// lower is the lag of the least value, for a dip that lies beyond.
func lower(centre, stride int, values []float64) int {
	best := len(values) / 2
	for k, v := range values {
		if v < values[best] {
			best = k
		}
	}
	return centre + (best-len(values)/2)*stride
}

// divide finds the least of each part, and from these how sure the whole is.
func (s *seen) divide(centre, stride int, parts [groups][]float64) {
	var lags []float64
	for g, row := range parts {
		s.parts[g] = math.NaN()
		if f, ok := through(centre, stride, row); ok {
			if lag, unlike, _, ok := f.least(); ok {
				lags = append(lags, lag)
				s.parts[g] = unlike
			}
		}
	}
	s.doubt = math.Inf(1)
	if len(lags) > groups/2 {
		s.doubt = math.Hypot(fitDoubt, stat.StdDev(lags, nil)/math.Sqrt(float64(len(lags))))
	}
}

// means are how unlike frames are by lag about a centre, for the starts of each part.
func (m *measuring) means(centre, starts int, w window) (out [groups][]float64) {
	var all sync.WaitGroup
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	for g := range out {
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			out[g] = m.mean(centre, w.reach+g*starts/groups, w.reach+(g+1)*starts/groups, w)
		})
	}
	all.Wait()
	return out
}

// mean is over the starts from..to-1, each with a lag from where it is and, against what is a
// centre on, to there: with f the picture and d how far the lag is off,
//
//	|f(x+d) - f(x)|^2 + |f(x) - f(x-d)|^2
//
// has no odd powers of d, so that what turns into view and out does not draw the least aside.
func (m *measuring) mean(centre, from, to int, w window) []float64 {
	out := make([]float64, 2*w.reach/w.stride+1)
	count := float64((to - from + w.skip - 1) / w.skip)
	for i := from; i < to; i += w.skip {
		for k := range out {
			off := k*w.stride - w.reach
			out[k] += (m.apart(i, i+centre+off) + m.apart(i-off, i+centre)) / (2 * count)
		}
	}
	return out
}

// early follows the first returns, from which faces are told, and betters the repeat.
func (m *measuring) early(ctx context.Context) error {
	w := m.dip.window
	w.skip = 1 + m.of.Len()/earlyStarts
	for times := 1; times <= 2*mostFaces; times++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		s, ok := m.look(times, m.repeat*float64(times), w)
		if !ok {
			break
		}
		m.first = append(m.first, s)
		m.repeat, _ = steady(m.first)
	}
	if len(m.first) == 0 {
		return errNoTurn
	}
	return nil
}
