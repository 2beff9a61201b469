package spin

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Every point of a curve is the loop's own error, and no loop that closes is
// left out, however few bins there are.
func TestCurvesAreTheSeams(t *testing.T) {
	closing := int64(0)
	rapid.Check(t, func(t *rapid.T) {
		q := genQuery(t)
		if len(q.Faults()) > 0 {
			return
		}
		a := q.search()
		found := int64(0)
		for _, c := range Curves(q, rapid.IntRange(1, 60).Draw(t, "bins")) {
			for _, p := range c.Points {
				loop, err := c.Clock.LoopFrames(int64(p.Screen*c.Clock.Playback.Float() + 0.5))
				assert.NoError(t, err)
				l := q.build(loop, c.Speeds)
				assert.Equal(t, l.Captured, p.Frames)
				assert.Equal(t, l.Closes(), p.Closes)
				off := 0.0
				for _, s := range l.Seams {
					off = max(off, s.Error.Quo(s.Bound).Abs().Float())
				}
				near := false
				for _, s := range l.Seams {
					near = near || s.Error.Abs().Float()-p.Off < 1e-12 && p.Off-s.Error.Abs().Float() < 1e-12 && s.Error.Quo(s.Bound).Abs().Float() >= off*(1-1e-9)
				}
				assert.True(t, near, "%v", p)
				if p.Closes {
					found++
				}
			}
		}
		assert.Equal(t, a.Closing, found)
		closing += found
	})
	assert.Positive(t, closing)
}
