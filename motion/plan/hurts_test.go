package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/plan"
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
		// With three and a half it takes all of the limits, which stop it in an eighth of a
		// second, by 3.125 degrees; half of them would in 4.8, three quarters in 3.75.
		tight := fmt.Sprintf("%.1f", float64(60*rounds)+3.5)
		for _, p := range []*plan.Plan{stops(t, "-3.5", tight, "1/6", rounds), stops(t, "-"+tight, "3.5", "-1/6", rounds)} {
			assert.Empty(t, p.Breaches(), "%d rounds", rounds)
			assert.Equal(t, [2]int64{15, 15}, [2]int64{p.RunUp, p.RunOut})
		}
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

// TestTheEndOfAllRounds: what a turn comes to is told with the round in which it does, the
// third here, at the end of 3.6 s; the near end of a travel is that of the first.
func TestTheEndOfAllRounds(t *testing.T) {
	b, told := of(stops(t, "-100", "179", "1/6", 3), "loop", plan.Position)
	require.True(t, told)
	assert.InDelta(t, 180, b.Value, 1e-9)
	assert.InDelta(t, 3.6, b.Time, 1e-9)
	assert.InDelta(t, 432, b.Frame, 1e-6)
	assert.InDelta(t, 18, b.Screen, 1e-6)
	b, told = of(stops(t, "1", "400", "1/6", 3), "loop", plan.Position)
	require.True(t, told)
	assert.Equal(t, 0.0, b.Value)
	assert.Equal(t, 0.0, b.Time)
	b, told = of(stops(t, "-179", "100", "-1/6", 3), "loop", plan.Position)
	require.True(t, told)
	assert.InDelta(t, -180, b.Value, 1e-9)
	assert.InDelta(t, 3.6, b.Time, 1e-9)
}

// TestAWayBackKeepsToItsShare: half of the acceleration and the jerk where there is room,
// and not quite the greatest speed; as quick as that allows, so that something of it is
// nearly used up. Where no jerk is stated acceleration rises in a twentieth of a second,
// and nowhere in less than two captured frames.
func TestAWayBackKeepsToItsShare(t *testing.T) {
	for _, x := range []struct {
		name, old, new string
		acc, jerk      float64
	}{
		{"with a jerk", "", "", 1500, 50_000},
		{"with more jerk than two frames allow", `jerk = "100000 mm/s3"`, `jerk = "900000 mm/s3"`, 1500, 1500 / (2.0 / 120)},
		{"without a jerk", `jerk = "100000 mm/s3"` + "\n", "", 1500, 1500 / 0.05},
		{"with little push", `acceleration = "3000 mm/s2"`, `acceleration = "1000 mm/s2"`, 500, 500 / (2.0 / 120)},
	} {
		text := across
		if x.old != "" {
			text = strings.Replace(across, x.old, x.new, 1)
			require.NotEqual(t, across, text)
		}
		p := must(t, text)
		require.Empty(t, p.Breaches(), x.name)
		rail := p.Axes[0]
		from, to := p.Loop.Real().Float(), p.Period()
		s := look(from+1e-9, to-1e-9, nil, rail.Track.At)
		assert.LessOrEqual(t, s.acc, x.acc*(1+1e-6), x.name)
		assert.LessOrEqual(t, s.jerk, x.jerk*(1+1e-6), x.name)
		assert.LessOrEqual(t, s.speed, 0.98*400*(1+1e-6), x.name)
		assert.Greater(t, max(s.acc/x.acc, s.jerk/x.jerk, s.speed/392), 0.85, "%s: it could come back sooner: %+v", x.name, s)
		for _, r := range []*plan.Ramp{rail.RunUp, rail.RunOut} {
			s := look(0, r.Length(), r.Breaks(), r.At)
			assert.LessOrEqual(t, s.acc, x.acc*(1+1e-6), x.name)
			assert.LessOrEqual(t, s.jerk, x.jerk*(1+1e-6), x.name)
			assert.Greater(t, max(s.acc/x.acc, s.jerk/x.jerk), 0.8, "%s: %+v", x.name, s)
		}
	}
}

// TestWhatElseIsBrokenMakesNoHaste: only a way back or a ramp that leaves the travel takes
// more than half of the limits. A table that is too fast in the loop is no reason.
func TestWhatElseIsBrokenMakesNoHaste(t *testing.T) {
	p := must(t, strings.Replace(across, `speed = "180 deg/s"`, `speed = "49 deg/s"`, 1)) // it turns at 50
	require.NotEmpty(t, p.Breaches())
	s := look(p.Loop.Real().Float()+1e-9, p.Period()-1e-9, nil, p.Axes[0].Track.At)
	assert.LessOrEqual(t, s.acc, 1500*(1+1e-6))
	for _, r := range []*plan.Ramp{p.Axes[0].RunUp, p.Axes[0].RunOut} {
		assert.LessOrEqual(t, r.Peak(), 1500*(1+1e-6))
	}
}

// TestAPassAsFastAsTheRailGoes is run up to, and comes back, at no less than its own
// speed: what is left out of the greatest is only for what is not filmed.
func TestAPassAsFastAsTheRailGoes(t *testing.T) {
	p := must(t, strings.Replace(across, `speed = "400 mm/s"`, `speed = "200 mm/s"`, 1))
	require.Empty(t, p.Breaches())
	s := look(p.Loop.Real().Float(), p.Period(), nil, p.Axes[0].Track.At)
	assert.InDelta(t, 200, s.speed, 1e-6)
	slow := must(t, strings.Replace(across, `speed = "400 mm/s"`, `speed = "202 mm/s"`, 1))
	s = look(slow.Loop.Real().Float(), slow.Period(), nil, slow.Axes[0].Track.At)
	assert.InDelta(t, 200, s.speed, 1e-6, "98 per cent of 202 are less than it is at the seam")
	limited := must(t, strings.Replace(across, `step-rate = "40000 steps/s"`, `step-rate = "20000 steps/s"`, 1)) // 250 mm/s
	s = look(limited.Loop.Real().Float(), limited.Period(), nil, limited.Axes[0].Track.At)
	assert.LessOrEqual(t, s.speed, 0.98*250*(1+1e-9))
	assert.Greater(t, s.speed, 0.9*250)
}

// TestATableGoesOnByWholeTurnsOfItsOwn: it is at 50 degrees a second when the loop is cut,
// and has to be on a face again, of 60, when the next round begins. Of all that it could
// go on by it takes what is nearest to going on at its speed.
func TestATableGoesOnByWholeTurnsOfItsOwn(t *testing.T) {
	for _, turns := range []string{"1/6", "-1/6", "1/12"} {
		p := must(t, strings.Replace(across, `turns = "1/6"`, `turns = "`+turns+`"`, 1))
		table := &p.Axes[1]
		once, all := table.Gain.Float(), table.Track.Advance().Float()
		more := all/once - 1
		assert.InDelta(t, math.Round(more), more, 1e-12)
		back := float64(p.Back) / 120
		assert.LessOrEqual(t, math.Abs(more*once-once/1.2*back), math.Abs(once)/2+1e-9, "%s: %g more", turns, more)
	}
}

// TestAWayBackOfTenMinutes is one that nobody waits for.
func TestAWayBackOfTenMinutes(t *testing.T) {
	_, err := build(t, strings.NewReplacer(`acceleration = "3000 mm/s2"`, `acceleration = "0.6 mm/s2"`, `["0 mm", "400 mm"]`, `["-90000 mm", "90000 mm"]`).Replace(across))
	require.ErrorContains(t, err, "the way back: it would take more than 600 s; the axes' limits are too low for the speed at the cut")
	p, err := build(t, strings.NewReplacer(`acceleration = "3000 mm/s2"`, `acceleration = "3 mm/s2"`, `["0 mm", "400 mm"]`, `["-90000 mm", "90000 mm"]`).Replace(across))
	require.NoError(t, err)
	assert.Greater(t, p.Back, int64(120*200), "from 200 to -200 mm/s and back at 1.5 mm/s2, by the way between, takes minutes")
	assert.LessOrEqual(t, p.Back, int64(120*600))
}

// TestRampsOfManySeconds: an axis that may hardly push is run up for as long as that
// takes; what asks for more than a minute asks for too much, and that is told.
func TestRampsOfManySeconds(t *testing.T) {
	turning := bench + "[axis.table]\nmove = \"turn\"\nturns = \"1/6\"\nlaw = \"uniform\"\n"
	for _, acc := range []float64{10, 2} {
		p := mustBuild(t, turning, with("rig.axis.table.acceleration", fmt.Sprintf("%g deg/s2", acc)))
		assert.Empty(t, p.Breaches())
		assert.InDelta(t, 50/(acc/2)+0.05, float64(p.RunUp)/120, 1.0/120+1e-9)
	}
	// One that takes up an acceleration as well: at its limits a swing that it can just do
	// is run up to in a ramp of some seconds.
	swing := bench + "[axis.rail]\nmove = \"there-and-back\"\nfrom = \"100 mm\"\nto = \"160 mm\"\nlaw = \"harmonic\"\nphase = \"1/8\"\n"
	p := mustBuild(t, swing, with("clock.loop", "60 s"), with("rig.axis.rail.acceleration", "9 mm/s2"), with("rig.axis.rail.jerk", "60 mm/s3"))
	require.Empty(t, p.Breaches())
	r := p.Axes[0].RunUp
	s := look(0, r.Length(), r.Breaks(), r.At)
	assert.LessOrEqual(t, s.jerk, 60*(1+1e-6))
	assert.InDelta(t, s.acc, r.Peak(), 1e-3*s.acc)
}

// TestARampIsNoLongerThanItMustBe: one frame less would ask for more than its share of
// the limits, by the cubic that takes up a speed and an acceleration (de Boor, chapter
// IV): the velocity v(3-2u)u² + aT(u-1)u² over u from 0 to 1.
func TestARampIsNoLongerThanItMustBe(t *testing.T) {
	swing := bench + "[axis.rail]\nmove = \"there-and-back\"\nfrom = \"100 mm\"\nto = \"160 mm\"\nlaw = \"harmonic\"\nphase = \"%s\"\n"
	for _, phase := range []string{"1/8", "1/16", "3/8", "5/8", "7/8"} {
		p := mustBuild(t, fmt.Sprintf(swing, phase))
		seam := p.Axes[0].Track.At(0)
		for _, r := range []*plan.Ramp{p.Axes[0].RunUp, p.Axes[0].RunOut} {
			sign := 1.0
			if r == p.Axes[0].RunOut {
				sign = -1 // it slows down, as a run-up played backwards
			}
			asks := func(length float64) float64 { // over its limits
				worst := 0.0
				for k := range 2001 {
					u := float64(k) / 2000
					v, b := sign*seam.Vel, seam.Acc*length
					speed := v*(3-2*u)*u*u + b*(u-1)*u*u
					acc := (6*v*u*(1-u) + b*(3*u*u-2*u)) / length
					jerk := (6*v*(1-2*u) + b*(6*u-2)) / length / length
					worst = max(worst, math.Abs(speed)/400, math.Abs(acc)/max(1500, math.Abs(seam.Acc)), math.Abs(jerk)/100_000)
				}
				return worst
			}
			assert.LessOrEqual(t, asks(r.Length()), 1+1e-6, phase)
			assert.Greater(t, asks(r.Length()-1.0/120), 1.0, phase)
		}
	}
}

// TestTheHashOfAPlan: records of takes are found by it. One that changes though the
// motion does not would make a new plan of every old one; one that does not though the
// motion does, an old one of a new. Each of what is driven counts.
func TestTheHashOfAPlan(t *testing.T) {
	assert.Equal(t, "08fc53374905b218", mustBuild(t, lantern).Hash())
	assert.Equal(t, "66e6f6513f49fc39", must(t, across).Hash())
	seen := map[string]string{mustBuild(t, lantern).Hash(): "as it is"}
	for _, over := range []source.Override{
		with("axis.rail.to", "100.00001 mm"), with("clock.loop", "149 frames"), with("clock.capture", "60"), with("rig.controller.step-rate", "39999 steps/s"),
		with("rig.axis.rail.speed", "401 mm/s"), with("rig.axis.rail.acceleration", "3001 mm/s2"), with("rig.axis.rail.jerk", "100001 mm/s3"),
		with("rig.axis.rail.letter", "Y"), with("rig.axis.rail.microsteps", "8"),
		with("rig.axis.table.acceleration", "60 deg/s2"), with("axis.table.turns", "1/3"),
	} {
		h := mustBuild(t, lantern, over).Hash()
		assert.Empty(t, seen[h], "%s %s is the same as %s", over.Path, over.Text, seen[h])
		seen[h] = over.Path
	}
}

// TestHandlesAreCapturedFrames: of two frames on screen, shown at a fifth of life, ten are
// captured: five for each.
func TestHandlesAreCapturedFrames(t *testing.T) {
	for handles, want := range map[string]int64{"2 frames": 2, "0 frames": 0} {
		p := mustBuild(t, lantern, with("take.handles", handles))
		assert.Equal(t, want, p.Handles)
	}
	assert.Equal(t, int64(3), mustBuild(t, lantern, with("take.handles", "2 frames"), with("clock.capture", "120"), with("clock.retime", "7/24")).Handles)
}

// TestTheCubicOfARamp: a ramp that takes up an acceleration as well has for its velocity
// the cubic with both ends' values and slopes (de Boor, chapter IV); place, acceleration
// and jerk are its integral and its derivatives, worked out here by hand from its four
// coefficients: V(u) = c2 u² + c3 u³ with c2 = 3v - b and c3 = b - 2v, b = aT. It turns
// where that is 0 inside; beyond its ends it rests where it begins or arrives.
func TestTheCubicOfARamp(t *testing.T) {
	swing := strings.Replace(bench, `jerk = "100000 mm/s3"`, `jerk = "20000 mm/s3"`, 1) +
		"[axis.rail]\nmove = \"there-and-back\"\nfrom = \"100 mm\"\nto = \"160 mm\"\nlaw = \"harmonic\"\nphase = \"%s\"\n"
	turned := 0
	for _, phase := range []string{"1/64", "1/8", "3/8", "31/64", "33/64", "7/8", "63/64"} {
		p := mustBuild(t, fmt.Sprintf(swing, phase))
		seam := p.Axes[0].Track.At(0)
		for _, r := range []*plan.Ramp{p.Axes[0].RunUp, p.Axes[0].RunOut} {
			out := r == p.Axes[0].RunOut
			length := r.Length()
			v := seam.Vel
			if out { // the same, played backwards
				v = -v
			}
			b := seam.Acc * length
			c2, c3 := 3*v-b, b-2*v
			for _, u := range []float64{0, 0.1, 0.37, 0.5, 0.83, 1} {
				sec, sign := u*length, 1.0
				if out {
					sec, sign = length-sec, -1
				}
				s := r.At(sec)
				// From u on to the seam it goes the integral of V.
				left := length * (c2*(1-u*u*u)/3 + c3*(1-u*u*u*u)/4)
				assert.InDelta(t, seam.Pos-left, s.Pos, 1e-9, "%s at %g", phase, u)
				assert.InDelta(t, sign*(c2*u*u+c3*u*u*u), s.Vel, 1e-9)
				assert.InDelta(t, (2*c2*u+3*c3*u*u)/length, s.Acc, 1e-7)
				assert.InDelta(t, sign*(2*c2+6*c3*u)/length/length, s.Jerk, 1e-5)
			}
			assert.Equal(t, r.At(0).Pos, r.At(-1).Pos)
			assert.Equal(t, r.At(length).Pos, r.At(length+1).Pos)
			at, turns := r.Turn()
			want := -c2 / c3
			if assert.Equal(t, want > 0 && want < 1, turns, phase) && turns {
				turned++
				if out {
					want = 1 - want
				}
				assert.InDelta(t, want*length, at, 1e-9)
				assert.Equal(t, []float64{0, at, length}, r.Breaks())
				assert.InDelta(t, 0, r.At(at).Vel, 1e-9)
			} else {
				assert.Equal(t, []float64{0, length}, r.Breaks())
			}
		}
	}
	assert.Equal(t, 4, turned, "two that back before the seam, and two beyond it")
	even := stops(t, "-100", "100", "1/6", 1).Axes[0].RunUp
	_, turns := even.Turn()
	assert.False(t, turns, "one that has no acceleration to take up does not back")
	assert.Greater(t, len(even.Breaks()), 3, "and has a break where its jerk changes")
}

// TestWhatIsAtRestAtTheSeam has neither ramp; one that moves there has both.
func TestWhatIsAtRestAtTheSeam(t *testing.T) {
	still := mustBuild(t, strings.Split(lantern, "[axis.table]\nmove")[0])
	assert.True(t, still.AtRest())
	assert.Nil(t, still.Axes[0].RunUp)
	p := mustBuild(t, lantern)
	assert.False(t, p.AtRest())
	p.RunOut = 0
	assert.False(t, p.AtRest(), "a run-up is enough")
	p.RunUp, p.RunOut = 0, 5
	assert.False(t, p.AtRest())
	assert.Equal(t, int64(144), p.RoundFrames())
	assert.InDelta(t, 1.2, p.Period(), 1e-12)
}

// TestALoopAtTheQuickestPaceSaysSo, and what it cannot be in says why.
func TestALoopAtTheQuickestPaceSaysSo(t *testing.T) {
	quick := func(text string) string {
		return strings.Replace(text, `loop = "6 s"`, "loop = \"6 s\"\npace = \"quickest\"", 1)
	}
	p := must(t, quick(keyed))
	assert.Equal(t, "6 s, at the quickest pace", p.Loop.Asked)
	assert.Equal(t, p.Loop.Captured, p.Loop.Screen, "each captured frame is shown once")
	twice := mustBuild(t, quick(keyed), with("clock.retime", "1/10"))
	assert.Equal(t, 2*twice.Loop.Captured, twice.Loop.Screen, "each is shown twice: whole frames, captured and shown")
	_, err := build(t, quick(across))
	require.EqualError(t, err, `test.toml: clock.pace "quickest" cannot be in a shot that passes through or has a stand, whose times are their own`)
	_, err = build(t, quick(strings.Replace(lantern, "3-4-5", "trapezoidal", 1)))
	require.ErrorContains(t, err, `clock.pace: axis rail jumps in acceleration; its law must not, such as "3-4-5"`)
	_, err = planned(t, quick(display))
	require.ErrorContains(t, err, "cannot be in a shot that passes through or has a stand")
}

// TestTheNearestLoopsOfAll: those that a shot says its loop may be between, ends included,
// and none below a frame.
func TestTheNearestLoopsOfAll(t *testing.T) {
	for _, x := range []struct {
		between string
		want    []int64
	}{
		{`["6.25 s", "12.5 s"]`, []int64{150, 300}}, {`["6.24 s", "12.51 s"]`, []int64{150, 300}},
		{`["6.26 s", "12.51 s"]`, []int64{300}}, {`["6.24 s", "12.49 s"]`, []int64{150}}, {`["6.3 s", "12 s"]`, nil},
	} {
		text := strings.Replace(display, `loop = "6 s"`, "loop = \"160 frames\"\nbetween = "+x.between, 1) + "within = \"0.1 deg\"\n"
		p, err := planned(t, text)
		require.NoError(t, err)
		var got []int64
		for _, l := range p.Nearest() {
			got = append(got, l.Screen)
		}
		assert.Equal(t, x.want, got, x.between)
	}
	// A stand of 4000 s a turn comes round to a face every 1000 s: 24 000 frames are too
	// far to be neighbours, though the shot allows them.
	far := strings.NewReplacer(`loop = "6 s"`, "loop = \"%s\"\nbetween = [\"1 s\", \"2000 s\"]", `"25 s"`, `"4000 s"`).Replace(display) + "within = \"0.001 deg\"\n"
	for loop, want := range map[string]int{"19000 frames": 1, "18999 frames": 0, "29000 frames": 1, "29001 frames": 0} {
		p, err := planned(t, fmt.Sprintf(far, loop))
		require.NoError(t, err)
		assert.Len(t, p.Nearest(), want, loop)
	}
}

// TestAStandInALoopOfOneFrame turns as well.
func TestAStandInALoopOfOneFrame(t *testing.T) {
	p, err := planned(t, strings.Replace(display, `loop = "6 s"`, `loop = "1 frames"`, 1))
	require.NoError(t, err)
	assert.Len(t, p.Stands, 1)
}

// TestTheShortestRamp is a frame long: a table of a tenth of a degree a round is at its
// speed in less.
func TestTheShortestRamp(t *testing.T) {
	p := mustBuild(t, bench+"[axis.table]\nmove = \"turn\"\nturns = \"1/3600\"\nlaw = \"uniform\"\n")
	assert.Equal(t, [2]int64{1, 1}, [2]int64{p.RunUp, p.RunOut})
}

// TestARampThatJustFits is gentle all the same: one of half of the limits, which takes 23
// frames and 25 degrees a second of them, needs 4.7916667 degrees, and no more.
func TestARampThatJustFits(t *testing.T) {
	for _, x := range []struct {
		near, far, turns string
		up, out          int64
	}{
		{"-4.7916667", "100", "1/6", 23, 23}, {"-4.7916", "100", "1/6", 18, 23}, {"-100", "64.7916667", "1/6", 23, 23}, {"-100", "64.7916", "1/6", 23, 18},
		{"-100", "4.7916667", "-1/6", 23, 23}, {"-100", "4.7916", "-1/6", 18, 23}, {"-64.7916667", "100", "-1/6", 23, 23}, {"-64.7916", "100", "-1/6", 23, 18},
	} {
		p := stops(t, x.near, x.far, x.turns, 1)
		assert.Empty(t, p.Breaches(), "%+v", x)
		assert.Equal(t, [2]int64{x.up, x.out}, [2]int64{p.RunUp, p.RunOut}, "%+v", x)
	}
}
