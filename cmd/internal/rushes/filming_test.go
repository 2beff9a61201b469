package rushes_test

import (
	"math"

	"github.com/stretchr/testify/require"

	"testing"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage/against"
)

// moment is one sample of a frame as render.mjs takes it: where the lens is, mm, how far the table
// has turned and the lens is rolled, degrees, and for which rows it counts.
type moment struct {
	X     float64  `json:"x"`
	Y     float64  `json:"y"`
	Z     float64  `json:"z"`
	Table float64  `json:"table"`
	Roll  float64  `json:"roll,omitempty"`
	Hand  *float64 `json:"hand,omitempty"`
	From  float64  `json:"from"`
	To    float64  `json:"to"`
}

// shutter is how a frame is exposed: open for so many seconds from its time on, of which so many
// samples are taken; the last row so much later than the first, in so many bands, so that the row
// in the middle keeps the frame's time.
type shutter struct {
	open, readout  float64
	samples, bands int
}

// set is what stands before the lens of a shot, and the lens. Where a camera is from the position of
// each axis of the plan, look says.
type set struct {
	job  *job.Job
	plan against.Plan
	view float64 // degrees from foot to head
	px   float64 // true px a mm on the pane that looks at the lens, at the beginning
	look func(at []float64) moment
}

// shift is what moves the lens besides, mm.
type shift struct{ x, y float64 }

// filming is how a take of a set is made, beside its plan. Frames may be fractions.
type filming struct {
	frames int
	zero   float64 // the frame of the recording that shows frame 0 of the plan
	shut   shutter
	time   func(planned float64) float64 // the planned frame that is really shown
	shift  func(planned float64) shift
	hand   func(frame float64) *float64
	rolled func(frame float64) float64 // degrees by which the lens is turned about where it looks
	turned func(frame float64) float64 // degrees by which something else has turned the lantern
}

// frame is how frame n is exposed.
func (s set) frame(f filming, n int) (out []moment) {
	rate := s.plan.CaptureRate.Float()
	for b := range f.shut.bands {
		for k := range f.shut.samples {
			late := f.shut.open*(float64(k)+0.5)/float64(f.shut.samples) + f.shut.readout*((float64(b)+0.5)/float64(f.shut.bands)-0.5)
			m := s.at(f, float64(n)+late*rate)
			m.From, m.To = float64(b)/float64(f.shut.bands), float64(b+1)/float64(f.shut.bands)
			out = append(out, m)
		}
	}
	return out
}

// at is what is before the lens at a frame of the recording.
func (s set) at(f filming, frame float64) moment {
	planned := frame - f.zero
	shown := planned
	if f.time != nil {
		shown = f.time(planned)
	}
	var at []float64
	for _, a := range s.plan.Axes {
		// The plan has what is seen in the middle of the shutter's time at the frame's.
		at = append(at, a.At(shown/s.plan.CaptureRate.Float()-open/2))
	}
	m := s.look(at)
	if f.shift != nil {
		by := f.shift(planned)
		m.X, m.Y = m.X+by.x, m.Y+by.y
	}
	if f.turned != nil {
		m.Table += f.turned(frame)
	}
	if f.rolled != nil {
		m.Roll = f.rolled(frame)
	}
	if f.hand != nil {
		m.Hand = f.hand(frame)
	}
	return m
}

// open is how long the shutter of each of these shots is open, s: so it says in their files.
const open = 1.0 / 250

// still is a take without blur: all of a frame in the middle of its exposure.
func still(frames int, zero float64) filming {
	return filming{frames: frames, zero: zero, shut: shutter{open: open, samples: 1, bands: 1}}
}

// view is the angle from foot to head of a thin lens: focal length, distance that is sharp and
// height of the sensor in mm (1/f = 1/a + 1/b: E. Hecht, Optics, 5th ed., 2017, section 5.2; from
// memory, as the book is sold).
func view(focal, sharp, sensor float64) float64 {
	return 2 * math.Atan(sensor/2/image(focal, sharp)) * 180 / math.Pi
}

// image is how far behind that lens its image is, mm.
func image(focal, sharp float64) float64 { return focal * sharp / (sharp - focal) }

// The lantern: its radius to a corner, and how far its panes are from its axis, mm.
const radius = 45.0

var pane = radius * math.Cos(math.Pi/6)

// overs are values in place of a shot's.
func overs(pairs ...string) (out []job.Value) {
	for i := 0; i < len(pairs); i += 2 {
		v := job.Value{Key: pairs[i], Text: pairs[i+1]}
		switch v.Key {
		case "dwell-far", "dwell-near", "from", "to", "law":
			v.Of = job.Rail
		}
		out = append(out, v)
	}
	return out
}

// along is the set of the macro shot: its rail goes along the lantern, from left to right.
// One round takes 8 s on screen where nothing else is said, 192 frames.
func along(t *testing.T, pairs ...string) set {
	t.Helper()
	pairs = append([]string{"clock.loop", "8 s", "take.rounds", "1"}, pairs...)
	j, err := job.Source{Shot: "../../../testdata/shots/macro.toml", Over: overs(pairs...)}.Job(nil)
	require.NoError(t, err)
	s := set{job: j, plan: rushes.PlanOf(j, wide), view: view(100, 400, 13.5)}
	s.px = wide / 24.0 * image(100, 400) / (438 - pane)
	s.look = func(at []float64) moment { return moment{X: at[0] - 26, Y: 60, Z: 438} }
	return s
}

// in is the set of the built-in shot: its rail goes in on the lantern, and the table, where there
// is one, turns it.
func in(t *testing.T, without []string, pairs ...string) set {
	t.Helper()
	j, err := job.Source{Without: without, Over: overs(pairs...)}.Job(nil)
	require.NoError(t, err)
	s := set{job: j, plan: rushes.PlanOf(j, wide), view: view(50, 380, 20.25)}
	s.px = wide / 36.0 * image(50, 380) / (454 - pane)
	s.look = func(at []float64) moment {
		m := moment{Y: 60, Z: 454}
		for i, a := range s.plan.Axes {
			if a.Turning {
				m.Table = at[i]
			} else {
				m.Z = 454 - (at[i] - 40)
			}
		}
		return m
	}
	return s
}
