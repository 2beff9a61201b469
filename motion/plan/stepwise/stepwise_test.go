package stepwise_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/source"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// lapse is a rail of 60 mm there and back in 48 frames of 1 s, on a frame that swings.
const lapse = `
[clock]
playback = "24"
loop = "48 frames"
[take]
rounds = 2
[frame-by-frame]
exposure = "1 s"
hand = "2 s"
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
jerk = "60000 mm/s3"
steps = "80 per mm"
backlash = "0.05 mm"
shake = { frequency = "6 Hz", damping = "3 %" }
[axis.rail]
from = "40 mm"
to = "100 mm"
`

// table turns a seventh in the loop, which is no whole number of its steps.
const table = `
[rig.axis.table]
letter = "A"
travel = "endless"
speed = "90 deg/s"
acceleration = "180 deg/s2"
steps = "10 per deg"
[axis.table]
turns = "1/7"
law = "uniform"
`

func unscaled(shot.Shot, *plan.Plan) float64 { return 0 }

func scheduled(t rapid.TB, text string) (*stepwise.Schedule, *trajectory.Trajectory) {
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	s, err = stepwise.Timed(s, *s.Rig, unscaled)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	return stepwise.New(p, 0), trajectory.New(p)
}

// with is lapse with keys more under [frame-by-frame].
func with(keys string) string { return strings.Replace(lapse, "hand = \"2 s\"", keys, 1) }

func failed(s *stepwise.Schedule, t *trajectory.Trajectory) (out []string) {
	for _, f := range s.Findings(t) {
		if !f.OK {
			out = append(out, f.Check+": "+f.Text)
		}
	}
	return out
}

// A shot that the camera runs through has no schedule.
func TestNone(t *testing.T) {
	text := strings.Replace(lapse, "[frame-by-frame]\nexposure = \"1 s\"\nhand = \"2 s\"\n", "", 1)
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	same, err := stepwise.Timed(s, *s.Rig, unscaled)
	require.NoError(t, err)
	p, err := plan.Build(same, *s.Rig)
	require.NoError(t, err)
	assert.Nil(t, stepwise.New(p, 0))
	assert.NotZero(t, p.Hash())
}

// The steps of a round sum to nothing, or to its turns, however many rounds: an axis is
// never half a step or more from where exact turns have it.
func TestLoopsClose(t *testing.T) {
	s, tr := scheduled(t, lapse+table)
	assert.Empty(t, failed(s, tr))
	c := tr.Captured()
	for _, rounds := range []int64{1, 7, 10_000, 1_000_003} {
		assert.Equal(t, s.Steps(0, 0), s.Steps(0, rounds*c))
		exact := float64(rounds*3600) / 7
		assert.LessOrEqual(t, math.Abs(float64(s.Steps(1, rounds*c))-exact), 0.5+1e-6, "round %d", rounds)
	}
	assert.EqualValues(t, 3600, s.Steps(1, 7*c), "seven sevenths are a turn")
}

// Every frame is at its place on the plan, rests while it is exposed and takes no more than
// its time, whatever the loop: the verifier says so, and is not told by whom it was made.
func TestAnyLoopIsSound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := lapse
		if rapid.Bool().Draw(rt, "table") {
			text += table
		}
		text = strings.NewReplacer(
			"48 frames", fmt.Sprintf("%d frames", rapid.IntRange(2, 90).Draw(rt, "frames")),
			"to = \"100 mm\"", fmt.Sprintf("to = \"%d mm\"", rapid.IntRange(41, 390).Draw(rt, "to")),
			"80 per mm", fmt.Sprintf("%d per mm", rapid.IntRange(3, 400).Draw(rt, "steps")),
			"hand = \"2 s\"", fmt.Sprintf("hand = \"2 s\"\napproach = %q", rapid.SampledFrom([]string{"one-side", "as-it-comes"}).Draw(rt, "approach")),
		).Replace(text)
		s, tr := scheduled(rt, text)
		require.Empty(rt, failed(s, tr), text)
	})
}

// What is stated is enough to the hundredth of a second, or is not.
func TestEnoughTime(t *testing.T) {
	s, _ := scheduled(t, lapse)
	needs := s.Needs.Seconds()
	assert.Greater(t, s.Every().Float(), needs)
	assert.Less(t, s.Every().Float(), needs+0.11, "and no longer than it takes, to a tenth of a second")
	for _, x := range []struct {
		by float64
		ok bool
	}{{+0.01, true}, {-0.01, false}} {
		s, tr := scheduled(t, with(fmt.Sprintf("hand = \"2 s\"\nevery = \"%.3f s\"", needs+x.by)))
		bad := failed(s, tr)
		assert.Equal(t, x.ok, len(bad) == 0, "%v", bad)
		if !x.ok {
			assert.Contains(t, bad[0], fmt.Sprintf("frame %d needs most", s.Needs.Frame))
			assert.Contains(t, bad[0], fmt.Sprintf("every = \"%s s\" would do", s.Needs.Whole().Decimal(1)))
		}
	}
}

// swung carries a damped spring through the ramps of a move by steps of a ten-thousandth of
// a second: its acceleration is the board's for half of the way and against it for the other,
// with a stretch at the gentle speed between where there is one. It shares nothing with what
// foretells.
func swung(x, v, distance, acc, speed, omega, damping float64) (float64, float64) {
	ramp := math.Min(math.Sqrt(math.Abs(distance)/acc), speed/acc)
	flat := (math.Abs(distance) - acc*ramp*ramp) / speed
	if ramp < speed/acc {
		flat = 0
	}
	const n = 2000
	for _, part := range []struct{ sec, acc float64 }{{ramp, 1}, {flat, 0}, {ramp, -1}} {
		a := part.acc * math.Copysign(acc, distance)
		x, v = rung(x, v, a, part.sec, n, omega, damping)
	}
	return x, v
}

// rung integrates x" = -a - 2 d w x' - w² x by Runge and Kutta's method of fourth order.
func rung(x, v, a, sec float64, n int, w, d float64) (float64, float64) {
	h := sec / float64(n)
	f := func(x, v float64) (float64, float64) { return v, -a - 2*d*w*v - w*w*x }
	for range n {
		k1, l1 := f(x, v)
		k2, l2 := f(x+h/2*k1, v+h/2*l1)
		k3, l3 := f(x+h/2*k2, v+h/2*l2)
		k4, l4 := f(x+h*k3, v+h*l3)
		x, v = x+h/6*(k1+2*k2+2*k3+k4), v+h/6*(l1+2*l2+2*l3+l4)
	}
	return x, v
}

// The swing that is left as an exposure begins, integrated by another method over the whole
// take with its true phases, is no more than what may be left and no more than what is told;
// with four fifths of the settling it is more in some frame.
func TestSettledAgainstASpringIntegratedByItself(t *testing.T) {
	const still, damping = 0.01, 0.03
	omega := 2 * math.Pi * 6
	worst := func(share float64) float64 {
		s, tr := scheduled(t, lapse)
		x, v, most := 0.0, 0.0, 0.0
		for n := int64(1); n < tr.Captured(); n++ {
			f := s.Frame(n)
			for _, l := range f.Legs {
				m := l.Moves[0]
				x, v = swung(x, v, float64(m.To-m.From)/80, 3000, 40, omega, damping)
			}
			x, v = rung(x, v, 0, share*f.Settle, 2000, omega, damping)
			most = math.Max(most, math.Hypot(x, (v+damping*omega*x)/(omega*math.Sqrt(1-damping*damping))))
			x, v = rung(x, v, 0, 3.5, 8000, omega, damping) // hand, exposure, card
		}
		return most
	}
	full := worst(1)
	t.Logf("left %.4f mm of %.4f", full, still)
	assert.LessOrEqual(t, full, still)
	assert.Greater(t, worst(0.8), still)
	s, _ := scheduled(t, lapse)
	left, _, known := s.Left(0)
	assert.True(t, known)
	assert.LessOrEqual(t, full, left)
	assert.LessOrEqual(t, left, still*(1+1e-9))
}

// A move that lasts as long as a swing cancels it, if the swing is just what the file says.
// What is settled for is the worst of what it may be: each true frequency within the bound of
// its uncertainty leaves no more than may be left. Without the uncertainty it would not.
func TestACancelledSwingIsNotRelied(t *testing.T) {
	const still, damping, lasts = 0.01, 0.03, "loop = \"18 frames\""
	text := strings.Replace(lapse, "loop = \"48 frames\"", lasts, 1) + "law = \"uniform\"\n"
	sure := strings.Replace(text, "damping = \"3 %\" }", "damping = \"3 %\", uncertainty = \"0.25 Hz\" }", 1)
	worst := func(text string, hz float64) (most float64) {
		s, tr := scheduled(t, text)
		omega := 2 * math.Pi * hz
		for n := int64(1); n < tr.Captured(); n++ {
			f, x, v := s.Frame(n), 0.0, 0.0
			for _, l := range f.Legs {
				m := l.Moves[0]
				x, v = swung(x, v, float64(m.To-m.From)/80, 3000, 40, omega, damping)
			}
			x, v = rung(x, v, 0, f.Settle, 2000, omega, damping)
			most = math.Max(most, math.Hypot(x, (v+damping*omega*x)/(omega*math.Sqrt(1-damping*damping))))
		}
		return most
	}
	for _, hz := range []float64{5.5, 5.7, 6, 6.2, 6.5} {
		assert.LessOrEqual(t, worst(sure, hz), still, "%v Hz", hz)
	}
	assert.Greater(t, worst(text, 6.5), still)
}

// Where the file foretells nothing a second is waited, and it says of which axis.
func TestUntold(t *testing.T) {
	s, tr := scheduled(t, strings.Replace(lapse, "shake = { frequency = \"6 Hz\", damping = \"3 %\" }\n", "", 1))
	assert.Equal(t, []string{"rail"}, s.Untold)
	assert.InDelta(t, 1, s.Frame(5).Settle, 0)
	assert.Empty(t, failed(s, tr))
	_, _, known := s.Left(0)
	assert.False(t, known)
}

// A stated settling is kept, and what it leaves is told.
func TestStatedSettling(t *testing.T) {
	s, _ := scheduled(t, with("hand = \"2 s\"\nsettle = \"0.2 s\""))
	assert.InDelta(t, 0.2, s.Frame(9).Settle, 0)
	left, frame, _ := s.Left(0)
	assert.Greater(t, left, s.Still(0))
	assert.NotZero(t, frame)
	assert.Zero(t, s.Frame(0).Settle)
}

// An axis that comes from one side ends every move going that way, by twice its play at
// least; as it comes it does not.
func TestOneSide(t *testing.T) {
	for side, want := range map[string]bool{"one-side": true, "as-it-comes": false} {
		s, tr := scheduled(t, with(fmt.Sprintf("hand = \"2 s\"\napproach = %q", side)))
		assert.Empty(t, failed(s, tr))
		ways := map[bool]bool{}
		for n := int64(1); n < s.Frames(); n++ {
			f := s.Frame(n)
			if len(f.Legs) == 0 {
				continue
			}
			last := f.Legs[len(f.Legs)-1].Moves[0]
			ways[last.To > last.From] = true
			assert.Equal(t, s.Steps(0, n), last.To)
			if len(f.Legs) == 2 {
				assert.GreaterOrEqual(t, float64(last.To-last.From), 2*0.05*80)
			}
		}
		assert.Equal(t, want, len(ways) == 1, side)
	}
}

// What would do for a finding that does not hold is a value of the file with which it does.
func TestCuresOfFindings(t *testing.T) {
	never := strings.Replace(lapse, "rounds = 2", "rounds = 4000", 1) + strings.Replace(table, "10 per deg", "300 per deg", 1)
	for _, x := range []struct{ text, check, path string }{
		{with("hand = \"2 s\"\nevery = \"4 s\""), "time a frame", "frame-by-frame.every"},
		{never, "places told", "take.rounds"},
	} {
		s, tr := scheduled(t, x.text)
		found := 0
		for _, f := range s.Findings(tr) {
			cures := s.Cures(f)
			if f.OK {
				assert.Empty(t, cures, f.Check)
				continue
			}
			found++
			assert.Equal(t, x.check, f.Check)
			require.Len(t, cures, 1)
			assert.Equal(t, x.path, cures[0].Edits[0].Path)
			p, err := source.Set("f", []byte(x.text), x.path, cures[0].Edits[0].Text)
			require.NoError(t, err)
			assert.Empty(t, failed(scheduled(t, string(p))), "%s", cures[0].Words)
		}
		assert.Equal(t, 1, found, x.check)
	}
}

// After a break each axis comes to a frame from the side it would have come from, and where
// its travel ends right there it goes straight.
func TestApproach(t *testing.T) {
	s, _ := scheduled(t, lapse)
	for n, way := range map[int64]float64{0: +1, 10: +1, 30: -1, 47: -1} {
		assert.InDelta(t, s.Place(0, n)-way*2*0.05, s.Approach(n)[0], 1e-9, "frame %d", n)
	}
	s, _ = scheduled(t, strings.Replace(lapse, `from = "40 mm"`, `from = "0 mm"`, 1))
	assert.InDelta(t, 0, s.Approach(0)[0], 0)
}

// A loop that is cut has the time of its way back for the way back.
func TestAWayBackHasItsTime(t *testing.T) {
	s, tr := scheduled(t, strings.Replace(lapse, "[axis.rail]\n", "[axis.rail]\nmove = \"through\"\n", 1))
	assert.Empty(t, failed(s, tr))
	f := s.Frame(tr.Captured())
	assert.EqualValues(t, 1+tr.Plan().Back, f.Need.Gaps)
	assert.EqualValues(t, 1, f.Round)
	assert.Zero(t, tr.Plan().RunUp, "what rests in frame 0 needs no run-up")
	assert.InDelta(t, float64(s.Gap(0, s.Frames()-1))*s.Every().Float()+1, s.Seconds(), 1e-9)
	assert.Less(t, s.Least(), s.Seconds())
}

// A controller that cannot tell two steps apart is told of, in words.
func TestPlacesThatCannotBeTold(t *testing.T) {
	s, tr := scheduled(t, strings.Replace(lapse, "[rig.axis.rail]", "[rig.controller]\ndecimals = 1\n[rig.axis.rail]", 1))
	require.Len(t, failed(s, tr), 1)
	assert.Contains(t, failed(s, tr)[0], "places told: its words have 1 decimals")
}

// Axes go together, in the time of the one that needs most by the closed form of a trapezoid;
// what has to come back from beyond does so by itself. Of a table that a feed along the rail
// cannot be told for, each goes by itself.
func TestAxesGoTogether(t *testing.T) {
	// At a tenth of its speed, 40 mm/s and 9 degrees/s: d/v + v/a, or twice the root of d/a.
	soonest := func(d, v, a float64) float64 {
		if d = math.Abs(d); d > v*v/a {
			return d/v + v/a
		}
		return 2 * math.Sqrt(d/a)
	}
	for _, kind := range []string{"buffered", "lockstep", "step-player"} {
		text := strings.Replace(lapse+table, "[rig.axis.rail]", "[rig.controller]\nkind = \""+kind+"\"\n[rig.axis.rail]", 1)
		s, tr := scheduled(t, strings.Replace(text, "jerk = \"60000 mm/s3\"\n", "", 1))
		assert.Empty(t, failed(s, tr), kind)
		n := int64(12) // in the middle of the way both move
		legs := s.Frame(n).Legs
		require.Len(t, legs, 1, kind)
		require.Len(t, legs[0].Moves, 2, kind)
		rail, turn := s.Place(0, n)-s.Place(0, n-1), s.Place(1, n)-s.Place(1, n-1)
		want := max(soonest(rail, 40, 3000), soonest(turn, 9, 180))
		assert.GreaterOrEqual(t, legs[0].Seconds, want-1e-9, kind)
		assert.Less(t, legs[0].Seconds, want*1.1, "both are bounded by the table here")
		assert.InDelta(t, legs[0].Seconds+stepwise.TalkSeconds, s.Frame(n).Need.Moves, 1e-9, "and are talked about once")
	}
	s, tr := scheduled(t, strings.NewReplacer("hand = \"2 s\"", "hand = \"2 s\"\napproach = \"one-side\"").Replace(lapse+table))
	assert.Empty(t, failed(s, tr))
	legs := s.Frame(36).Legs // on the rail's way back
	require.Len(t, legs, 2)
	assert.Len(t, legs[0].Moves, 2)
	require.Len(t, legs[1].Moves, 1)
	assert.Zero(t, legs[1].Moves[0].Axis)

	slow := strings.NewReplacer(`to = "100 mm"`, `to = "41 mm"`, `turns = "1/7"`, `turns = "20"`).Replace(lapse + table)
	for style, together := range map[string]bool{"inverse-time": true, "per-minute": false} {
		s, tr := scheduled(t, strings.Replace(slow, "[rig.axis.rail]", "[rig.controller]\nkind = \"lockstep\"\npath-feed = \"linear\"\nfeed = \""+style+"\"\n[rig.axis.rail]", 1))
		assert.Empty(t, failed(s, tr))
		legs = s.Frame(12).Legs
		assert.Equal(t, together, len(legs) == 1, style)
	}
}

// A frame that is come to from beyond a wide play is left to settle for the way there: with
// what any frame of the take needs, the load would still swing.
func TestArrival(t *testing.T) {
	const still, damping = 0.01, 0.03
	omega := 2 * math.Pi * 6
	s, _ := scheduled(t, strings.NewReplacer(`to = "100 mm"`, `to = "40.5 mm"`, `backlash = "0.05 mm"`, `backlash = "0.7 mm"`, `jerk = "60000 mm/s3"`, "").Replace(lapse))
	assert.InDelta(t, 40-1.4, s.Approach(0)[0], 1e-9)
	swings := func(wait float64) float64 {
		x, v := swung(0, 0, -31.4, 3000, 40, omega, damping)
		x, v = swung(x, v, 1.4, 3000, 40, omega, damping)
		x, v = rung(x, v, 0, wait, 4000, omega, damping)
		return math.Hypot(x, (v+damping*omega*x)/(omega*math.Sqrt(1-damping*damping)))
	}
	wait := s.Arrival([]float64{70}, 0)
	assert.LessOrEqual(t, swings(wait), still)
	assert.Greater(t, wait, s.Frame(10).Settle)
	assert.Greater(t, swings(s.Needs.Settle), still)
	assert.GreaterOrEqual(t, s.Arrival(s.Places(0), 0), s.Needs.Settle, "and never less than in the take")
	stated, _ := scheduled(t, with("hand = \"2 s\"\nsettle = \"0.2 s\""))
	assert.InDelta(t, 0.2, stated.Arrival([]float64{70}, 0), 0)
}
