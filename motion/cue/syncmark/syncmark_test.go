package syncmark_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// lantern is a shot of two axes, the table turning through the seam, with all that a
// picture of it takes.
const lantern = `shot = "Fernhollow lantern"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[take]
rounds = 3
[rig]
[rig.controller]
kind = "buffered"
[rig.output.lamp]
on = "M8"
late = "4 ms"
[rig.output.release]
on = "M3"
serves = "shutter"
shortest-pulse = "0.3 s"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
backlash = "0.05 mm"
[rig.axis.table]
kind = "rotary"
travel = "endless"
speed = "90 deg/s"
acceleration = "180 deg/s2"
steps = "160 per deg"
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
[axis.table]
move = "turn"
turns = "1/6"
symmetry = 6
[camera]
sensor-width = "36 mm"
pixels-wide = 1920
pixels-high = 1080
focal-length = "50 mm"
focus = "380 mm"
shutter = "180 deg"
shutter-lag = "60 ms"
[scene.axis.rail]
role = "slide"
heading = "0 deg"
[scene.axis.table]
role = "table"
[scene.product]
shape = "prism"
sides = 6
radius = "45 mm"
height = "120 mm"
`

// of returns the mark of the lantern with a table, and what is wrong with it.
func of(t testing.TB, table string, change ...string) (*syncmark.Mark, error) {
	t.Helper()
	s, err := shot.Decode("f", []byte(strings.NewReplacer(change...).Replace(lantern)+"[sync-mark]\n"+table+"\n"), nil)
	if err != nil {
		return nil, err
	}
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	return syncmark.New(p, trajectory.New(p), s)
}

func made(t testing.TB, table string, change ...string) *syncmark.Mark {
	t.Helper()
	m, err := of(t, table, change...)
	require.NoError(t, err)
	return m
}

// TestWhereAMarkIs: exactly, in frames from frame 0, before the run-up and after the
// run-out. By hand: the run-up of the table is U frames; 2 s are 240 frames at 120 a
// second, 4 ms 0.48; three rounds are 432.
func TestWhereAMarkIs(t *testing.T) {
	m := made(t, `with = "lamp"`)
	s, err := shot.Decode("f", []byte(lantern), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	require.Positive(t, p.RunUp)
	up, out := exact.Int(p.RunUp), exact.Int(p.RunOut)
	late := exact.New(48, 100)
	assert.True(t, m.Frame().Equal(up.Add(exact.Int(240)).Neg().Add(late)), m.Frame().String())
	second, ok := m.SecondFrame(3)
	require.True(t, ok)
	assert.True(t, second.Equal(exact.Int(432+120).Add(out).Add(late)), second.String())
	// A shutter that is open for half of each frame has the lamp seen, on average, just
	// as it comes on.
	assert.InDelta(t, float64(p.RunUp)+240-0.48, m.From(), 1e-9)
	assert.Equal(t, int64(math.Round(m.From())), m.Count())
	assert.InDelta(t, 0.5, m.Doubt().Phase, 0)

	none := made(t, "with = \"lamp\"\nafter = \"none\"")
	_, ok = none.SecondFrame(3)
	assert.False(t, ok)
	assert.Len(t, made(t, "with = \"lamp\"").Minds(), 1, "how late it is has been measured")
	whole := made(t, "with = \"lamp\"\nlength = \"24 frames\"\nbefore = \"180 frames\"\nafter = \"60 frames\"")
	assert.True(t, whole.Length.Equal(exact.New(1, 5)))
	assert.True(t, whole.Before().Equal(exact.New(3, 2)))
	assert.True(t, whole.After.Equal(exact.New(1, 2)))
}

// TestDwellsInGrains: a board that dwells in whole grains has the mark as much earlier.
func TestDwellsInGrains(t *testing.T) {
	m := made(t, "with = \"lamp\"\nlength = \"0.21 s\"\nbefore = \"1.53 s\"")
	assert.True(t, m.Length.Equal(exact.New(1, 4)), "of 50 ms each")
	assert.True(t, m.Rest.Equal(exact.New(13, 10)))
	assert.InDelta(t, 1.55, m.Program().Before, 1e-12)
	fine := made(t, "with = \"lamp\"\nlength = \"0.21 s\"\nbefore = \"1.53 s\"", `kind = "buffered"`, "kind = \"buffered\"\ndwell-grain = \"none\"")
	assert.True(t, fine.Before().Equal(exact.New(153, 100)))
}

// TestWhatAReleaseMeans: the camera is late as well, and its first frame is when it is
// ready for one.
func TestWhatAReleaseMeans(t *testing.T) {
	m := made(t, `with = "release"`)
	assert.True(t, m.Late.Equal(exact.New(60, 1000)))
	assert.True(t, m.Length.Equal(exact.New(3, 10)), "as long as the pulse must be")
	assert.InDelta(t, m.Frame().Neg().Float()-0.5, m.From(), 1e-9)
	assert.Contains(t, m.Follows(), "the first frame of the recording")
	assert.Contains(t, strings.Join(m.Minds(), "\n"), "has not been measured")
	slow := made(t, `with = "release"`, `shutter-lag = "60 ms"`, `shutter-lag = "0.2 s"`)
	assert.InDelta(t, m.From()-0.14*120, slow.From(), 1e-9)
}

// TestATwitch: it goes the way the take goes first, far enough to be seen, comes back to
// the step, and takes the time of a trapezoid.
func TestATwitch(t *testing.T) {
	m := made(t, `with = "twitch"`)
	assert.Equal(t, "rail", m.AxisName())
	assert.Greater(t, m.Distance, 0.05, "beyond the play")
	assert.InDelta(t, math.Round(m.Distance*80), m.Distance*80, 1e-9, "whole steps")
	assert.GreaterOrEqual(t, m.Shows.Twitch, 5.0-0.5, "px")
	// At 40 mm/s and 3000 mm/s2: d/v + v/a.
	assert.InDelta(t, m.Distance/40+40.0/3000, m.Goes.Float(), 1e-6)
	assert.Contains(t, strings.Join(m.Minds(), "\n"), "is taken up first")
	low := made(t, "with = \"twitch\"", `travel = ["0 mm", "400 mm"]`, `travel = ["0 mm", "100 mm"]`, `from = "40 mm"`, `from = "100 mm"`, `to = "100 mm"`, `to = "40 mm"`)
	assert.Negative(t, low.Distance, "there is no room on the other way")
	back := made(t, "with = \"twitch\"\naxis = \"table\"\ndistance = \"-1 deg\"")
	assert.InDelta(t, -1, back.Distance, 1e-12)
}

// TestFaultsOfMarks: both sides of each bound.
func TestFaultsOfMarks(t *testing.T) {
	for _, c := range []struct{ table, says string }{
		{`with = "bell"`, `sync-mark.with "bell" is not an output of the rig; it has lamp, release; "twitch" needs none`},
		{``, `sync-mark.with is missing`},
		{"with = \"release\"\nlength = \"0.29 s\"", `sync-mark.length "0.29 s" is shorter than the output needs, 0.3 s`},
		{"with = \"release\"\nlength = \"0.3 s\"", ""},
		{"with = \"lamp\"\nlength = \"5 frames\"", `is shorter than the output needs, 0.05 s`},
		{"with = \"lamp\"\nlength = \"6 frames\"", ""},
		{"with = \"lamp\"\nlength = \"10.1 s\"\nbefore = \"20 s\"", "must be from 0.02 s to 10 s"},
		{"with = \"lamp\"\nbefore = \"0.69 s\"", ""}, // rest is a whole grain of 50 ms more
		{"with = \"lamp\"\nbefore = \"0.65 s\"", `sync-mark.before "0.65 s" leaves too little rest before the run-up; at least 0.7 s would do`},
		{"with = \"lamp\"\nafter = \"0.1 s\"", "must be from 0.2 s to 60 s"},
		{"with = \"lamp\"\naxis = \"rail\"", `sync-mark.axis "rail" is of use to a twitch alone`},
		{"with = \"twitch\"\naxis = \"pan\"", `sync-mark.axis "pan" is not an axis of the shot; it has rail, table`},
		{"with = \"twitch\"\ndistance = \"1 deg\"", "is an angle, and rail goes in mm"},
		{"with = \"twitch\"\ndistance = \"0 mm\"", "must be other than 0"},
		{"with = \"twitch\"\ndistance = \"20.1 mm\"", "at most 20 mm"},
		{"with = \"twitch\"\ndistance = \"0.05 mm\"", "is no more than the play of rail"},
		{"with = \"twitch\"\ndistance = \"0.1 mm\"", "moves the near face by 0.1"},
		{"with = \"click\"", ""}, {"with = \"hand\"", ""},
		{"wiht = \"lamp\"", `did you mean "with"?`},
	} {
		_, err := of(t, c.table)
		if c.says == "" {
			assert.NoError(t, err, c.table)
			continue
		}
		require.Error(t, err, c.table)
		assert.Contains(t, err.Error(), c.says)
	}
	_, err := of(t, "with = \"twitch\"\ndistance = \"-20 mm\"", `from = "40 mm"`, `from = "19.9 mm"`)
	require.ErrorContains(t, err, "takes rail to -0.100 mm, beyond its travel of 0 to 400; the other way would do")
	_, err = of(t, "with = \"twitch\"\ndistance = \"-20 mm\"", `from = "40 mm"`, `from = "20 mm"`)
	require.NoError(t, err)
}

// TestByEye: an eased start moves the picture by a pixel some frames late, and a shot
// without a scene says nothing of it.
func TestByEye(t *testing.T) {
	s, err := shot.Decode("f", []byte(lantern), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	n := syncmark.ByEye(trajectory.New(p), s)
	assert.Greater(t, n, int64(3))
	assert.Contains(t, syncmark.Unmarked(n, true), "captured frames")
	s.Scene = nil
	assert.Zero(t, syncmark.ByEye(trajectory.New(p), s))
	assert.NotContains(t, syncmark.Unmarked(0, false), "captured frame")
}

// TestACameraFindsFrame0: a camera of any phase and a clock of its own films a take of a
// rig whose clock is its own too, and a lamp that is as late as it may be. What is found
// by the frames in which the lamp is first seen is where frame 0 was, within what is said.
func TestACameraFindsFrame0(t *testing.T) {
	m := made(t, `with = "lamp"`)
	period := 1.2 // s: 144 frames at 120
	rapid.Check(t, func(rt *rapid.T) {
		phase := rapid.Float64Range(0, 1).Draw(rt, "phase")
		ppm := rapid.Float64Range(-49.9, 49.9).Draw(rt, "camera, ppm")
		slow := rapid.Float64Range(-0.005, 0.005).Draw(rt, "rig")
		late := 0.004 + rapid.Float64Range(-0.01, 0.01).Draw(rt, "lamp")
		rounds := rapid.Int64Range(1, 40).Draw(rt, "rounds")
		f := 120 * (1 + ppm*1e-6)
		// On the computer's clock: frame 0 of the take at 10 s, the marks as the log has
		// them; frame n of the recording begins at (n + phase)/f and is open for half of it.
		first, second := -2.66, float64(rounds)*period*(1+slow)+1.7
		sees := func(at float64) int64 {
			n := math.Floor((10+at+late)*f - phase)
			if (10+at+late)*f-phase-n >= 0.5 { // the shutter has closed
				n++
			}
			return int64(n)
		}
		measured := rapid.Float64Range(-0.001, 0.001).Draw(rt, "how long it was timed to take")
		k := syncmark.Made{First: first, Out: 0.001, Second: second, SecondOut: 0.001, Stretch: 1 + slow + measured, StretchOut: 0.001, Saw: true, Frame: sees(first), Last: sees(second)}
		found := m.In(k, rounds)
		truth := 10*f - phase // frames of the recording, whole or not, at frame 0
		if off := math.Abs(found.Frame - truth); off > found.Out {
			rt.Fatalf("frame 0 is at %.3f, and is said to be at %.3f, give or take %.3f", truth, found.Frame, found.Out)
		}
		kept := truth + float64(shot.KeptRound(rounds))*period*(1+slow)*f
		if off := math.Abs(float64(found.Kept) - kept); off > found.By+0.5 { // to a whole frame
			rt.Fatalf("the kept round is at %.3f, and is said to be at %d, give or take %.3f", kept, found.Kept, found.By)
		}
		if off := math.Abs(found.Rate - f); off > found.RateOut {
			rt.Fatalf("the camera takes %.4f, and is said to take %.4f, give or take %.4f", f, found.Rate, found.RateOut)
		}
		lasts := period * (1 + slow) * f
		if off := math.Abs(found.Lasts - lasts); off > lasts*(found.RateOut/found.Rate+0.001)*1.01 {
			rt.Fatalf("a round lasts %.4f frames, and is said to last %.4f", lasts, found.Lasts)
		}
	})
}

// A hand that makes the mark is out by as much as a hand is, at each mark anew, a twitch is
// seen sooner than it might be, and a rig whose length nobody has measured goes by its own
// clock. What is said of frame 0 and of the kept round holds for those as well.
func TestOtherMarksFindFrame0(t *testing.T) {
	for _, x := range []struct {
		with        string
		least, most float64 // s that what is seen may be later than the rig's own time of it
	}{{"hand", -0.0999, 0.0999}, {"twitch", 0, 0}, {"lamp", 0.004, 0.004}} {
		m := made(t, "with = \""+x.with+"\"")
		if x.with == "twitch" {
			x.most = m.Late.Float()
		}
		many.Check(t, 200, func(rt *rapid.T) {
			const period = 1.2 // s: 144 frames at 120
			phase := rapid.Float64Range(0, 1).Draw(rt, "phase")
			slow := rapid.Float64Range(-0.005, 0.005).Draw(rt, "rig")
			f := 120 * (1 + rapid.Float64Range(-49.9, 49.9).Draw(rt, "camera, ppm")*1e-6)
			rounds := rapid.Int64Range(1, 40).Draw(rt, "rounds")
			late := rapid.Float64Range(x.least, x.most).Draw(rt, "late")
			sees := func(at float64) int64 { // frames are open for all of their time
				if x.with == "hand" {
					late = rapid.Float64Range(x.least, x.most).Draw(rt, "late")
				}
				return int64(math.Floor((10+at+late)*f - phase))
			}
			first, second := -2.66, float64(rounds)*period*(1+slow)+1.7
			k := syncmark.Made{First: first, Out: 0.001, Second: second, SecondOut: 0.001, Saw: true, Frame: sees(first), Last: sees(second)}
			if rapid.Bool().Draw(rt, "first alone") {
				k.Second, k.SecondOut, k.Last = 0, 0, 0
			}
			found, truth := m.In(k, rounds), 10*f-phase
			if off := math.Abs(found.Frame - truth); off > found.Out+0.5 { // of the shutter
				rt.Fatalf("%s: frame 0 is at %.3f, and is said to be at %.3f, give or take %.3f", x.with, truth, found.Frame, found.Out)
			}
			kept := truth + float64(shot.KeptRound(rounds))*period*(1+slow)*f
			if off := math.Abs(float64(found.Kept) - kept); off > found.By+1 {
				rt.Fatalf("%s: the kept round is at %.3f, and is said to be at %d, give or take %.3f", x.with, kept, found.Kept, found.By)
			}
			if off := math.Abs(found.Rate - f); off > found.RateOut {
				rt.Fatalf("%s: the camera takes %.4f, and is said to take %.4f, give or take %.4f", x.with, f, found.Rate, found.RateOut)
			}
		})
	}
}

// What is foretold of a take that nobody has run is what its marks are said to leave open.
func TestForetoldAsPlanned(t *testing.T) {
	for _, with := range []string{"lamp", "release", "twitch", "click", "hand"} {
		m := made(t, "with = \""+with+"\"")
		found := m.In(m.AsPlanned(), 3)
		_, out := m.Kept(3)
		assert.InDelta(t, m.Doubt().Frames(), found.Out, 0.02*found.Out, with)
		assert.InDelta(t, out, found.By, 0.02*out, with)
	}
}

// TestTheFrameOfATone: of a tone that begins anywhere in a frame, frame 0 follows on average
// by half a frame more than from the beginning of that frame.
func TestTheFrameOfATone(t *testing.T) {
	m, sum := made(t, `with = "click"`), 0.0
	const looks = 1000
	for k := range looks {
		phase := (float64(k) + 0.5) / looks            // where in a frame frame 0 begins
		first := math.Floor(m.Frame().Float() + phase) // the frame of the recording that has the tone
		off := phase - first - m.From()
		assert.LessOrEqual(t, math.Abs(off), m.Doubt().Phase+1e-9)
		sum += off
	}
	assert.InDelta(t, 0, sum/looks, 1e-6)
}

// TestClocksThatDiffer: marks far apart tell of a camera that is not at its rate, and a
// seam of whole frames opens by what a round lasts beyond them.
func TestClocksThatDiffer(t *testing.T) {
	m := made(t, `with = "lamp"`)
	k := syncmark.Made{First: -2.66, Out: 0.001, Second: 600, SecondOut: 0.001, Saw: true, Frame: 100, Last: 100 + int64(math.Round(602.66*121))}
	f := m.In(k, 3)
	require.True(t, f.Told)
	assert.InDelta(t, 121, f.Rate, f.RateOut)
	assert.InDelta(t, 145.2, f.Lasts, 0.02)
	assert.InDelta(t, 1.2*m.Shows.Seam, f.Opens, 0.05*m.Shows.Seam)
	assert.Contains(t, strings.Join(f.Words(m), "; "), "ppm of the 120.000 stated")
	same := m.In(syncmark.Made{First: -2.66, Out: 0.001, Second: 600, Saw: true, Frame: 100, Last: 100 + int64(math.Round(602.66*120))}, 3)
	assert.False(t, same.Told)
	assert.InDelta(t, 0, same.Opens, 1e-6)
	unseen := m.In(m.AsPlanned(), 3)
	assert.False(t, unseen.Seen)
	assert.Equal(t, m.Count(), int64(math.Round(unseen.Frame)))
}

// TestWordsAreSaid: each means has its own, and what is left open is told with what it
// does to the seam.
func TestWordsAreSaid(t *testing.T) {
	for with, want := range map[string][]string{
		"lamp":   {"lamp (M8, a lamp) is on for 0.2 s", "first bright frame", "opens no seam"},
		"twitch": {"rail goes ", "first frame in which the picture has moved", "how soon it is seen"},
		"click":  {"sharp tone", "the frame in which the sharp tone begins", "a finger each"},
		"hand":   {"a hand", "the frame of the hand's mark", "the hand"},
	} {
		m := made(t, `with = "`+with+`"`)
		all := strings.Join(append([]string{m.What(), m.Where(3), m.Follows()}, m.LeftOpen(3)...), "\n")
		for _, w := range want {
			assert.Contains(t, all, w)
		}
	}
	measured := made(t, `with = "lamp"`, `kind = "buffered"`, "kind = \"buffered\"\nrate-error = \"0.07 %\"")
	assert.InDelta(t, 100e-6, measured.Doubt().Rig+measured.Doubt().Camera, 1e-12)
	assert.Less(t, measured.Doubt().Clocks, made(t, `with = "lamp"`).Doubt().Clocks)
}
