package rushes_test

import "testing"

// zero is the frame of each recording that shows frame 0 of its plan.
const zero = 17.3

func clean(t *testing.T) ordered {
	return ordered{"clean", along(t), still(240, zero)}
}

// blurred is a take with blur, by a shutter that takes 1/150 s from the first row to the last, of
// the macro shot behind a finger that covers a quarter of it.
func blurred(t *testing.T) ordered {
	f := still(240, zero)
	f.shut = shutter{open: open, readout: 1 / 150.0, samples: 2, bands: 3}
	f.hand = func(frame float64) *float64 {
		const in, out = 140, 190
		if frame < in || frame > out {
			return nil
		}
		x := -80 + 160*(frame-in)/(out-in)
		return &x
	}
	return ordered{"blurred", along(t), f}
}

// slower is by how many frames the second round of a take is.
const slower = 3

func slow(t *testing.T) ordered {
	s := along(t, "clock.loop", "4 s", "take.rounds", "2", "from", "23 mm", "to", "29 mm")
	f := still(225, zero)
	loop := float64(s.plan.Loop)
	f.time = func(planned float64) float64 {
		if planned < loop {
			return planned
		}
		return min(loop+(planned-loop)*loop/(loop+slower), 2*loop) // after which it rests
	}
	return ordered{"slow", s, f}
}

// rests is how many frames after one move the next one ends, and dwell how long it rests between.
const rests, dwell = 72, 30

// shake is how a carriage swings after each move, and blows how a table does after a blow: mm, Hz,
// share of critical. From one move to the next are five swings and three quarters, so that what is
// left of the one before is a quarter off and adds a hundredth or two.
var (
	shake = knock{0.3, 9.6, 0.04}
	blows = knock{0.6, 14, 0.1}
)

const blow = 83.6

func shaken(t *testing.T) ordered {
	s := along(t, "clock.loop", "6 s", "take.rounds", "2", "from", "24 mm", "to", "28 mm", "dwell-far", "30 frames", "dwell-near", "30 frames")
	f, per := still(320, zero), s.plan.CaptureRate.Float()
	f.shift = func(planned float64) (by shift) {
		for n := range 4 {
			by.x += shake.at((planned - float64(rests*(n+1)-dwell)) / per)
		}
		return by
	}
	return ordered{"shaken", s, f}
}

func blown(t *testing.T) ordered {
	s := along(t)
	f, per := still(240, zero), s.plan.CaptureRate.Float()
	f.shift = func(planned float64) shift {
		swing := blows.at((planned - blow) / per)
		return shift{swing, swing / 2}
	}
	return ordered{"blown", s, f}
}

func inward(t *testing.T) ordered {
	s := in(t, []string{"table"}, "take.rounds", "1")
	s.px = 0 // it grows
	return ordered{"inward", s, still(180, zero)}
}

func both(t *testing.T) ordered {
	return ordered{"both", in(t, nil, "take.rounds", "2"), still(340, zero+20)}
}

// A stand that nobody timed: s a turn, filmed at so many frames a second.
const standPeriod, standRate = 6.37, 24

func turning(t *testing.T) ordered {
	s := in(t, []string{"table"}, "clock.capture", "24", "clock.playback", "24")
	s.look = func([]float64) moment { return moment{Y: 60, Z: 454} }
	f := still(460, 0)
	f.turned = func(frame float64) float64 { return -360 * frame / standRate / standPeriod }
	return ordered{"turning", s, f}
}
