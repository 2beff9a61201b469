package alike

// lane is how many values are summed in single precision before they go to double: few
// enough that steps of a picture of eight bits are summed without loss.
const lane = 16

// apart returns the sums of squares of what differs between a frame and one a lag later, and
// of how that has changed since the frame before, whose difference is in last; it leaves its
// own there. All are of one length.
func apart(a, b, last []float32) (picture, motion float64) {
	for len(a) >= lane && len(b) >= lane && len(last) >= lane {
		p, m := lanes((*[lane]float32)(a), (*[lane]float32)(b), (*[lane]float32)(last))
		picture, motion = picture+float64(p), motion+float64(m)
		a, b, last = a[lane:], b[lane:], last[lane:]
	}
	for i := range a {
		d := b[i] - a[i]
		e := d - last[i]
		last[i] = d
		picture, motion = picture+float64(d*d), motion+float64(e*e)
	}
	return picture, motion
}

// lanes is apart of so many values, in four sums that do not wait for each other.
func lanes(a, b, last *[lane]float32) (picture, motion float32) {
	var p0, p1, p2, p3, m0, m1, m2, m3 float32
	for i := 0; i < lane; i += 4 {
		d0, d1, d2, d3 := b[i]-a[i], b[i+1]-a[i+1], b[i+2]-a[i+2], b[i+3]-a[i+3]
		e0, e1, e2, e3 := d0-last[i], d1-last[i+1], d2-last[i+2], d3-last[i+3]
		last[i], last[i+1], last[i+2], last[i+3] = d0, d1, d2, d3
		p0, p1, p2, p3 = p0+d0*d0, p1+d1*d1, p2+d2*d2, p3+d3*d3
		m0, m1, m2, m3 = m0+e0*e0, m1+e1*e1, m2+e2*e2, m3+e3*e3
	}
	return (p0 + p1) + (p2 + p3), (m0 + m1) + (m2 + m3)
}

// diagonal walks the pairs of one lag, first frame by first frame, at one level.
type diagonal struct {
	of     *Sketches
	level  plane
	lag    int
	last   []float32
	cells  float64
	scores []float64
}

func (s *Sketches) diagonal(level, lag int) *diagonal {
	p := s.levels[level]
	return &diagonal{of: s, level: p, lag: lag, last: make([]float32, p.size), cells: float64(s.finest().size)}
}

// pairs is how many pairs the lag has.
func (d *diagonal) pairs() int { return d.of.Len() - d.lag }

// walk returns the squared scores of the pairs whose first frames are from..to-1; they hold
// until the next walk.
func (d *diagonal) walk(from, to int) []float64 {
	d.scores = d.scores[:0]
	if from > 0 {
		d.look(from - 1)
	}
	p, before := d.look(from)
	for i := from; i < to; i++ {
		var next, after float64
		if i+1 < d.pairs() {
			next, after = d.look(i + 1)
		}
		d.scores = append(d.scores, d.score(i, p, before, after))
		p, before = next, after
	}
	return d.scores
}

// look returns the mean squares of pair i: of the picture, and of what has changed since the
// pair before, which was looked at last.
func (d *diagonal) look(i int) (picture, motion float64) {
	picture, motion = apart(d.level.at(i), d.level.at(i+d.lag), d.last)
	return picture / d.cells, motion / d.cells
}

// score is the squared score of pair i (see Seam).
func (d *diagonal) score(i int, picture, before, after float64) float64 {
	light := d.of.Means[i] - d.of.Means[i+d.lag]
	return picture + (brightnessWeight-pictureWeight)*light*light + motionWeight*sides(i, d.pairs(), before, after)
}

// sides is the mean of the squared jumps of motion before and after a seam, of those that
// there are: the first pair of a lag has none before, the last none after.
func sides(i, pairs int, before, after float64) float64 {
	switch {
	case i == 0 && i == pairs-1:
		return 0
	case i == 0:
		return after
	case i == pairs-1:
		return before
	}
	return (before + after) / 2
}
