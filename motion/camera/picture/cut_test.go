package picture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
)

// returning is a motion whose rounds are longer than the loop that is shown.
type returning struct{ fake }

func (r returning) Period() exact.Rat { return r.clock.FrameTime(2 * r.frames) }

// The seam of a loop that is cut back is where what is shown ends, 0.03 mm on
// In the first second, and it jumps by design.
func TestSeamOfACut(t *testing.T) {
	m := returning{at(t, 120, 120).with("across", steady(0, 0.03))}
	v := find(t, examine(t, m, bench()), "seam in the picture")
	assert.InEpsilon(t, 0.03*scale, figure(t, v, "jump"), 1e-4)
	assert.Equal(t, picture.Fair, v.Level)
	assert.Contains(t, v.Text, "cut back by design")
}
