package ontime

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/controller/segment"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// nudging is a rail that goes so many hundredths of a millimetre out within so many
// frames at 24 a second, back in the rest of the loop, and stands for half of it.
func nudging(t *testing.T, frames, hundredths, out int64) *trajectory.Trajectory {
	rail := sample.Ways(sample.Rail(t, "3-4-5", 1), func(w *move.Ways) {
		w.To = unit.Quantity{Value: exact.Int(40).Add(exact.New(hundredths, 100)), Dim: unit.Length}
		w.DwellFar = exact.New(frames, 48)
		w.OutShare = exact.New(out, frames)
	})
	r := sample.Bench(rig.InverseTime)
	r.Controller.SlowestStepRate, r.Controller.Baud = 30.5, 115200
	r.Controller.DwellGrain, r.Controller.Blocks = 0.05, 16
	return sample.Make(t, frames, r, rail)
}

// TestNoBlockLastsLessThanNothing: however short a way is and however quick, each block
// that moves lasts some time in every way to cut it, and a board takes its lines. A way
// of a dozen steps in 60 ms, whose ends alone are too slow for the board, was given
// steps that take longer than it, and the last of them less than no time: F-12454.
func TestNoBlockLastsLessThanNothing(t *testing.T) {
	try := func(t require.TestingT, tr *trajectory.Trajectory) {
		m := newMachine(tr)
		s := &search{m: m, rounds: 1, ideal: idealOf(tr)}
		for _, w := range s.ways(exact.New(23, 1000)) {
			k, ok := m.cut(w)
			if !ok {
				continue
			}
			for i, b := range k.Round {
				require.Equal(t, 1, b.Seconds.Sign(), "block %d of %+v lasts %s s", i, w, b.Seconds)
			}
			require.True(t, segment.Total(k.Round).Sub(tr.Period()).Abs().Less(exact.New(1, 1000)), "a round lasts as long")
			_, err := m.run(k, 1, s.ideal)
			require.NoError(t, err, "%+v", w)
		}
	}
	try(t, nudging(t, 48, 34, 4))
	rapid.Check(t, func(r *rapid.T) {
		frames := rapid.Int64Range(48, 240).Draw(r, "frames")
		out := rapid.Int64Range(1, frames-1).Draw(r, "share of the way out")
		try(r, nudging(t, frames, rapid.Int64Range(2, 60).Draw(r, "hundredths"), out))
	})
}
