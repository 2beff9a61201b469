package reach_test

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/plan"
	"seamrail/motion/plan/reach"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// anyShot is a shot of a rail, and now and then a table between stops, that may break
// limits of every kind: the travel at either end, in the loop, on the way back or in a
// run-up, speed, acceleration and jerk.
func anyShot(r *rand.Rand) string {
	pick := func(s ...string) string { return s[r.Intn(len(s))] }
	var b strings.Builder
	fmt.Fprintf(&b, "shot = \"any\"\n[clock]\ncapture = %q\nplayback = \"24\"\nloop = \"%d frames\"\n[take]\nrounds = %d\n", pick("24", "120", "48"), 24+r.Intn(200), 1+r.Intn(4))
	fmt.Fprintf(&b, `[rig]
rig = "bench"
[rig.axis.rail]
kind = "linear"
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "%d mm/s"
acceleration = "%d mm/s2"
jerk = "%d mm/s3"
belt = { pitch = "2 mm", teeth = 20 }
motor-steps = 200
microsteps = 16
[rig.axis.table]
kind = "rotary"
letter = "A"
travel = ["-90 deg", "270 deg"]
speed = "90 deg/s"
acceleration = "200 deg/s2"
gear = "36:1"
motor-steps = 200
microsteps = 16
[axis.rail]
`, 50+r.Intn(400), 200+r.Intn(3000), 3000+r.Intn(50_000))
	end := func() float64 { return -20 + 440*r.Float64() }
	switch r.Intn(3) {
	case 0:
		fmt.Fprintf(&b, "move = \"there-and-back\"\nfrom = \"%.2f mm\"\nto = \"%.2f mm\"\nlaw = %q\nphase = %q\ndwell-far = \"%d frames\"\n",
			end(), end(), pick("harmonic", "3-4-5", "cycloidal", "uniform"), pick("0", "1/4", "3/4", "1/7"), r.Intn(10))
	case 1:
		fmt.Fprintf(&b, "move = \"through\"\nfrom = \"%.2f mm\"\nto = \"%.2f mm\"\nlaw = %q\n", end(), end(), pick("uniform", "3-4-5"))
	default:
		var keys []string
		for at := r.Intn(3); at < 22; at += 4 + r.Intn(6) {
			speed := ""
			if r.Intn(4) == 0 {
				speed = fmt.Sprintf(", speed = \"%d mm/s\"", r.Intn(60)-30)
			}
			keys = append(keys, fmt.Sprintf("{ at = \"%d frames\", pos = \"%.2f mm\"%s }", at, end(), speed))
		}
		fmt.Fprintf(&b, "move = \"keys\"\nkeys = [%s]\n", strings.Join(keys, ", "))
	}
	if r.Intn(3) == 0 {
		fmt.Fprintf(&b, "[axis.table]\nmove = \"turn\"\nturns = %q\nlaw = \"uniform\"\n", pick("1/6", "1/2", "1", "-1/4"))
	}
	return b.String()
}

// TestATakeUpBeyondTheTravelIsCured holds that the planner and the verifier agree on whether an
// axis that is taken frame by frame has room to take up its play, and that where it has not,
// something does that makes room: nearer the other end, or less far.
func TestATakeUpBeyondTheTravelIsCured(t *testing.T) {
	kinds := map[string]int{}
	many.Check(t, 60, func(r *rapid.T) {
		play := float64(rapid.IntRange(1, 40).Draw(r, "play")) / 20
		from := rapid.SampledFrom([]float64{0, 0.05, 0.5, 3, 40}).Draw(r, "from")
		to := rapid.SampledFrom([]float64{260, 399, 399.9, 400}).Draw(r, "to")
		if rapid.Bool().Draw(r, "down") {
			from, to = to, from
		}
		ways := rapid.SampledFrom([]string{"", "back-law = \"3-4-5\"\n", "dwell-far = \"5 frames\"\n", "move = \"through\"\nlaw = \"3-4-5\"\n"}).Draw(r, "way")
		text := fmt.Sprintf(`[clock]
playback = "24"
loop = "36 frames"
[frame-by-frame]
exposure = "1 s"
hand = "1 s"
every = "600 s"
approach = "one-side"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
backlash = "%.2f mm"
[axis.rail]
%sfrom = "%g mm"
to = "%g mm"
`, play, ways, from, to)
		s, err := shot.Decode("any", []byte(text), nil)
		require.NoError(r, err)
		p, err := plan.Build(s, *s.Rig)
		require.NoError(r, err)
		sound := true
		for _, f := range verify.ByFrame(trajectory.New(p), stepwise.New(p, 0).Told()) {
			sound = sound && (f.OK || !strings.HasPrefix(f.Check, "travel"))
		}
		require.Equal(r, sound, len(p.Breaches()) == 0, "%s%v", text, p.Breaches())
		if sound {
			return
		}
		b := p.Breaches()[0]
		require.Equal(r, []string{plan.Position, plan.TakingUp}, []string{b.Quantity, b.Phase})
		assert.Contains(r, p.Fault(b).String(), "as it takes up its play for captured frame")
		fits := reach.Fits(s, *s.Rig)
		require.NotEmpty(r, fits, text)
		for _, f := range fits {
			kinds[f.Kind]++
			q, err := plan.Build(f.Shot, *s.Rig)
			require.NoError(r, err)
			for _, x := range verify.ByFrame(trajectory.New(q), stepwise.New(q, 0).Told()) {
				assert.True(r, x.OK, "%s\n%s: %s", text, f.Text, x.Text)
			}
		}
	})
	t.Log(kinds)
	assert.Positive(t, kinds["travel"])
}

// TestWhatIsOfferedWorks writes every fit that is offered into the shot's file, reads
// that again and plans it: what it was offered for holds.
func TestWhatIsOfferedWorks(t *testing.T) {
	shots := many.Times(100, 250)
	r := rand.New(rand.NewSource(1))
	broke, cured, offers := 0, 0, map[string]int{}
	for range shots {
		text := anyShot(r)
		s, err := shot.Decode("any.toml", []byte(text), nil)
		require.NoError(t, err, text)
		p, err := plan.Build(s, *s.Rig)
		if err != nil || len(p.Breaches()) == 0 {
			continue
		}
		broke++
		fits := reach.Fits(s, *s.Rig)
		if len(fits) > 0 {
			cured++
		}
		for _, f := range fits {
			offers[f.Kind]++
			require.NotEmpty(t, f.Edits, f.Text)
			changed := []byte(text)
			for _, e := range f.Edits {
				changed, err = source.Set("any.toml", changed, e.Path, e.Text)
				require.NoError(t, err, "%+v", e)
			}
			works(t, string(changed), f)
		}
	}
	t.Logf("of %d shots %d broke limits, %d of these have cures: %v", shots, broke, cured, offers)
	assert.Equal(t, broke, cured, "nobody is left with a limit that no value mends")
	if many.Asked() { // of few shots some kinds are offered for none
		for _, kind := range []string{"loop", "slower", "rounds", "travel", "place", "law", "both"} {
			assert.Positive(t, offers[kind], kind)
		}
	}
}

// works plans a text, and holds it to what a fit was offered for.
func works(t *testing.T, text string, f reach.Fit) {
	t.Helper()
	s, err := shot.Decode("any.toml", []byte(text), nil)
	if !assert.NoError(t, err, "%s\n%s", f.Text, text) {
		return
	}
	p, err := plan.Build(s, *s.Rig)
	if !assert.NoError(t, err, "%s\n%s", f.Text, text) {
		return
	}
	for _, b := range p.Breaches() {
		assert.False(t, f.Axis == "" || b.Axis == f.Axis, "%s: %+v\n%s", f.Text, b, text)
	}
	for _, x := range verify.Check(trajectory.New(p)).Failed() {
		assert.False(t, f.Axis == "" || x.Axis == f.Axis, "%s: %+v\n%s", f.Text, x, text)
	}
}

// TestJustOutsideIsMovedIn: a pass whose way back leaves the travel by less than a
// tenth is offered a tenth further in, and one that does not is offered nothing.
func TestJustOutsideIsMovedIn(t *testing.T) {
	const pass = `shot = "pass"
[clock]
capture = %q
playback = "24"
loop = "8 s"
[rig]
rig = "belt"
[rig.axis.rail]
kind = "linear"
letter = "X"
travel = ["0 mm", "600 mm"]
speed = "250 mm/s"
acceleration = "1500 mm/s2"
jerk = "30000 mm/s3"
belt = { pitch = "2 mm", teeth = 20 }
motor-steps = 200
microsteps = 16
[axis.rail]
move = "through"
from = %q
to = %q
law = "uniform"
`
	filmed := func(capture, from, to string) []reach.Fit {
		s, err := shot.Decode("pass.toml", fmt.Appendf(nil, pass, capture, from, to), nil)
		require.NoError(t, err)
		return reach.Fits(s, *s.Rig)
	}
	at := func(from, to string) []reach.Fit { return filmed("120", from, to) }
	fits := at("0 mm", "10 mm")
	require.NotEmpty(t, fits)
	assert.Equal(t, `from = "0.2 mm" and to = "10.2 mm", in this loop`, fits[0].Text)
	assert.Equal(t, []fault.Edit{{Path: "axis.rail.from", Text: "0.2 mm"}, {Path: "axis.rail.to", Text: "10.2 mm"}}, fits[0].Edits)
	assert.Empty(t, at("0.2 mm", "10.2 mm"))
	assert.NotEmpty(t, at("0.1 mm", "10.1 mm"), "its run-up does not fit")
	assert.Contains(t, at("600 mm", "590 mm")[0].Text, `from = "599.8 mm" and to = "589.8 mm"`)

	// It would run out by less than a step in a loop of hours.
	fits = filmed("24", "60 mm", "0 mm")
	require.NotEmpty(t, fits)
	for _, f := range fits {
		assert.LessOrEqual(t, f.Shot.Loop.Screen, int64(60*8*24), f.Text)
	}
}

// TestTheShortestLoopIsTheShortest: the one that is found keeps the limits, and a frame
// less breaks them. A loop is taken for too short where any longer one would be too,
// which keys, whose times are their own, need not keep to: those are tried slower.
func TestTheShortestLoopIsTheShortest(t *testing.T) {
	s, r := decode(t)
	loop, ok := reach.ShortestLoop(s, r)
	require.True(t, ok)
	broken := func(frames int64) int {
		var err error
		s.Loop, err = s.Clock.LoopFrames(frames)
		require.NoError(t, err)
		p, err := plan.Build(s, r)
		require.NoError(t, err)
		return len(p.Breaches())
	}
	assert.Zero(t, broken(loop.Screen))
	assert.NotZero(t, broken(loop.Screen-1))
}
