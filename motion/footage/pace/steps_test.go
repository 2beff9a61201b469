package pace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/plan/sample/many"
)

// going is a take of a lens that goes in and out while a table turns evenly, as poses from frame to
// frame have it: they scatter as those of a drawn lantern 640 px wide.
type going struct {
	shape
	rounds int
	frames int
	zero   float64
	time   func(planned float64) float64
	law    string // by which it goes really; "" for the planned one
}

func (d drawing) going() going {
	g := going{shape: d.shape(product{sides: 6}), rounds: 1 + d.IntN(3), zero: d.between(10, 40)}
	g.rail, g.go1, g.go2 = d.between(80, 150), d.whole(36, 56), d.whole(36, 56)
	return g
}

// plan is that of a take: the table turns by a sixth in each round, with a run-up and a run-out.
func (g going) plan() against.Plan {
	_, rail, loop := g.axes()
	p := planOf(loop, g.rounds)
	p.RunUp, p.RunOut = 12, 12
	p.Axes = append(p.Axes, axisOf("rail", false, once(rail, p)))
	p.Axes[0].Likely = &against.Gain{Scale: 0.003} // what is farther grows by less
	p.Axes = append(p.Axes, axisOf("table", true, rampedTurn(60/loop, loop*float64(g.rounds), 12)))
	return p
}

// rampedTurn turns by so many degrees a frame, and runs up and out.
func rampedTurn(by, end, ramp float64) func(float64) float64 {
	return func(j float64) float64 {
		switch {
		case j < 0:
			u := max(ramp+j, 0)
			return by * (u*u/2/ramp - ramp/2)
		case j > end:
			u := min(j-end, ramp)
			return by * (end + u - u*u/2/ramp)
		}
		return by * j
	}
}

func (g going) film(d drawing, plan against.Plan) (*alike.Sketches, []footage.Frame) {
	rail, table := plan.Axes[0].At, plan.Axes[1].At
	if g.law != "" {
		s := g.shape
		s.law = mustLaw(g.law)
		_, other, _ := s.axes()
		rail = axisOf("rail", false, once(other, plan)).At
	}
	var c alike.Collector
	out := make([]footage.Frame, g.frames)
	at := func(k int) (x, angle float64) {
		j := float64(k) - g.zero
		if g.time != nil {
			j = g.time(j)
		}
		return rail(j / 24), table(j / 24)
	}
	gray := footage.NewGray(16, 9)
	for k := range out {
		for i := range gray.Pix {
			gray.Pix[i] = float32(d.Float64())
		}
		_ = c.Add(gray)
		if k == 0 {
			continue
		}
		x, angle := at(k)
		was, before := at(k - 1)
		p := footage.Same()
		p.X = 0.7*(angle-before)*(1+0.2*math.Sin(angle/5)) + 0.05*d.NormFloat64()
		p.Y, p.Turn = 0.01*d.NormFloat64(), 0.01*d.NormFloat64()
		p.Scale = math.Exp(0.0025*(x-was) + 0.00012*d.NormFloat64())
		p.Known = d.Float64() > 0.02
		if d.Float64() < 0.02 {
			p.Scale *= 1 + 0.01*d.NormFloat64()
		}
		out[k].FromBefore = p
	}
	return c.Sketches(), out
}

// A product that turns evenly all along while the lens goes in tells its times by how the picture goes
// on: frame 0, and whether moves come when planned. What does not go by them is never said to.
func TestALensThatGoesInWhileATableTurns(t *testing.T) {
	n, said, beyond := many.Times(1, 100), 0, 0
	for i := range n {
		d := newDrawing(uint64(i))
		g := d.going()
		p := g.plan()
		g.frames = int(g.zero) + int(p.Loop)*p.Rounds + 20
		s, frames := g.film(d, p)
		r, err := Lay(s, frames, p)
		require.NoError(t, err)
		off := math.Abs(r.Frame0.Value - g.zero)
		require.NotEqual(t, Differs, r.Verdict.Kind, "%d %s", i, r.Verdict.Text)
		if r.Verdict.Kind != ByTimes {
			t.Log(i, r.Verdict.Text)
			continue
		}
		said++
		assert.Less(t, off, 0.2+4*r.Frame0.Sure)
		if off > 2.5*r.Frame0.Sure {
			beyond++
		}
		assert.NotEmpty(t, r.Verdict.Proven)
	}
	t.Logf("%d of %d said, %d beyond", said, n, beyond)
	assert.GreaterOrEqual(t, said, n*9/10)
	assert.LessOrEqual(t, beyond, max(1, n/20))

	for i := range n {
		d := newDrawing(uint64(3000 + i))
		g := d.going()
		p := g.plan()
		g.frames = int(g.zero) + int(p.Loop)*p.Rounds + 20
		loop := float64(p.Loop)
		switch i % 4 {
		case 0:
			g.law = map[string]string{"harmonic": "4-5-6-7", "cycloidal": "trapezoidal", "modified-sine": "4-5-6-7", "3-4-5": "harmonic", "4-5-6-7": "harmonic"}[g.shape.law.Name()]
		case 1:
			by := 1 + d.between(0.02, 0.05)*float64(2*d.IntN(2)-1)
			g.time = func(j float64) float64 { return j * by }
		case 2: // a rest that is longer
			by := d.whole(2, 4)
			g.time = func(j float64) float64 { return j - min(max(j-g.go1-1, 0), by) }
		default: // it stops in a move
			by := d.whole(2, 8)
			g.time = func(j float64) float64 { return j - min(max(j-loop*float64(p.Rounds-1)-g.go1/2, 0), by) }
		}
		s, frames := g.film(d, p)
		r, err := Lay(s, frames, p)
		require.NoError(t, err)
		assert.NotEqual(t, ByTimes, r.Verdict.Kind, "%d %v", i, r)
	}
}

// One round of several, with nothing before it and after, is told to go by its times, and which of them
// it is to be open.
func TestARoundOfSeveral(t *testing.T) {
	d := newDrawing(5)
	g := d.going()
	g.rounds = 3
	p := g.plan()
	g.zero, g.frames = 0, int(p.Loop)
	s, frames := g.film(d, p)
	r, err := Lay(s, frames, p)
	require.NoError(t, err)
	assert.Equal(t, ByTimes, r.Verdict.Kind, r.Verdict.Text)
	assert.False(t, r.Frame0.Known)
	require.NotEmpty(t, r.Frame0.Others)
	for _, o := range r.Frame0.Others {
		rounds := (o.Value - r.Frame0.Value) / float64(p.Loop)
		assert.InDelta(t, math.Round(rounds), rounds, 0.01)
	}
	assert.InDelta(t, 0, math.Remainder(r.Frame0.Value, float64(p.Loop)), 0.5)
	assert.Contains(t, r.Verdict.Text, "which round it shows nobody can tell")
}
