package against

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/footage"
)

// goingIn is fern's take with a rail that goes in on a plane so many mm from the lens in the middle of
// its travel: what it sees grows by that distance over what is left of it.
func goingIn(distance float64) (Plan, footage.Course) {
	p, k := fern()
	p.Axes[0].Gain, p.Bends, k.gains = nil, true, [][4]float64{{0, 0, 0, 0}}
	c := k.film(p)
	for i := range c.Frames {
		shown := min(max(float64(i)-k.zero, 0), float64(p.end()))
		x := p.Axes[0].At(shown / 24)
		c.Frames[i].FromFirst.Scale *= distance / (distance - (x - 50))
	}
	return p, c
}

// A lens that goes in on a product nearer than twice its travel is laid to where it is: told the
// measure, and where nobody tells it with the distance fitted, and that is said.
func TestALensThatGoesIn(t *testing.T) {
	for _, distance := range []float64{140, 400, 2000} {
		p, c := goingIn(distance)
		told := p
		told.Axes = append([]Axis(nil), p.Axes...)
		told.Axes[0].Seen = func(s float64) float64 { return 50 - distance*math.Log1p(-(p.Axes[0].At(s)-50)/distance) }
		for name, plan := range map[string]Plan{"told": told, "fitted": p} {
			r, err := Lay(c, plan)
			assert.NoError(t, err)
			assert.Equal(t, IsPlan, r.Verdict.Kind, "%s %g: %s", name, distance, show(r))
			assert.InDelta(t, 31.3, r.Frame0.Value, max(0.02, 4*r.Frame0.Sure), "%s %g", name, distance)
			assert.Less(t, r.Frame0.Sure, 0.02, "%s %g", name, distance)
			for _, round := range r.Rounds {
				assert.InDelta(t, 0, round.Late.Value, 0.2, "%s %g", name, distance)
			}
			said := false
			for _, u := range r.Verdict.Unproven {
				said = said || u == "how far rail takes the lens to what it sees: the distance was fitted, and the shot does not tell it"
			}
			assert.Equal(t, name == "fitted" && distance < 1000, said, "%s %g: %q", name, distance, r.Verdict.Unproven)
		}
	}
}
