package drive_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// stopsAt presses the stop key, ms after the port was opened. A minute later the
// operator leaves.
func (s *scene) stopsAt(ms int) {
	s.at(ms, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Stop}) })
	s.at(ms+60_000, func() { s.p.asked = append(s.p.asked, drive.Request{Kind: drive.Quit}) })
}

// A stop while the controller is greeted and read, when nobody will be asked any
// more, is not forgotten: nothing moves.
func TestStopBeforeAnythingMoves(t *testing.T) {
	for kind, settlings := range map[rig.ControllerKind][]drive.Settling{
		rig.Buffered: {drive.ByHand, drive.ByHoming}, rig.Lockstep: {drive.ByHand},
	} {
		for _, settle := range settlings {
			early := 0
			for ms := 0; ms < 900; ms += 10 {
				s := stage(t, loop(t, kind))
				s.options.Settle = settle
				s.stopsAt(ms)
				moving := false
				s.at(ms, func() {
					moving = slices.ContainsFunc(s.w.states, func(x drive.State) bool { return x == drive.Running || x == drive.Homing })
				})
				r := s.run()
				require.Equal(t, drive.Stopped, r.End, "%v %v %d ms: %+v", kind, settle, ms, r)
				if moving {
					continue
				}
				early++
				require.Empty(t, s.p.moves, "%v %v %d ms", kind, settle, ms)
				require.NotContains(t, s.p.log.String(), "$H\n", "%v %v %d ms", kind, settle, ms)
				require.Empty(t, s.read().Takes)
			}
			require.Greater(t, early, 20)
		}
	}
}

// Two stops with anything from no time to 12 ms between them, from the first
// motion to past the last: an abort, or a stop of what had come to rest by then.
func TestSecondStopAtAnyTime(t *testing.T) {
	many.Long(t)
	ends := map[drive.End]int{}
	for n := range 400 {
		s := stage(t, loop(t, rig.Buffered))
		if n%2 == 1 {
			s, _ = playerScene(t)
		}
		ms := 700 + 14*n
		s.stopsAt(ms)
		s.stopsAt(ms + n%13)
		r := s.run()
		require.NoError(t, r.Err(), "%d ms: %v", ms, s.w.said)
		require.True(t, r.Known || r.End == drive.Aborted, "%d ms: %v", ms, r.End)
		require.Equal(t, r.Known, s.read().Known)
		ends[r.End]++
	}
	require.Greater(t, ends[drive.Aborted], 200)
	require.Greater(t, ends[drive.Stopped], 20, "and some came when it was at rest")
}
