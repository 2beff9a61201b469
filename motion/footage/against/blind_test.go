package against

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
)

// What a few frames say that are known is held against no take.
func TestATakeOfWhichMostIsUnknownIsNotCalledAnother(t *testing.T) {
	plan, _ := fern()
	for _, every := range []int{2, 3, 8} {
		c := footage.Course{Frames: make([]footage.Frame, 200)}
		known := 0
		for n := range c.Frames {
			c.Frames[n].FromFirst = footage.Pose{Scale: 1}
			if n%every == 0 && n > 0 {
				p := footage.Same()
				p.X, p.Doubt = float64(n%7), footage.Doubt{X: 0.02, Y: 0.02, Turn: 0.01, Scale: 1e-4}
				c.Frames[n].FromFirst = p
				known++
			}
		}
		r, err := Lay(c, plan)
		require.NoError(t, err)
		assert.Equal(t, NotKnown, r.Verdict.Kind, "%d of 200 known", known)
		assert.Empty(t, r.Verdict.Causes)
	}
}
