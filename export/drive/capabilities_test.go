package drive_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/spec/rig"
)

// Controllers have some real-time bytes and lack others. Each combination runs
// a take, stops, goes on, and never claims to know what it cannot.
func TestAnyCapabilities(t *testing.T) {
	for bits := range 16 {
		status, hold, abort := bits&1 != 0, bits&2 != 0, bits&4 != 0
		kind := []rig.ControllerKind{rig.Buffered, rig.Lockstep}[bits>>3]
		t.Run(fmt.Sprintf("%v status %v hold %v abort %v", kind, status, hold, abort), func(t *testing.T) {
			with := func(requests ...drive.RequestKind) (*scene, drive.Result) {
				return takeOf(t, kind, func(s *scene) {
					c := &s.tr.Plan().Rig.Controller
					c.Status, c.Hold, c.Resume, c.Abort = given(status, '?'), given(hold, '!'), given(hold, '~'), given(abort, 0x18)
					s.p.realtime = true
					s.p.in(3*time.Second, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
					for _, k := range requests {
						s.w.script = append(s.w.script, cue{drive.Resting, time.Second, drive.Request{Kind: k}})
					}
				})
			}
			s, r := with(drive.Resume)
			require.NoError(t, r.Err(), "%v", s.w.said)
			require.Equal(t, int64(3), s.w.passes[0].Rounds)
			require.True(t, r.Known)
			require.InDelta(t, 40, s.p.where('X'), 0.001, "back at the start")

			s, r = with(drive.Quit)
			require.Equal(t, drive.Stopped, r.End, r.Detail)
			require.Equal(t, !hold || status && abort, r.Known, "what is held is known where it is told and can be forgotten")
			require.Equal(t, r.Known, s.read().Known)
			if r.Known && hold {
				require.Empty(t, s.p.blocks)
			}
		})
	}
}

func given(has bool, b byte) byte {
	if has {
		return b
	}
	return 0
}
