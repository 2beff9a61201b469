package drive_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// A stop in a dwell of a take rests, though lines are behind it: those that a board reads
// on all the same, as it takes no hold while it stands, are held as they set out.
func TestVirtualStopsInADwell(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		m := sample.Ways(sample.Rail(t, "cycloidal", 100), func(w *move.Ways) { w.DwellFar = exact.Int(4) })
		tr := sample.Make(t, 192, bench(kind), m)
		tr.Plan().Rig.Controller.Greeting = ""
		tr.Plan().Rig.Controller.Status = '?'
		source := onVirtual(t, tr, 1, nil).options.Source
		for n := range 20 {
			idle, after := n%2 == 0, 2500*time.Millisecond+time.Duration(n)*277*time.Millisecond
			x := onVirtualWith(t, tr, 1, source, func(o *virtual.Options) { o.HoldsIdle = idle })
			x.w.script = []cue{{drive.Running, after, drive.Request{Kind: drive.Stop}}, {drive.Resting, rests, drive.Request{Kind: drive.Quit}}}
			var rested time.Duration
			x.w.entered = func(s drive.State) {
				if s == drive.Resting {
					rested = x.rig.Now()
				}
			}
			r := x.run()
			require.NoError(t, r.Err(), "%v idle %v after %v: %v", kind, idle, after, x.w.said)
			require.NotZero(t, rested)
			require.True(t, r.Known, "%v idle %v after %v: %v", kind, idle, after, x.w.said)
			rec := x.rig.Record()
			for i := range rec.Len() {
				s := rec.Span(i)
				require.False(t, s.Start > rested.Seconds() && s.Start < (rested+rests).Seconds(), "%v idle %v after %v: it moves at %.3f s, and is said to rest", kind, idle, after, s.Start)
			}
		}
	}
}

// rests is how long a take is left at rest: longer than the dwell.
const rests = 9 * time.Second
