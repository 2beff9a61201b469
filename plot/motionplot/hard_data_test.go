package motionplot

import "math"

// hard is what strains a layout: jumps of speed, a seam that does not close, a
// name too long, a limit passed, a held axis, a loop of few frames, and words
// that do not fit a line.
func hard() Data {
	const period = 2.0
	kink := func(t float64) State {
		if t < 1 {
			return State{Pos: 300 * t, Vel: 300}
		}
		return State{Pos: 300 * (2 - t), Vel: -300}
	}
	sway := func(t float64) State {
		w := math.Pi * 1.9 // not a whole number of turns: the seam stays open
		s, c := math.Sincos(w * t)
		return State{Pos: 20 * s, Vel: 20 * w * c, Acc: -20 * w * w * s, Jerk: -20 * w * w * w * c}
	}
	still := func(float64) State { return State{Pos: -12.5} }
	return Data{
		Title:    "A shot whose name goes on for rather longer than the paper is wide",
		Subtitle: "11 frames · 0.4588 s on screen · 2 s at the rig",
		Clock:    "captured at 11/2, played at 23.976 (24000/1001), and a remark that is cut short",
		Verdict:  "REJECTED: 3 of 12 checks fail; rail: speed jumps by 600 mm/s",
		Foot:     "Speeds are the rig's own, in real seconds. Plan 3f9a0c61d2b7",
		Period:   period, OnScreen: 11 * 1001.0 / 24000, Captured: 11,
		Axes: []Axis{
			{Name: "rail", Unit: "mm", At: kink, Breaks: []float64{1},
				Before: func(t float64) State {
					if t == 1 {
						return State{Pos: 300, Vel: 300}
					}
					return kink(t)
				},
				Limits: Limits{Min: -20, Max: 320, Speed: 200, Acc: 3000},
				Peaks:  &Peaks{Speed: Peak{300, 0}, Acc: Peak{math.Inf(1), 1}, Jerk: Peak{math.Inf(1), 1}},
				Seam:   "kicks: it is in the right place but changes speed at once, and the eye catches it"},
			{Name: "a name nobody would type twice", Unit: "deg", At: sway,
				Limits: Limits{Min: -90, Max: 90, Speed: 90, Acc: 500}},
			{Name: "focus", Unit: "deg", At: still, Limits: Free()},
		},
	}
}
