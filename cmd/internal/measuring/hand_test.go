package measuring

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/motion/spec/rig"
)

// tugged is a world in which somebody stops at some wait.
type tugged struct {
	session.World
	h    *hand
	left int
}

func (t *tugged) Wait(until time.Time) drive.Event {
	if t.left--; t.left == 0 {
		t.h.stop()
	}
	return t.World.Wait(until)
}

// Whenever somebody stops a way, the rig rests, and nothing else is moved.
func TestAStopOnTheWay(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		r, _, err := rig.Decode("bench.toml", starter.RigWith(kind))
		require.NoError(t, err)
		stopped := 0
		for n := 1; n < 60; n += 4 {
			h, err := connect(Port{Virtual: true}, r, func(string) {})
			require.NoError(t, err)
			h.axis = r.Axes[0]
			require.NoError(t, h.here())
			h.world = &tugged{h.world, h, n}
			began := h.truly()
			if err = h.to(30); err == nil { // it was there before anybody stopped
				assert.InDelta(t, 30, h.truly(), 0.05)
				continue
			}
			stopped++
			// A board that has just ended its rows refuses to hold, which is told as a fault.
			assert.Contains(t, []int{exit.Stopped, exit.Rig}, exit.Code(err), "%s %d: %v", kind, n, err)
			rests := h.truly()
			h.made.Advance(10 * time.Second)
			assert.InDelta(t, rests, h.truly(), 1e-9, "%s %d", kind, n)
			assert.GreaterOrEqual(t, rests, began-0.1)
		}
		assert.GreaterOrEqual(t, stopped, 3, kind)
	}
}
