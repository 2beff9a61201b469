package turn

import (
	"context"
	"math"
)

// steady is the repeat that suits returns best, and its standard uncertainty: weighted least
// squares of lag = times * repeat. Returns share frames, so their errors may be the same: the
// uncertainties are added, not their squares (JCGM 100, 5.2.2 note 1). Where the returns
// scatter more than they should, all is as much less sure (R. T. Birge, Physical Review
// 40:207-227, 1932, DOI 10.1103/PhysRev.40.207).
func steady(returns []seen) (repeat, doubt float64) {
	var top, bottom, linear float64
	for _, s := range returns {
		k, w := float64(s.times), weight(s)
		top, bottom = top+w*k*s.lag, bottom+w*k*k
		linear += math.Sqrt(w) * k
	}
	repeat = top / bottom
	rest := 0.0
	for _, s := range returns {
		d := s.lag - repeat*float64(s.times)
		rest += weight(s) * d * d
	}
	birge := 1.0
	if len(returns) > 1 {
		birge = max(1, math.Sqrt(rest/float64(len(returns)-1)))
	}
	return repeat, birge * linear / bottom
}

// unsure is the doubt of a return of which parts tell nothing, in frames.
const unsure = 1.0

func weight(s seen) float64 {
	d := min(s.doubt, unsure)
	return 1 / (d * d)
}

// fit finds the period from returns of full turns, up to the longest that the footage has.
func (m *measuring) fit(ctx context.Context, t *Turn) error {
	var used []seen
	most := int(float64(len(m.course.unlike)) / (m.repeat * float64(t.Faces)))
	step := max(1, most/returnsUsed)
	for n := 1; n <= most; n += step {
		if err := ctx.Err(); err != nil {
			return err
		}
		near := m.repeat * float64(n*t.Faces)
		if s, ok := m.look(n*t.Faces, near, m.dip.window); ok {
			used = append(used, m.closely(s))
			m.repeat, _ = steady(used)
		}
	}
	if len(used) == 0 { // the footage is shorter than a full turn
		used = m.first
	}
	m.settle(used, t)
	return nil
}

// settle writes what was found.
func (m *measuring) settle(used []seen, t *Turn) {
	t.Repeat, t.RepeatDoubt = steady(used)
	n := float64(t.Faces)
	t.Frames, t.FramesDoubt = t.Repeat*n, t.RepeatDoubt*n
	all := used
	if t.Faces > 1 {
		all = append(m.first[:len(m.first):len(m.first)], used...)
	}
	told := map[int]bool{}
	for _, s := range all {
		if !told[s.times] {
			told[s.times] = true
			t.Returns = append(t.Returns, Return{s.times, s.lag, s.doubt, s.unlike / m.course.typical, s.times%t.Faces == 0 && t.Told})
		}
	}
}

// phases looks at which place of the first turn each later frame shows.
func (m *measuring) phases(t *Turn) {
	t.Phases = make([]float64, m.of.Len())
	var squares, count float64
	for i := range t.Phases {
		t.Phases[i] = float64(i) / t.Frames
		turns := math.Floor((float64(i) - float64(m.dip.reach)) / t.Frames)
		if turns < 1 {
			continue
		}
		lag, ok := m.lagOf(i, int(math.Round(turns*t.Frames)))
		if near := int(math.Round(lag)); ok {
			lag, ok = m.lagOf(i, near) // once more, with the least in the middle
		}
		if !ok {
			t.Phases[i] = math.NaN()
			continue
		}
		t.Phases[i] = turns + (float64(i)-lag)/t.Frames
		off := (t.Phases[i] - float64(i)/t.Frames) * 360
		squares, count = squares+off*off, count+1
	}
	if count > 0 {
		t.Uneven = math.Sqrt(squares / count)
	}
}

// lagOf is the distance back to the frame that frame i looks like, near a lag.
func (m *measuring) lagOf(i, near int) (float64, bool) {
	var values []float64
	for k := -m.dip.reach; k <= m.dip.reach; k += m.dip.stride {
		j := i - near - k
		if j < 0 || j >= m.of.Len() {
			return 0, false
		}
		values = append(values, m.apart(j, i))
	}
	f, ok := through(near, m.dip.stride, values)
	if !ok {
		return 0, false
	}
	lag, _, _, ok := f.least()
	return lag, ok
}
