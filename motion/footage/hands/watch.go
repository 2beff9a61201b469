package hands

import (
	"math"
	"slices"
)

// watch knows how much each cell of a film usually changes.
type watch struct {
	film         Film
	across, down int
	usual        []float64 // one standard deviation of what is left, where nothing acts
	gain         float64   // of what the doubts say
	busy         []bool    // it changes far too often
	left, doubt  []float32
}

// sampled is how many frames tell what is usual.
const sampled = 600

func newWatch(f Film) *watch {
	w := &watch{film: f, gain: 1}
	w.across, w.down = f.Cells()
	n := w.across * w.down
	w.usual, w.busy = make([]float64, n), make([]bool, n)
	w.left, w.doubt = make([]float32, n), make([]float32, n)
	w.learn()
	return w
}

// toSigma is what the median of absolute values of a normal distribution is to be multiplied by.
const toSigma = 1.4826

// smallest is the standard deviation that no cell goes below, of white: half a step of 8 bits that
// is spread over the pixels of a cell.
const smallest = 0.0005

// learn takes frames all over the film and finds by how much the doubts are too small or too large,
// and how much each cell usually changes beyond them.
func (w *watch) learn() {
	var lefts, doubts [][]float32
	step := max(1, (w.film.Len()-1)/sampled)
	for n := 1; n < w.film.Len(); n += step {
		if w.film.Left(n, w.left, w.doubt) {
			lefts, doubts = append(lefts, slices.Clone(w.left)), append(doubts, slices.Clone(w.doubt))
		}
	}
	w.gain = gainOf(lefts, doubts)
	var column, may []float64
	for c := range w.usual {
		column, may = column[:0], may[:0]
		for n := range lefts {
			if d := float64(doubts[n][c]); !math.IsInf(d, 0) {
				column, may = append(column, math.Abs(float64(lefts[n][c]))), append(may, w.gain*d)
			}
		}
		own, moved := toSigma*median(column), median(may)
		w.usual[c] = math.Sqrt(max(smallest*smallest, own*own-moved*moved))
	}
	for c := range w.busy {
		often := 0
		for n := range lefts {
			if w.hot(c, lefts[n][c], doubts[n][c]) {
				often++
			}
		}
		w.busy[c] = float64(often) > busy*float64(len(lefts))
	}
}

// gainOf is by how much the doubts are to be multiplied to be standard deviations: the middle of
// the ratios where they say more than the grain of any film.
func gainOf(lefts, doubts [][]float32) float64 {
	var ratios []float64
	for n := range lefts {
		for c, d := range doubts[n] {
			if v := float64(d); !math.IsInf(v, 0) && v > least {
				ratios = append(ratios, math.Abs(float64(lefts[n][c]))/v)
			}
		}
	}
	const enough = 200 // ratios, of which a middle says something
	if len(ratios) < enough {
		return 1
	}
	return min(max(toSigma*median(ratios), lowest), highest)
}

// The doubts are a model: they are not believed to be further out than so many times.
const lowest, highest = 0.2, 3

func median(list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	slices.Sort(list)
	return list[len(list)/2]
}

// bound is what a cell must change by to be called changed.
func (w *watch) bound(c int, doubt float32) float64 {
	return max(least, sigmas*math.Hypot(w.usual[c], w.gain*float64(doubt)))
}

func (w *watch) hot(c int, left, doubt float32) bool {
	return math.Abs(float64(left)) > w.bound(c, doubt)
}

// track is what acted in a part of the picture.
type track struct {
	acts, known []bool    // of frames that were looked at
	limits      []float64 // what a cell must have changed by, in the middle of the cells; 0 where not known
	moved       []float64 // cells by which the camera did, where that counts
	where       []Region
	spans       []span
}

// span is one action.
type span struct {
	first, last int
	where       Region
}

// through goes through the film: all frames about cues, and some elsewhere.
func (w *watch) through(r Region, rate float64, cues []Cue) *track {
	n := w.film.Len()
	t := &track{acts: make([]bool, n), known: make([]bool, n), limits: make([]float64, n), moved: make([]float64, n), where: make([]Region, n)}
	cells := w.in(r)
	hot := make([]bool, len(w.usual))
	bounds := make([]float64, 0, len(cells))
	step := max(1, (n-1)/sampled)
	for k := 1; k < n; k++ {
		if k%step != 0 && !about(k, rate, cues) || !w.film.Left(k, w.left, w.doubt) {
			continue
		}
		t.known[k] = true
		if m, ok := w.film.(Mover); ok {
			t.moved[k] = m.Moved(k)
		}
		clear(hot)
		bounds = bounds[:0]
		for _, c := range cells {
			hot[c] = !w.busy[c] && w.hot(c, w.left[c], w.doubt[c])
			bounds = append(bounds, w.bound(c, w.doubt[c]))
		}
		t.limits[k] = median(bounds)
		t.where[k], t.acts[k] = w.together(hot, cells)
	}
	t.join(max(2, int(math.Ceil(apart*rate))))
	return t
}

// about tells whether a frame is within reach of a cue.
func about(n int, rate float64, cues []Cue) bool {
	return slices.ContainsFunc(cues, func(c Cue) bool {
		return float64(n) > c.Opens-reach*rate-1 && float64(n) < c.Closes+reach*rate+1
	})
}

// in are the cells of a region.
func (w *watch) in(r Region) (out []int) {
	for y := range w.down {
		for x := range w.across {
			u, v := (float64(x)+0.5)/float64(w.across), (float64(y)+0.5)/float64(w.down)
			if u >= r.Left && u < r.Right && v >= r.Top && v < r.Bottom {
				out = append(out, y*w.across+x)
			}
		}
	}
	return out
}

// together tells whether two changed cells are near each other, and which part of the picture those
// fill that are: one by itself may be chance.
func (w *watch) together(hot []bool, cells []int) (where Region, ok bool) {
	left, top, right, bottom := w.across, w.down, -1, -1
	for _, c := range cells {
		x, y := c%w.across, c/w.across
		if !hot[c] || !w.another(hot, x, y) {
			continue
		}
		left, right, top, bottom = min(left, x), max(right, x), min(top, y), max(bottom, y)
	}
	if right < 0 {
		return Region{}, false
	}
	a, d := float64(w.across), float64(w.down)
	return Region{float64(left) / a, float64(top) / d, float64(right+1) / a, float64(bottom+1) / d}, true
}

func (w *watch) another(hot []bool, x, y int) bool {
	for v := max(0, y-beside); v <= min(w.down-1, y+beside); v++ {
		for u := max(0, x-beside); u <= min(w.across-1, x+beside); u++ {
			if (u != x || v != y) && hot[v*w.across+u] {
				return true
			}
		}
	}
	return false
}

// join makes actions of frames that change, of which no more than so many between do not.
func (t *track) join(gap int) {
	for n, acts := range t.acts {
		if !acts || !t.attended(n) {
			continue
		}
		last := len(t.spans) - 1
		if last < 0 || n-t.spans[last].last > gap {
			t.spans = append(t.spans, span{n, n, t.where[n]})
			continue
		}
		s := &t.spans[last]
		s.last, s.where = n, s.where.and(t.where[n])
	}
}

// near is how many frames apart two that change are to be: one alone is chance, since what comes
// also goes on, or goes.
const near = 3

// attended tells whether another frame that changes is near.
func (t *track) attended(n int) bool {
	for k := max(0, n-near); k <= min(len(t.acts)-1, n+near); k++ {
		if k != n && t.acts[k] {
			return true
		}
	}
	return false
}

// and is what holds both.
func (r Region) and(o Region) Region {
	return Region{min(r.Left, o.Left), min(r.Top, o.Top), max(r.Right, o.Right), max(r.Bottom, o.Bottom)}
}
