package drive_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/spec/rig"
)

// silentWithin is how long after something was due a controller is given up that says
// nothing any more.
const silentWithin = 5 * time.Second

// calmWithin is how long what comes after a fault may take: the hold, how long slowing
// down may take, a reset and what the controller should say to it.
const calmWithin = 5 * time.Second

// Whatever a controller is at when it falls silent, it is given up in time: five
// seconds after what it was at should have been over. It goes on doing what it was told.
func TestSilentControllersAreGivenUp(t *testing.T) {
	longest := map[drive.State]time.Duration{ // what may be under way
		drive.Opening: 2 * time.Second, drive.Reading: 0, drive.Unsettled: 0, drive.Approaching: 3 * time.Second,
		drive.Counting: 4 * time.Second, drive.Running: 4 * time.Second, drive.Slowing: time.Second,
		drive.Draining: 2 * time.Second, drive.Resting: 3 * time.Second, drive.Returning: 3 * time.Second,
	}
	for _, kind := range rig.DrivenKinds() {
		for state, takes := range longest {
			for _, after := range []time.Duration{0, 30 * time.Millisecond, 300 * time.Millisecond} {
				s := stage(t, loop(t, kind))
				if kind == rig.StepPlayer {
					s.p = newToy().p
				}
				s.options.CountIn = 4
				stops := state == drive.Slowing || state == drive.Draining || state == drive.Resting
				if stops {
					s.w.script = []cue{
						{drive.Running, 1500 * time.Millisecond, drive.Request{Kind: drive.Stop}},
						{drive.Resting, 2 * time.Second, drive.Request{Kind: drive.Resume}},
					}
				}
				fell := time.Time{}
				s.w.entered = func(st drive.State) {
					if st == state && fell.IsZero() {
						s.p.in(after, func() { s.p.mute, fell = true, s.p.now })
						fell = s.p.now
					}
				}
				r := s.run()
				if fell.IsZero() || r.End == drive.Finished {
					continue // it never was in that state, or was over before it fell silent
				}
				name := []any{"%v in %v after %v: %v %s", kind, state, after, r.End, r.Detail}
				require.True(t, r.End.Fault(), name...)
				require.False(t, r.Known, name...)
				if !s.p.mute {
					continue
				}
				require.LessOrEqual(t, s.p.now.Sub(fell), takes+silentWithin+calmWithin, name...)
			}
		}
	}
}
