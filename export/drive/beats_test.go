package drive_test

import (
	"iter"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// heard is a beat and when it was told.
type heard struct {
	drive.Beat
	at time.Time
}

// counted gives a scene beats at the given seconds of the take, and returns those
// that are told.
func counted(s *scene, now func() time.Time, at ...float64) *[]heard {
	var told []heard
	s.options.Beats = func(int64) (func() (drive.Beat, bool), func()) {
		return iter.Pull(func(yield func(drive.Beat) bool) {
			for i, sec := range at {
				if !yield(drive.Beat{At: sec, Text: "pebble", Left: int64(len(at) - i - 1)}) {
					return
				}
			}
		})
	}
	s.options.Call = func(b drive.Beat) { told = append(told, heard{b, now()}) }
	return &told
}

// Beats in the count-in, in the run-up and in the rounds are told when they are
// due, by the motion that the controller makes.
func TestBeatsAreOnTime(t *testing.T) {
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep} {
		s := stage(t, loop(t, kind))
		s.options.CountIn = 2
		at := []float64{-2.1, -1.4, -0.9, 0, 0.25, 1.5, 2.99}
		told := counted(s, s.p.Now, at...)
		var begun time.Time // the last of the count, when motion begins
		s.w.beat = func() { begun = s.p.Now() }
		require.Equal(t, drive.Finished, s.run().End)
		require.Len(t, *told, len(at), kind)
		zero := begun.Add(time.Duration(runUp(s) * float64(time.Second)))
		for i, b := range *told {
			require.Equal(t, at[i], b.At)
			require.InDelta(t, at[i], b.at.Sub(zero).Seconds(), 0.05, "%v: the answers tell the motion's instant to so much", kind)
			if i > 0 && at[i-1] >= 0 {
				require.InDelta(t, at[i]-at[i-1], b.at.Sub((*told)[i-1].at).Seconds(), 0.002, "and from each other they are exact")
			}
		}
	}
}

func runUp(s *scene) float64 {
	p := s.tr.Plan()
	return p.Loop.Clock.FrameTime(p.RunUp).Float()
}

// A take that is stopped tells no beat while it rests.
func TestNoBeatAtRest(t *testing.T) {
	s := stage(t, loop(t, rig.Buffered))
	told := counted(s, s.p.Now, 0.2, 1.7, 2.9)
	s.options.Takes = 0
	s.w.script = []cue{
		{drive.Ready, 0, drive.Request{Kind: drive.Go}},
		{drive.Running, 1200 * time.Millisecond, drive.Request{Kind: drive.Stop}},
		{drive.Resting, 20 * time.Second, drive.Request{Kind: drive.Quit}},
	}
	s.run()
	require.Len(t, *told, 1)
	require.True(t, slices.ContainsFunc(s.w.passes, func(p drive.Pass) bool { return p.End == drive.Stopped }))
}

// A beat that is long past is not told: it would come at the wrong moment.
func TestStaleBeatsAreLeftOut(t *testing.T) {
	s := stage(t, loop(t, rig.Buffered))
	told := counted(s, s.p.Now, -60, -30, 0.5)
	require.Equal(t, drive.Finished, s.run().End)
	require.Len(t, *told, 1)
	require.Equal(t, 0.5, (*told)[0].At)
}

// The log keeps by how much each hand was told earlier.
func TestShiftsAreLogged(t *testing.T) {
	s := stage(t, loop(t, rig.Buffered))
	s.options.Shifts = map[string]float64{"left": 0.04}
	require.Equal(t, drive.Finished, s.run().End)
	log, err := logged(s.log.Bytes())
	require.NoError(t, err)
	require.Equal(t, map[string]float64{"left": 0.04}, log.Takes[0].Begin.Shift)
}

// soonEnough, in s, is how far from the motion's own time a beat may be told:
// four hundredths of the time in which anyone reacts. Worst measured:
// 6.4 ms in the count-in, 1.4 ms in the rounds.
const soonEnough = 0.008

// The bell rings by what the motors do, counted in or in the rounds: measured on
// the rig of software, which plans its motion itself.
func TestVirtualBeats(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		m := onVirtual(t, smooth(t, kind, 72), 3, nil)
		m.options.CountIn = 2
		at := []float64{-1.5, -0.5, -0.05, 0.2, 1, 4, 8.9}
		told := counted(m.scene, m.world.Now, at...)
		require.Equal(t, drive.Finished, m.run().End, kind)
		begins, _ := m.span()
		require.Len(t, *told, len(at), kind)
		for i, b := range *told {
			require.InDelta(t, at[i], b.at.Sub(virtual.Epoch).Seconds()-begins, soonEnough, "%v, beat %d", kind, i)
		}
	}
}
