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
		for _, idle := range []bool{false, true} {
			for after := 2500 * time.Millisecond; after < 8*time.Second; after += 333 * time.Millisecond {
				m := sample.Ways(sample.Rail(t, "cycloidal", 100), func(w *move.Ways) { w.DwellFar = exact.Int(4) })
				tr := sample.Make(t, 192, bench(kind), m)
				tr.Plan().Rig.Controller.Greeting = ""
				tr.Plan().Rig.Controller.Status = '?'
				x := onVirtual(t, tr, 1, func(o *virtual.Options) { o.HoldsIdle = idle })
				x.w.script = []cue{{drive.Running, after, drive.Request{Kind: drive.Stop}}, {drive.Resting, 9 * time.Second, drive.Request{Kind: drive.Quit}}}
				r := x.run()
				require.NoError(t, r.Err(), "%v idle %v after %v: %v", kind, idle, after, x.w.said)
				require.Contains(t, x.w.states, drive.Resting)
				t.Logf("%v idle %v after %v: %v %v now %v, %v", kind, idle, after, r.End, r.Known, x.rig.Now(), x.w.said[max(len(x.w.said)-1, 0):])
				require.True(t, r.Known, "%v idle %v after %v: %v", kind, idle, after, x.w.said)
			}
		}
	}
}
