package drive_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
)

// A table that turns for ever and was stopped after some turns goes on to the nearest place
// that looks as the start does: it does not turn back all that it has turned.
func TestAnEndlessTableIsNotUnwound(t *testing.T) {
	for _, kind := range reporting {
		for _, stop := range []time.Duration{9 * time.Second, 10500 * time.Millisecond} {
			tr := sample.Make(t, 96, bench(kind), sample.Rail(t, "cycloidal", 100), sample.Turning(sample.Table(t), exact.Int(1)))
			tr.Plan().Rig.Controller.Greeting = ""
			m := onVirtual(t, tr, 4, nil)
			m.w.script = []cue{
				{drive.Running, stop, drive.Request{Kind: drive.Stop}}, {drive.Resting, time.Second, drive.Request{Kind: drive.Restart}},
				{drive.Running, time.Second, drive.Request{Kind: drive.Finish}},
			}
			require.NoError(t, m.run().Err(), "%v", m.w.said)
			require.Len(t, m.w.passes, 2)
			at := func(of time.Time) float64 { return m.where(1, of.Sub(virtual.Epoch).Seconds()) }
			first, second := m.w.passes[0], m.w.passes[1]
			require.Greater(t, at(first.Ended), 720.0, "it has turned so far")
			way := 0.0 // whatever the board counts from meanwhile
			const look = 10 * time.Millisecond
			for x := first.Ended; x.Before(second.Began); x = x.Add(look) {
				way += math.Abs(math.Remainder(at(x.Add(look))-at(x), 360))
			}
			assert.Less(t, way, 200.0, "%v: half a turn, and what takes up play", kind)
			assert.InDelta(t, 0, math.Remainder(at(second.Began)-at(first.Began), 360), 0.1, "%v: as it began", kind)
			assert.InDelta(t, 0, second.Worst[1], 0.2, "and it follows the plan from there")
		}
	}
}
