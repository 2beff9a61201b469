package sequence_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/schedule"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// across is a rail that carries the camera to the left and back as a cosine of
// 48 frames at 24 a second, captured at 120: things go to the right and back.
const across = `shot = "Across"
[clock]
capture = "120"
playback = "24"
loop = "48 frames"
[rig]
rig = "Bench rail"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[axis.rail]
from = "100 mm"
to = "140 mm"
law = "harmonic"
`

// seen gives it a camera whose picture is 100 mm wide in the plane of the
// subject: 4000 px of 5 um at 1:5.
const seen = across + `[camera]
magnification = "1:5"
pitch = "5 um"
pixels-wide = 4000
[scene.axis.rail]
heading = "left"
measured-at = "120 mm"
`

func planOf(t require.TestingT, text string) sequence.Planned {
	s, err := shot.Decode("shot.toml", []byte(text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	return sequence.Planned{Shot: s, Trajectory: trajectory.New(p)}
}

// join joins shots by the names of their files.
func join(t require.TestingT, text string, files map[string]string) (*sequence.Clip, error) {
	s, err := sequence.Decode("clip.toml", []byte(text), nil)
	require.NoError(t, err)
	var planned []sequence.Planned
	for _, e := range s.Entries {
		planned = append(planned, planOf(t, files[e.File]))
	}
	return sequence.Join(s, planned)
}

func joined(t require.TestingT, text string, files map[string]string) *sequence.Clip {
	c, err := join(t, text, files)
	require.NoError(t, err)
	return c
}

// entry is a [[shot]] with some lines.
func entry(file string, lines ...string) string {
	return "[[shot]]\nfile = \"" + file + "\"\n" + strings.Join(lines, "\n") + "\n"
}

func TestWhereShotsStand(t *testing.T) {
	c := joined(t, "timecode = \"01:00:00:00\"\n"+entry("a")+entry("a", `from = "12 frames"`, `length = "1 s"`)+entry("a", "rounds = 3")+entry("a", `length = "0.3 s"`),
		map[string]string{"a": seen})
	var got [][3]int64
	for _, p := range c.Pieces {
		got = append(got, [3]int64{p.Start, p.From, p.Frames})
	}
	assert.Equal(t, [][3]int64{{0, 0, 48}, {48, 12, 24}, {72, 0, 144}, {216, 0, 7}}, got)
	assert.EqualValues(t, 223, c.Frames)
	assert.True(t, c.OnScreen().Equal(exact.New(223, 24)))
	assert.Equal(t, "01:00:03:00", c.Label(72))
	assert.Equal(t, []bool{false, false, false, true}, []bool{c.Pieces[0].Rounded, c.Pieces[1].Rounded, c.Pieces[2].Rounded, c.Pieces[3].Rounded})
	assert.EqualValues(t, 2, c.Pieces[2].Wraps())
}

// The place x = 120 - 20 cos(2 pi f/48) mm goes at 20 * 2 pi/2 sin(2 pi f/48) mm
// per on-screen second, and a picture is 100 mm wide.
func speedAt(frame float64) float64 { return 20 * math.Pi * math.Sin(2*math.Pi*frame/48) / 100 }

func TestCutOfThePicture(t *testing.T) {
	c := joined(t, entry("a", `length = "13 frames"`)+entry("a", `from = "36 frames"`, `length = "6 frames"`), map[string]string{"a": seen})
	cut := c.Cuts[0]
	require.True(t, cut.Seen)
	assert.Equal(t, []int64{12, 12, 36, 36, 13}, []int64{cut.Out.Frame, cut.Out.Captured, cut.In.Frame, cut.In.Captured, cut.Frame})
	assert.InEpsilon(t, speedAt(12), cut.Out.Flow.Right, 1e-6)
	assert.InEpsilon(t, speedAt(36), cut.In.Flow.Right, 1e-6)
	assert.Equal(t, sequence.Reverses, cut.Momentum)
	assert.InDelta(t, 180, cut.Angle, 1e-6)
	assert.InDelta(t, 1, cut.Pace, 1e-9)
	assert.InDelta(t, 0, cut.Jump, 1e-9, "12 and 36 are the same place")
	assert.True(t, cut.Placed)
	assert.InDelta(t, 1, cut.Grows, 1e-9)
	assert.Equal(t, "rail", cut.Out.Axes[0].Axis)
	assert.InEpsilon(t, 100*speedAt(12), cut.Out.Axes[0].Speed, 1e-9)
}

// With a retime of 1 five captured frames go by in each that is shown, and the
// same move takes five times as long.
func TestCapturedFramesOfACut(t *testing.T) {
	fast := strings.Replace(seen, "[rig]", "retime = 1\n[rig]", 1)
	c := joined(t, entry("a", `length = "61 frames"`)+entry("a", `from = "36 frames"`), map[string]string{"a": fast})
	assert.Equal(t, []int64{12, 60, 36, 180}, []int64{c.Cuts[0].Out.Frame, c.Cuts[0].Out.Captured, c.Cuts[0].In.Frame, c.Cuts[0].In.Captured})
	assert.InEpsilon(t, speedAt(12), c.Cuts[0].Out.Flow.Right, 1e-6)
}

func TestMomentum(t *testing.T) {
	for _, x := range []struct {
		last, first int64 // shown before and after the cut
		want        sequence.Momentum
	}{
		{11, 12, sequence.Continuous},
		{47, 0, sequence.Continuous},
		{0, 24, sequence.Rests},
		{0, 12, sequence.SetsOff},
		{12, 24, sequence.Stops},
		{12, 10, sequence.Carries},
		{12, 3, sequence.Slower},
		{3, 12, sequence.Faster},
		{12, 36, sequence.Reverses},
	} {
		c := joined(t, entry("a", fmt.Sprintf(`length = "%d frames"`, x.last+1))+entry("a", fmt.Sprintf(`from = "%d frames"`, x.first)), map[string]string{"a": seen})
		assert.Equal(t, x.want, c.Cuts[0].Momentum, "%d to %d", x.last, x.first)
	}
}

// A camera turned by a quarter sends the picture off sideways.
func TestAPictureThatTurnsAside(t *testing.T) {
	up := strings.Replace(seen, `heading = "left"`, "heading = \"left\"\nrise = \"90 deg\"", 1)
	c := joined(t, entry("a", `length = "13 frames"`)+entry("b", `from = "12 frames"`), map[string]string{"a": seen, "b": up})
	assert.Equal(t, sequence.Turns, c.Cuts[0].Momentum)
	assert.InDelta(t, 90, c.Cuts[0].Angle, 1e-6)
}

// The angle between two speeds, in three parts, against the law of cosines.
func TestAngle(t *testing.T) {
	tilted := strings.Replace(seen, `heading = "left"`, "heading = \"left\"\nrise = \"30 deg\"", 1)
	c := joined(t, entry("a", `length = "13 frames"`)+entry("b", `from = "12 frames"`), map[string]string{"a": seen, "b": tilted})
	a, b := c.Cuts[0].Out.Flow, c.Cuts[0].In.Flow
	cosine := (a.Right*b.Right + a.Up*b.Up + a.Toward*b.Toward) / a.Speed() / b.Speed()
	assert.InDelta(t, math.Acos(cosine)*180/math.Pi, c.Cuts[0].Angle, 1e-6)
	assert.InDelta(t, 30, c.Cuts[0].Angle, 1e-6)
	assert.Equal(t, sequence.Carries, c.Cuts[0].Momentum)
}

func TestTheClipsOwnLoop(t *testing.T) {
	c := joined(t, entry("a"), map[string]string{"a": seen})
	require.Len(t, c.Cuts, 1)
	assert.Equal(t, sequence.Continuous, c.Cuts[0].Momentum)
	assert.EqualValues(t, 0, c.Cuts[0].Frame)
	// The last frame of the clip is the one before its first, in two shots of one
	// file; between them there is a real cut.
	c = joined(t, entry("a", `from = "12 frames"`, `length = "4 frames"`)+entry("a", `from = "6 frames"`, `length = "6 frames"`), map[string]string{"a": seen})
	assert.Equal(t, []sequence.Momentum{sequence.Carries, sequence.Continuous}, []sequence.Momentum{c.Cuts[0].Momentum, c.Cuts[1].Momentum})
	// A shot in another set-up is another picture, and so does not go on.
	c = joined(t, entry("a", `length = "12 frames"`)+entry("a", `from = "12 frames"`, `light = "dusk"`), map[string]string{"a": seen})
	assert.NotEqual(t, sequence.Continuous, c.Cuts[0].Momentum)
}

// A loop that is cut back to its beginning has a cut there wherever it is used.
func TestALoopThatIsCutBack(t *testing.T) {
	through := strings.Replace(seen, "from = \"100 mm\"\nto = \"140 mm\"\nlaw = \"harmonic\"", "move = \"through\"\nfrom = \"100 mm\"\nto = \"140 mm\"", 1)
	require.NotEqual(t, seen, through)
	c := joined(t, entry("a"), map[string]string{"a": through})
	assert.NotEqual(t, sequence.Continuous, c.Cuts[0].Momentum)
	assert.Greater(t, c.Cuts[0].Jump, 0.1)
	c = joined(t, entry("a", `length = "20 frames"`)+entry("a", `from = "20 frames"`), map[string]string{"a": through})
	assert.Equal(t, sequence.Continuous, c.Cuts[0].Momentum)
}

func TestCutOfAxesAlone(t *testing.T) {
	c := joined(t, entry("a", `length = "13 frames"`)+entry("b", `from = "36 frames"`), map[string]string{"a": across, "b": seen})
	cut := c.Cuts[0]
	assert.False(t, cut.Seen)
	assert.Equal(t, []string{"camera and scene"}, cut.Lacks)
	require.Len(t, cut.Axes, 1)
	assert.InEpsilon(t, 100*speedAt(12), cut.Axes[0].Out, 1e-9)
	assert.InEpsilon(t, 100*speedAt(36), cut.Axes[0].In, 1e-9)
	assert.Equal(t, sequence.Reverses, cut.Momentum)
	// Where the rig stands otherwise, the same axis may carry another way.
	c = joined(t, entry("a", `length = "13 frames"`)+entry("a", `from = "36 frames"`, `rig = "low"`), map[string]string{"a": across})
	assert.Equal(t, sequence.Unknown, c.Cuts[0].Momentum)
	assert.True(t, c.Cuts[0].Otherwise)
	assert.Len(t, c.Cuts[0].Axes, 1)
	// Axes of other names cannot be compared.
	other := strings.ReplaceAll(across, "axis.rail", "axis.arm")
	c = joined(t, entry("a")+entry("b"), map[string]string{"a": across, "b": other})
	assert.Equal(t, sequence.Unknown, c.Cuts[0].Momentum)
}

func TestJoinRefuses(t *testing.T) {
	slow := strings.Replace(across, `playback = "24"`, `playback = "25"`, 1)
	for _, x := range []struct{ text, want string }{
		{entry("a") + entry("b"), `clip.toml:5:8: shot[2].file "b" plays at 25 frames/s, and the first shot at 24; give all`},
		{"playback = 25\n" + entry("a"), `shot[1].file "a" plays at 24 frames/s, and the sequence at 25`},
		{entry("a", `from = "48 frames"`), `shot[1].from "48 frames" must be within the shot's loop of 48 frames; "0 frames" is the same place`},
		{entry("a", `from = "50 frames"`), `shot[1].from "50 frames" must be within the shot's loop of 48 frames; "2 frames" is the same place`},
		{entry("a", `length = "1000000 s"`), `clip.toml:3:10: shot[1].length "1000000 s" must be at most`},
		{entry("a", `rounds = 1000000`), `shot[1].length "a" must be at most`},
		{"timecode = \"1 o'clock\"\n" + entry("a"), `clip.toml:1:12: timecode`},
		{"drop-frame = true\n" + entry("a"), `clip.toml:1:14: drop-frame`},
	} {
		_, err := join(t, x.text, map[string]string{"a": across, "b": slow})
		assert.ErrorContains(t, err, x.want)
	}
	assert.Panics(t, func() { _, _ = sequence.Join(sequence.Sequence{}, nil) })
}

// Lamps that fade alike are one light, in whatever file they stand.
func TestLampsThatFadeAlikeAreOneLight(t *testing.T) {
	lamp := func(fade string) string { return seen + "[[scene.lamps]]\nfade = " + fade + "\n" }
	up := lamp(`{ from = "0 %", to = "85 %" }`)
	c := joined(t, entry("a")+entry("b")+entry("c"), map[string]string{"a": up, "b": up, "c": lamp(`{ from = "0 %", to = "80 %" }`)})
	light := func(i int) string { return c.Films[i].Setup.Light }
	assert.Equal(t, light(0), light(1))
	assert.NotEqual(t, light(0), light(2))
}

func TestFilms(t *testing.T) {
	lit := seen + "[[scene.lamps]]\nname = \"key\"\nlumens = \"4500 lm\"\ndistance = \"600 mm\"\n"
	c := joined(t, "[card]\nbitrate = \"80 Mbit/s\"\nlead = \"1 s\"\n[day]\nrig-change = \"30 min\"\nlight-change = \"10 min\"\nbetween-takes = \"40 s\"\n"+
		entry("a", "takes = 5")+entry("b")+entry("a", "takes = 2")+entry("c", `rig = "low"`)+entry("d", `light = "dusk"`),
		map[string]string{"a": seen, "b": lit, "c": lit, "d": across})
	require.Len(t, c.Films, 4)
	assert.Equal(t, schedule.Setup{Rig: "Bench rail", Light: sequence.Unlit}, c.Films[0].Setup)
	assert.Equal(t, schedule.Setup{Rig: "Bench rail", Light: "lamps of b"}, c.Films[1].Setup)
	assert.Equal(t, schedule.Setup{Rig: "low", Light: "lamps of b"}, c.Films[2].Setup)
	assert.Equal(t, schedule.Setup{Rig: "Bench rail", Light: "dusk"}, c.Films[3].Setup)
	assert.Equal(t, 5, c.Films[0].Takes)
	assert.Equal(t, []int{0, 2}, c.Films[0].Pieces)

	// Three rounds of 48 captured frames at 120 a second, at rest at the seam, and
	// a second of lead on either side: 3.2 s at 10 MB a second.
	assert.Equal(t, "6/5", c.Films[0].Seconds.String())
	assert.EqualValues(t, 384, c.Films[0].Recorded)
	assert.Equal(t, "32000000", c.Films[0].Bytes.String())

	total := c.Totals()
	assert.Equal(t, 14, total.Takes)
	assert.Equal(t, "84/5", total.Motion.String())
	assert.Equal(t, "224/5", total.Record.String())
	assert.Equal(t, "448000000", total.Bytes.String())
	assert.Equal(t, []int{1, 2}, []int{c.Order.RigChanges, c.Order.LightChanges})
	assert.Equal(t, "3000", total.Changes.String())
	assert.Equal(t, exact.New(224, 5).Add(exact.Int(3000+13*40+2)).String(), total.Day.String(), "and 2 s of the last count-in")
	assert.Equal(t, []int{0, 3, 1, 2}, c.Order.Order)
}

// A table that is turning when the loop begins takes a run-up and a run-out, and
// the camera records them too.
func TestRampsAreRecorded(t *testing.T) {
	turning := strings.Replace(across, "[axis.rail]", "[rig.axis.table]\nkind = \"rotary\"\ntravel = \"endless\"\nspeed = \"90 deg/s\"\n"+
		"acceleration = \"300 deg/s2\"\nsteps = \"3200 per turn\"\n[axis.table]\nturns = \"1/12\"\n[axis.rail]", 1)
	c := joined(t, "[card]\nlead = \"0 s\"\n"+entry("a"), map[string]string{"a": turning})
	up, out := c.Pieces[0].Trajectory.RampFrames()
	require.Positive(t, up)
	require.Positive(t, out)
	assert.Equal(t, up+3*48+out, c.Films[0].Recorded)
	s := c.Films[0].Spent
	assert.Equal(t, exact.New(up, 120).String(), s.RunUp.String())
	assert.Equal(t, "6/5", s.Rounds.String())
	assert.Equal(t, exact.New(out, 120).String(), s.RunOut.String())
	assert.Zero(t, s.Return.Sign(), "an endless table goes on from where it stands")
	assert.True(t, s.Moving().Equal(c.Films[0].Seconds))
}

// An axis that comes through its seam moving ends its take beyond where it began, and goes
// back at a tenth of its speed.
func TestTheWayBackToTheStart(t *testing.T) {
	pass := strings.Replace(across, "from = \"100 mm\"\nto = \"140 mm\"\nlaw = \"harmonic\"", "move = \"through\"\nfrom = \"100 mm\"\nto = \"140 mm\"", 1)
	c := joined(t, "[day]\nslate = \"10 s\"\ncount-in = \"4 s\"\n"+entry("a"), map[string]string{"a": pass})
	tr := c.Pieces[0].Trajectory
	begin, end := tr.RampTimes()
	from := tr.TakeState(0, 3, -begin.Float()).Pos
	to := tr.TakeState(0, 3, 3*tr.Period().Float()+end.Float()).Pos
	// 40 mm/s at 3000 mm/s2: a 75th of a second at either end.
	want := math.Abs(to-from)/40 + 40.0/3000
	s := c.Films[0].Spent
	require.Greater(t, math.Abs(to-from), 1.0)
	assert.InDelta(t, want, s.Return.Float(), 0.1)
	assert.GreaterOrEqual(t, s.Return.Float(), want-1e-9)
	assert.Equal(t, "10", s.Slate.String())
	assert.True(t, s.Beside().Equal(exact.Int(12).Add(s.Return)), "the camera is 2 s ahead of the motion")
	assert.True(t, c.Totals().Between.Equal(exact.Int(3).Mul(s.Beside())))
}

func TestEitherEndMayBeRounded(t *testing.T) {
	c := joined(t, entry("a", `from = "0.3 s"`, `length = "24 frames"`)+entry("a", `from = "12 frames"`, `length = "0.3 s"`), map[string]string{"a": seen})
	assert.True(t, c.Pieces[0].Rounded)
	assert.EqualValues(t, 7, c.Pieces[0].From, "7.2 frames")
	assert.True(t, c.Pieces[1].Rounded)
}

func TestSpaceByFrames(t *testing.T) {
	c := joined(t, "[card]\nframe-size = \"2 MB\"\nlead = \"0 s\"\n"+entry("a", "takes = 1"), map[string]string{"a": seen})
	assert.Equal(t, "288000000", c.Totals().Bytes.String())
	assert.True(t, c.Counted)
	c = joined(t, entry("a", "takes = 1"), map[string]string{"a": seen})
	assert.Zero(t, c.Totals().Bytes.Sign())
}

// However a clip is cut up, its frames follow on without a gap, and a shot cut
// in two goes on.
func TestPiecesFollowOn(t *testing.T) {
	files := map[string]string{"a": seen}
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		for range rapid.IntRange(1, 4).Draw(t, "n") {
			b.WriteString(entry("a", fmt.Sprintf(`from = "%d frames"`, rapid.IntRange(0, 47).Draw(t, "from")),
				fmt.Sprintf(`length = "%d frames"`, rapid.IntRange(1, 120).Draw(t, "length"))))
		}
		c := joined(t, b.String(), files)
		var at int64
		for i, p := range c.Pieces {
			assert.Equal(t, at, p.Start)
			at += p.Frames
			next := c.Pieces[(i+1)%len(c.Pieces)]
			assert.Equal(t, (p.From+p.Frames)%48 == next.From, c.Cuts[i].Momentum == sequence.Continuous)
		}
		assert.Equal(t, at, c.Frames)
	})
}

func TestSamples(t *testing.T) {
	c := joined(t, entry("a", `from = "12 frames"`, `length = "48 frames"`), map[string]string{"a": seen})
	s, err := c.Pieces[0].Samples()
	require.NoError(t, err)
	require.Len(t, s, 48)
	for _, x := range s {
		assert.InDelta(t, speedAt(12+float64(x.Frame)), x.Flow.Right, 1e-8)
	}
	c = joined(t, entry("a", "rounds = 30"), map[string]string{"a": across})
	s, err = c.Pieces[0].Samples()
	require.NoError(t, err)
	assert.LessOrEqual(t, len(s), 241)
	assert.EqualValues(t, 0, s[0].Frame)
	assert.EqualValues(t, 1439, s[len(s)-1].Frame)
	assert.Nil(t, s[0].Flow)
}

func BenchmarkJoin(b *testing.B) {
	s, err := sequence.Decode("clip.toml", []byte(strings.Repeat(entry("a")+entry("a", `from = "6 frames"`), 10)), nil)
	require.NoError(b, err)
	p := planOf(b, seen)
	planned := make([]sequence.Planned, len(s.Entries))
	for i := range planned {
		planned[i] = p
	}
	for b.Loop() {
		if _, err := sequence.Join(s, planned); err != nil {
			b.Fatal(err)
		}
	}
}

// A prism of six that turns a twelfth in a loop begins the second round with a
// corner in front, which goes faster than the middle of a face by 1/cos 30.
func TestALaterRoundIsSeenAsItIs(t *testing.T) {
	turning := strings.Replace(seen, "[axis.rail]\nfrom = \"100 mm\"\nto = \"140 mm\"\nlaw = \"harmonic\"", "[rig.axis.table]\nkind = \"rotary\"\n"+
		"travel = \"endless\"\nspeed = \"90 deg/s\"\nacceleration = \"300 deg/s2\"\nsteps = \"3200 per turn\"\n"+
		"[axis.table]\nturns = \"1/12\"\nlaw = \"uniform\"\n[axis.rail]\nmove = \"hold\"\nat = \"120 mm\"", 1) +
		"[scene.axis.table]\nrole = \"table\"\n[scene.product]\nshape = \"prism\"\nsides = 6\nradius = \"40 mm\"\n"
	c := joined(t, entry("a", `length = "49 frames"`), map[string]string{"a": turning})
	face, corner := c.Cuts[0].In.Flow.Right, c.Cuts[0].Out.Flow.Right
	// 15 degrees an on-screen second, 34.6 mm and 40 mm out, 100 mm wide.
	assert.InEpsilon(t, 15*math.Pi/180*40*math.Cos(math.Pi/6)/100, face, 1e-4)
	assert.InEpsilon(t, 15*math.Pi/180*40/100, corner, 1e-4)
}
