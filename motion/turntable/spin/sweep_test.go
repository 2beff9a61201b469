package spin

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Every point of a curve is the loop's own error. With a bin for each loop none is
// left out; with fewer, a curve still shows one that closes if there is any.
func TestCurvesAreTheSeams(t *testing.T) {
	closing := int64(0)
	rapid.Check(t, func(t *rapid.T) {
		q := genQuery(t)
		if len(q.Faults()) > 0 {
			return
		}
		a := q.search()
		found := int64(0)
		points := int64(0)
		for _, c := range Curves(q, rapid.SampledFrom([]int{1, 7, 60, 10_000}).Draw(t, "bins")) {
			points += int64(len(c.Points))
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
		if points == a.Considered {
			assert.Equal(t, a.Closing, found)
		}
		assert.Equal(t, a.Closing > 0, found > 0)
		closing += found
	})
	assert.Positive(t, closing)
}
