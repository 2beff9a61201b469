package verify

import (
	"context"
	"fmt"

	"seamrail/motion/base/exact"
)

// checkFrames counts the frames that begin inside one round and wants exactly
// the promised number, evenly spaced, with the next one due at the seam itself.
func checkFrames(ctx context.Context, m Motion) Finding {
	f := Finding{Check: "frames"}
	if m.FrameSeconds(0).Sign() != 0 {
		f.Text = "frame 0 is not on the seam"
		return f
	}
	count, each := int64(0), m.FrameSeconds(1)
	before := exact.Int(-1)
	for k := int64(0); k <= m.Captured() && ctx.Err() == nil; k++ {
		at := m.FrameSeconds(k)
		if !before.Less(at) {
			f.Text = fmt.Sprintf("frame %d does not come after frame %d", k, k-1)
			return f
		}
		if k > 0 && !at.Sub(before).Equal(each) {
			f.Text = fmt.Sprintf("frame %d does not come as long after frame %d as frame 1 after frame 0", k, k-1)
			return f
		}
		if at.Less(m.Shown()) {
			count++
		}
		before = at
	}
	f.OK = before.Equal(m.Shown()) // of even frames as many are before it as there are
	f.Text = fmt.Sprintf("%d frames begin inside the loop, frame %d would begin %s s after the seam",
		count, m.Captured(), before.Sub(m.Shown()))
	if f.OK {
		f.Text = fmt.Sprintf("%d whole frames, time strictly increasing, frame %d falls exactly on the seam",
			count, m.Captured())
	}
	return f
}
