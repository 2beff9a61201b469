package motionplot

import "math"

// quintic is the 3-4-5 polynomial and its derivatives: minimum jerk from rest
// to rest (Flash and Hogan 1985).
func quintic(u float64) (s, v, a, j float64) {
	s = u * u * u * (10 + u*(-15+6*u))
	v = 30 * u * u * (1 - u) * (1 - u)
	a = 60 * u * (1 - u) * (1 - 2*u)
	j = 60 * (1 - 6*u + 6*u*u)
	return
}

// lantern is the Fernhollow lantern: the rail goes out and back with a dwell
// of twelve frames, the table turns by one pane of six.
func lantern() Data {
	const period, from, to = 144 * 1001.0 / 120000, 40.0, 100.0
	frame := period / 144
	move := 66 * frame
	at := func(t float64) State {
		sign, base, u := 1.0, from, t/move
		switch {
		case t >= move+12*frame:
			sign, base, u = -1, to, (t-move-12*frame)/move
		case t >= move:
			return State{Pos: to}
		}
		s, v, a, j := quintic(math.Min(u, 1))
		d := sign * (to - from)
		return State{base + d*s, d * v / move, d * a / move / move, d * j / move / move / move}
	}
	turn := func(t float64) State { return State{Pos: 60 * t / period, Vel: 60 / period} }
	return Data{
		Title:    "Fernhollow lantern, slow reveal",
		Subtitle: "144 frames · 6.006 s on screen · 1.201 s at the rig",
		Clock:    "captured at 119.88 (120000/1001), played at 23.976 (24000/1001)",
		Verdict:  "Checked: limits kept, seam closed, steps sum to nothing.",
		Foot:     "Speeds are the rig's own, in real seconds. Plan 3f9a0c61d2b7",
		Period:   period, OnScreen: 144 * 1001.0 / 24000, Captured: 144,
		Axes: []Axis{
			{Name: "rail", Unit: "mm", At: at, Breaks: []float64{move, move + 12*frame},
				Dwells: [][2]float64{{move, move + 12*frame}},
				Limits: Limits{Min: 0, Max: 400, Speed: 400, Acc: 3000, Jerk: 60000}},
			{Name: "table", Unit: "deg", At: turn, Gain: 60,
				Limits: Limits{Min: math.Inf(-1), Max: math.Inf(1), Speed: 180, Acc: 720}},
		},
	}
}
