package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan"
	"seamrail/motion/source"
)

func with(path, text string) source.Override {
	return source.Override{Path: path, Text: text, Origin: "test"}
}

// of is the one breach of a phase and a quantity, if any.
func of(p *plan.Plan, phase, quantity string) (plan.Breach, bool) {
	for _, b := range p.Breaches() {
		if b.Phase == phase && b.Quantity == quantity {
			return b, true
		}
	}
	return plan.Breach{}, false
}

// TestARunUpThatBacksBeyondTheTravelIsRefused: a rail that passes the seam slowly, and
// ever faster, backs before it comes there. The end of the travel that it backs beyond is
// nearer than where it begins and where it arrives, so that neither of these shows it.
func TestARunUpThatBacksBeyondTheTravelIsRefused(t *testing.T) {
	// Little jerk makes ramps long, and long ramps back far.
	swing := strings.Replace(bench, `jerk = "100000 mm/s3"`, `jerk = "20000 mm/s3"`, 1) + "[axis.rail]\nmove = \"there-and-back\"\nfrom = \"%s mm\"\nto = \"%s mm\"\nlaw = \"harmonic\"\nphase = \"%s\"\n"
	for _, x := range []struct {
		name, from, to, phase string
		far                   bool // beyond the far end
	}{
		{"near", "0.01", "60", "1/64", false},
		{"far", "399.99", "340", "1/64", true},
	} {
		p := mustBuild(t, fmt.Sprintf(swing, x.from, x.to, x.phase))
		r := p.Axes[0].RunUp
		s := look(0, r.Length(), r.Breaks(), r.At)
		begins, arrives := r.At(0).Pos, r.At(r.Length()).Pos
		b, told := of(p, "run-up", plan.Position)
		require.True(t, told, x.name)
		if x.far {
			require.Greater(t, s.hi, max(begins, arrives)+0.01, "it must back for this test")
			assert.InDelta(t, s.hi, b.Value, 1e-6)
			assert.Equal(t, 400.0, b.Bound)
		} else {
			require.Less(t, s.lo, min(begins, arrives)-0.01, "it must back for this test")
			assert.InDelta(t, s.lo, b.Value, 1e-6)
			assert.Zero(t, b.Bound)
		}
		assert.InDelta(t, -r.Length(), b.Time, 1e-12)
		assert.InDelta(t, -r.Length()*120, b.Frame, 1e-9)
		assert.InDelta(t, -r.Length()*5, b.Screen, 1e-9)
	}
	// A millimetre from the end there is room to back.
	_, told := of(mustBuild(t, fmt.Sprintf(swing, "5", "65", "1/64")), "run-up", plan.Position)
	assert.False(t, told)
}

// stops is the table of the lantern between stops, turning by a share of a turn a round
// of 1.2 s, for so many rounds.
func stops(t *testing.T, near, far, turns string, rounds int) *plan.Plan {
	text := strings.Replace(bench, `travel = "endless"`, fmt.Sprintf("travel = [%q, %q]", near+" deg", far+" deg"), 1) +
		"[axis.table]\nmove = \"turn\"\nturns = \"" + turns + "\"\nlaw = \"uniform\"\n"
	return mustBuild(t, text, with("take.rounds", fmt.Sprint(rounds)))
}

// TestARunOutFollowsOnTheLastRound: 60 degrees in 1.2 s are 50 a second, and the mean of
// that and rest is 25: after three rounds, at 180, a table comes to rest 25 degrees a
// second times the run-out further on, and no sooner. Backwards it is the same, and a
// run-up begins as much before the first round however many follow.
func TestARunOutFollowsOnTheLastRound(t *testing.T) {
	for _, x := range []struct {
		near, far, turns string
		rounds           int
		phase            string
		from, sign       float64
	}{
		{"-100", "180.5", "1/6", 3, "run-out", 180, 1},
		{"-180.5", "100", "-1/6", 3, "run-out", -180, -1},
		{"-100", "60.5", "1/6", 1, "run-out", 60, 1},
		{"-0.5", "400", "1/6", 3, "run-up", 0, -1},
		{"-400", "0.5", "-1/6", 3, "run-up", 0, 1},
		{"-0.5", "400", "1/6", 1, "run-up", 0, -1},
	} {
		p := stops(t, x.near, x.far, x.turns, x.rounds)
		require.Len(t, p.Breaches(), 1, "%+v", x)
		b, told := of(p, x.phase, plan.Position)
		require.True(t, told, "%+v", x)
		frames := p.RunOut
		if x.phase == "run-up" {
			frames = p.RunUp
		}
		assert.InDelta(t, x.from+x.sign*25*float64(frames)/120, b.Value, 1e-9, "%+v", x)
	}
	for rounds := 1; rounds <= 3; rounds++ { // and with five degrees more there is room
		far := fmt.Sprint(60*rounds + 6)
		assert.Empty(t, stops(t, "-6", far, "1/6", rounds).Breaches(), "%d rounds", rounds)
		assert.Empty(t, stops(t, "-"+far, "6", "-1/6", rounds).Breaches(), "%d rounds", rounds)
		_, told := of(stops(t, "-6", far, "1/6", rounds+1), "loop", plan.Position)
		assert.True(t, told, "a round more is beyond by itself")
	}
}

// TestTheVelocityOfARunUp: from rest to the seam's own velocity, either way round, and
// from it to rest; half the way that the same time at full speed would go; and in whole
// frames, one fewer of which would ask for more than half of what the axis may do.
func TestTheVelocityOfARunUp(t *testing.T) {
	for _, turns := range []string{"1/6", "-1/6", "1/12"} {
		p := mustBuild(t, bench+"[axis.table]\nmove = \"turn\"\nturns = \""+turns+"\"\nlaw = \"uniform\"\n")
		v := p.Axes[0].Track.At(0).Vel
		up, out := p.Axes[0].RunUp, p.Axes[0].RunOut
		assert.InDelta(t, 0, up.At(0).Vel, 1e-9)
		assert.InDelta(t, v, up.At(up.Length()).Vel, 1e-9)
		assert.InDelta(t, v, out.At(0).Vel, 1e-9)
		assert.InDelta(t, 0, out.At(out.Length()).Vel, 1e-9)
		for _, r := range []*plan.Ramp{up, out} {
			assert.InDelta(t, v*r.Length()/2, r.At(r.Length()).Pos-r.At(0).Pos, 1e-9)
			s := look(0, r.Length(), r.Breaks(), r.At)
			assert.LessOrEqual(t, s.acc, 360*(1+1e-9), "half of 720")
			assert.LessOrEqual(t, s.speed, math.Abs(v)*(1+1e-9), "no faster than it has to become")
			assert.InDelta(t, s.acc, r.Peak(), 1e-6*s.acc)
			// A jerk of 720/0.05, or of a rise in two frames; half of it: a change of v
			// takes v/360 and 360 over that, or twice the root of v over it.
			jerk := 0.5 * min(720/0.05, 720/(2.0/120))
			least := math.Abs(v)/360 + 360/jerk
			if math.Abs(v) <= 360*360/jerk {
				least = 2 * math.Sqrt(math.Abs(v)/jerk)
			}
			assert.InDelta(t, math.Ceil(least*120-1e-9)/120, r.Length(), 1e-12, turns)
		}
		assert.Equal(t, p.RunUp, int64(math.Round(up.Length()*120)))
		assert.Equal(t, p.RunOut, int64(math.Round(out.Length()*120)))
	}
}

// TestWhatARampBreaksIsSaidToTheEdge: at the seam the loop may ask for as much speed and
// acceleration as there is; a ramp that is short of room is then told, and is not where
// it asks for more.
func TestWhatARampBreaksIsSaidToTheEdge(t *testing.T) {
	for _, x := range []struct {
		name    string
		speed   float64 // deg/s that the table may do; it does 50
		rate    string
		told    bool
		elseway string // what is told of the loop instead
	}{
		{"with as much speed as it has", 50, "40000 steps/s", true, ""},
		{"with a billionth less, which is rounding", 50 * (1 - 0.9e-9), "40000 steps/s", true, ""},
		{"too fast", 49.99, "40000 steps/s", false, plan.Speed},
		{"too many steps", 180, "440 steps/s", false, plan.StepRate}, // 50 deg/s by 3200 steps a turn are 444.4
		{"just so many steps", 180, "445 steps/s", true, ""},
	} {
		text := strings.NewReplacer(`travel = "endless"`, `travel = ["-0.5 deg", "400 deg"]`, `speed = "180 deg/s"`, fmt.Sprintf(`speed = "%.12f deg/s"`, x.speed)).Replace(bench)
		p := mustBuild(t, text+"[axis.table]\nmove = \"turn\"\nturns = \"1/6\"\nlaw = \"uniform\"\n", with("rig.controller.step-rate", x.rate))
		_, told := of(p, "run-up", plan.Position)
		assert.Equal(t, x.told, told, x.name)
		if x.elseway != "" {
			require.Len(t, p.Breaches(), 1, x.name)
			assert.Equal(t, x.elseway, p.Breaches()[0].Quantity)
		}
	}
	// The same of acceleration: a harmonic swing of 60 mm in 1.2 s passes its end at
	// 30*(2 pi/1.2)² mm/s2, which is 822.5; a little before, hardly less.
	for _, x := range []struct {
		acc  string
		told bool
	}{{"823", true}, {"800", false}} {
		text := strings.NewReplacer(`jerk = "100000 mm/s3"`, `jerk = "20000 mm/s3"`, `acceleration = "3000 mm/s2"`, `acceleration = "`+x.acc+` mm/s2"`).Replace(bench)
		p := mustBuild(t, text+"[axis.rail]\nmove = \"there-and-back\"\nfrom = \"0.01 mm\"\nto = \"60.01 mm\"\nlaw = \"harmonic\"\nphase = \"1/64\"\n")
		_, told := of(p, "run-up", plan.Position)
		assert.Equal(t, x.told, told, x.acc)
		_, loop := of(p, "loop", plan.Acceleration)
		assert.Equal(t, !x.told, loop, x.acc)
	}
}

// TestWhatABreachSays: the place, the number, what it may be, and when, in the words of
// the shot; speeds and their like without a sign.
func TestWhatABreachSays(t *testing.T) {
	for _, x := range []struct {
		over []source.Override
		says string
	}{
		{[]source.Override{with("axis.rail.to", "-1 mm")}, "axis rail: position -1 mm must be at least 0 mm at 3.000 s on screen, captured frame 72.0"},
		{[]source.Override{with("axis.rail.to", "401 mm"), with("axis.rail.from", "390 mm")}, "axis rail: position 401 mm must be at most 400 mm at 3.000 s on screen, captured frame 72.0"},
		{[]source.Override{with("rig.axis.rail.speed", "187 mm/s")}, "axis rail: speed 187.5 mm/s must be at most 187 mm/s at 1.500 s on screen, captured frame 36.0"},
		{[]source.Override{with("rig.controller.step-rate", "14999 steps/s")}, "axis rail: step rate 15000 steps/s must be at most 14999 steps/s at 1.500 s on screen, captured frame 36.0"},
		{[]source.Override{with("rig.axis.rail.jerk", "16000 mm/s3")}, "axis rail: jerk 16666.7 mm/s3 must be at most 16000 mm/s3 at 0.000 s on screen, captured frame 0.0"},
		{[]source.Override{with("axis.rail.law", "uniform"), with("rig.controller.step-rate", "9000 steps/s")}, "axis rail: acceleration unbounded"},
		{[]source.Override{with("rig.axis.table.speed", "49 deg/s")}, "axis table: speed 50 deg/s must be at most 49 deg/s at 0.000 s on screen, captured frame 0.0"},
		{[]source.Override{with("axis.table.turns", "-1/6"), with("rig.axis.table.speed", "49 deg/s")}, "axis table: speed 50 deg/s must be at most 49 deg/s"},
	} {
		p := mustBuild(t, lantern, x.over...)
		faults := p.Faults()
		require.NotEmpty(t, faults, x.says)
		assert.Contains(t, faults[0].String(), x.says)
		assert.Equal(t, "test.toml", faults[0].File)
		assert.Positive(t, faults[0].Line)
		assert.Positive(t, faults[0].Column)
	}
	p := stops(t, "-0.5", "400", "1/6", 1)
	require.Len(t, p.Faults(), 1)
	assert.Contains(t, p.Faults()[0].String(), "must be at least -0.5 deg in the run-up")
}
