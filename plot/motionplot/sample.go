package motionplot

import "math"

// samples is how many points a curve over the whole loop gets: about one to
// each pixel, so that no straight piece is seen.
const samples = 720

// sampled is one axis sampled over the loop, x in on-screen seconds.
type sampled struct {
	x      []float64
	states []State
}

func (d Data) stretch() float64 { return d.OnScreen / d.Period }

// sample walks the loop piece by piece, so that each jump is drawn upright
// and no sample straddles it.
func (d Data) sample(a Axis) sampled {
	var t sampled
	ends := append(append([]float64{}, a.Breaks...), d.Period)
	from := 0.0
	for _, to := range ends {
		if !(to > from) || to > d.Period {
			continue
		}
		n := max(2, int(math.Round(samples*(to-from)/d.Period)))
		for i := range n {
			t.add(d, a.At, from+(to-from)*float64(i)/float64(n))
		}
		t.add(d, a.before(), to)
		from = to
	}
	return t
}

func (t *sampled) add(d Data, f func(float64) State, sec float64) {
	t.x = append(t.x, sec*d.stretch())
	t.states = append(t.states, f(sec))
}

func (a Axis) before() func(float64) State {
	if a.Before != nil {
		return a.Before
	}
	return a.At
}

func (t sampled) values(pick func(State) float64) []float64 {
	out := make([]float64, len(t.states))
	for i, s := range t.states {
		out[i] = pick(s)
	}
	return out
}

// peakOf returns the signed value of greatest size and its real second.
func (d Data) peakOf(t sampled, ys []float64) Peak {
	var p Peak
	for i, y := range ys {
		// The margin keeps the first of two equal peaks, however they round.
		if math.Abs(y) > math.Abs(p.Value)*(1+1e-9) {
			p = Peak{Value: y, Time: t.x[i] / d.stretch()}
		}
	}
	return p
}
