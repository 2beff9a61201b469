package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// handShot is a shot on a rig on which two ends and a time are set, all in one file.
const handShot = `
[clock]
capture = "24"
playback = "24"
loop = "LOOP"
[take]
rounds = ROUNDS
[rig.controller]
kind = "two-ends"
[rig.controller.buttons]
times = "1 s to 60 s in steps of 0.5 s"
pauses = "0 s to 10 s in steps of 1 s"
BUTTONS
[rig.controller.ramp]
RAMP
[rig.axis.rail]
travel = ["0 mm", "600 mm"]
speed = "none"
acceleration = "none"
AXIS
[axis.rail]
from = "40 mm"
to = "340 mm"
MOVE
`

type handed struct{ loop, rounds, buttons, ramp, axis, move string }

func (h handed) text() string {
	or := func(a, b string) string {
		if a == "" {
			return b
		}
		return a
	}
	return strings.NewReplacer("LOOP", or(h.loop, "480 frames"), "ROUNDS", or(h.rounds, "1"), "BUTTONS", or(h.buttons, `round-trips = ["1 to 20", "endless"]`),
		"RAMP", or(h.ramp, "law = \"trapezoidal\"\ntime = \"2 s\""), "AXIS", h.axis, "MOVE", h.move).Replace(handShot)
}

func byHand(t require.TestingT, h handed) (*plan.Plan, error) {
	s, err := shot.Decode("s.toml", []byte(h.text()), nil)
	if err != nil {
		return nil, err
	}
	return plan.Build(s, *s.Rig)
}

// Of a way under trapezoidal velocity the area under the speed is the way: over d in T with
// ramps of Tr the speed is d / (T - Tr), and the acceleration that over Tr.
func TestTheRampIsPlannedWith(t *testing.T) {
	p, err := byHand(t, handed{})
	require.NoError(t, err)
	assert.Equal(t, "10", p.Set.Way.String())
	assert.Equal(t, "0", p.Set.Pause.String())
	assert.Zero(t, p.Set.Spare.Sign())
	e := p.Axes[0].Extremes
	assert.InDelta(t, 300./(10-2), e.Speed.Value, 1e-9)
	assert.InDelta(t, 300./(10-2)/2, math.Abs(e.Acc.Value), 1e-9)
	assert.Empty(t, p.Breaches())
	v := verify.Check(trajectory.New(p))
	assert.True(t, v.OK, "%v", v.Failed())
	assert.Empty(t, v.Steps, "nobody knows its steps")
	for _, d := range p.Defaults {
		if d.Key == "axis.rail.law" {
			assert.Equal(t, "trapezoidal with ramps of 2 s", d.Value)
		}
	}
}

// Whatever is set, the planned way is the stated ramp at every instant, by the formulas of
// even acceleration alone.
func TestEveryWayIsTheStatedRamp(t *testing.T) {
	many.Check(t, 30, func(t *rapid.T) {
		way := float64(rapid.IntRange(4, 40).Draw(t, "half seconds")) / 2
		ramp := float64(rapid.IntRange(1, int(way*5)).Draw(t, "tenths")) / 10
		pause := rapid.IntRange(0, 4).Draw(t, "pause")
		frames := int(24 * (2*way + 2*float64(pause)))
		dwell := fmt.Sprintf("dwell-far = \"%d s\"\ndwell-near = \"%d s\"", pause, pause)
		p, err := byHand(t, handed{loop: fmt.Sprintf("%d frames", frames), ramp: fmt.Sprintf("law = \"trapezoidal\"\ntime = \"%.1f s\"", ramp), move: dwell})
		require.NoError(t, err)
		v := 300 / (way - ramp)
		for k := range 50 {
			sec := way * float64(k) / 49
			want := v * (sec - ramp/2)
			switch {
			case sec < ramp:
				want = v / ramp / 2 * sec * sec
			case sec > way-ramp:
				want = 300 - v/ramp/2*(way-sec)*(way-sec)
			}
			require.InDelta(t, 40+want, p.Axes[0].Track.At(sec).Pos, 1e-9*300)
			require.InDelta(t, 340-want, p.Axes[0].Track.At(way+float64(pause)+sec).Pos, 1e-9*300)
		}
		require.InDelta(t, 340, p.Axes[0].Track.At(way+float64(pause)/2).Pos, 1e-9)
	})
}

// What it cannot do is told with what would fit.
func TestWhatItCannotDo(t *testing.T) {
	for _, c := range []struct {
		h    handed
		want string
	}{
		{handed{loop: "481 frames"}, `axis rail: a way 10.0208 s is none that its buttons offer for this loop, 1 s to 60 s in steps of 0.5 s, with rests of 0 s to 10 s in steps of 1 s; nearest: clock.loop = "480 frames" with a way of 10 s, or clock.loop = "504 frames" with a way of 10.5 s`},
		{handed{loop: "60 frames"}, `nearest: clock.loop = "192 frames" with a way of 4 s, or clock.loop = "216 frames" with a way of 4.5 s`},
		{handed{move: `law = "cycloidal"`}, `axis rail: law "cycloidal" is not how the rig goes, which has a ramp of its own, trapezoidal with ramps of 2 s; leave law out`},
		{handed{move: "law = \"trapezoidal\"\nramp = \"1/3\""}, `is not how the rig goes`},
		{handed{move: `cycles = 2`}, "cycles is 2, and a round of such a rig is once there and back"},
		{handed{move: `out-share = "1/3"`}, "out-share is 1/3, and such a rig takes as long back as out"},
		{handed{move: `phase = "1/4"`}, "phase is 1/4, and such a rig sets out from the end at which it rests"},
		{handed{move: `shaped = "zv"`}, "shaped is of no use"},
		{handed{rounds: "30", buttons: `round-trips = "1 to 20"`}, "take.rounds 30 is not among the round trips that its buttons offer; they offer 1 to 20"},
		{handed{axis: `stops = "0 mm to 600 mm in steps of 50 mm"`}, "axis rail: from 40 mm is none of the stops that it offers, 0 mm to 600 mm in steps of 50 mm; nearest: 0 mm and 50 mm"},
		{handed{axis: `distances = ["200 mm", "400 mm"]`}, "the way from end to end 300 mm is none of the distances that it offers, 200 mm, 400 mm; nearest: 200 mm and 400 mm"},
		{handed{move: `dwell-far = "1 s"`}, `and dwell-far and dwell-near = "1 s"`},
		{handed{loop: "480 frames", ramp: "law = \"trapezoidal\"\ntime = \"40 s\""}, "no loop near has one: its ramps take 80 s of each way"},
	} {
		_, err := byHand(t, c.h)
		require.Error(t, err, c.want)
		assert.Contains(t, err.Error(), c.want)
	}
	_, err := byHand(t, handed{move: "move = \"keys\"\nat = \"9 mm\""})
	require.Error(t, err)
	p, err := byHand(t, handed{move: "law = \"trapezoidal\"\nramp = \"1/5\""})
	require.NoError(t, err, "the very ramp that it has may be stated")
	assert.NotNil(t, p.Set)
}

// A clock that is slow by a tenth of a per cent makes the loop longer, and what it is
// known to grows with the round.
func TestItsClockIsMeasured(t *testing.T) {
	h := handed{buttons: "round-trips = \"endless\"\nmeasured = [\"50 rounds of 20 s in 1001 s\"]"}
	_, err := byHand(t, h)
	require.ErrorContains(t, err, `clock.loop = "481 frames" with a way of 10 s`)
	h.loop, h.rounds = "481 frames", "3"
	p, err := byHand(t, h)
	require.NoError(t, err)
	assert.Equal(t, "1001/50", p.Set.Round().String())
	slip := p.Slip()
	assert.InDelta(t, 481-20.02*24, slip.Off.Float(), 1e-9)
	assert.InDelta(t, 0.1*math.Sqrt2/1000*20.02*24, slip.Spread, 1e-3)
	// By even acceleration: twice and once as far past a round, at the worst.
	off := slip.Off.Float()/24 + 2*0.1*math.Sqrt2/1000*20.02
	a := 1 / (10.01 - 2) / 2
	assert.InDelta(t, a/2*(4*off*off-off*off), slip.Jump, 1e-3*slip.Jump+1e-9)
	assert.InDelta(t, a*off/24, slip.Kick, 1e-3*slip.Kick)
	h.rounds = "1"
	p, err = byHand(t, h)
	require.NoError(t, err)
	assert.Zero(t, p.Slip().Jump, "after its only round it stays")
	h.buttons = "measured = [\"50 rounds of 20 s in 1001 s\"]"
	p, err = byHand(t, h)
	require.NoError(t, err)
	assert.True(t, p.Set.Pressed)
	assert.Greater(t, p.Slip().Spread, 0.1*24, "each way has a press of its own")
}

// A rest at the near end hides a round that takes longer, and none that is shorter.
func TestARestHidesTheSeam(t *testing.T) {
	buttons := "round-trips = \"endless\"\npress = \"0.5 s\"\nmeasured = [\"10 rounds of 20 s in 200 s\"]"
	jump := func(move, loop, rounds string) float64 {
		p, err := byHand(t, handed{loop: loop, rounds: rounds, buttons: buttons, move: move})
		require.NoError(t, err)
		return p.Slip().Jump
	}
	assert.Greater(t, jump("", "480 frames", "1"), 0.0)
	assert.Zero(t, jump("dwell-far = \"1 s\"\ndwell-near = \"1 s\"", "528 frames", "1"))
	assert.Greater(t, jump("dwell-far = \"1 s\"\ndwell-near = \"1 s\"", "528 frames", "3"), 0.0)
}

// Two axes of one rig go together, by the same law over the same times.
func TestTwoAxesTogether(t *testing.T) {
	h := handed{axis: "[rig.axis.pan]\nkind = \"rotary\"\ntravel = [\"-90 deg\", \"90 deg\"]\nspeed = \"none\"\nacceleration = \"none\"",
		move: "[axis.pan]\nfrom = \"-5 deg\"\nto = \"10 deg\"\n"}
	p, err := byHand(t, h)
	require.NoError(t, err)
	for sec := range 10 {
		rail, pan := p.Axes[0].Track.At(float64(sec)).Pos, p.Axes[1].Track.At(float64(sec)).Pos
		assert.InDelta(t, (rail-40)/300, (pan+5)/15, 1e-12)
	}
	h.move += "dwell-far = \"1 s\"\n"
	_, err = byHand(t, h)
	require.ErrorContains(t, err, "axis pan: dwell-far and dwell-near must be those of rail: one button starts both")
	assert.Contains(t, strings.Join(p.Presses(), " "), "Set one end with rail at 40 mm, pan at -5 deg, where it sets out, and the other with rail at 340 mm, pan at 10 deg.")
}

// What to press is said for each way that a rig is started.
func TestPresses(t *testing.T) {
	words := func(h handed) string {
		p, err := byHand(t, h)
		require.NoError(t, err)
		return strings.Join(p.Presses(), "\n")
	}
	assert.Contains(t, words(handed{rounds: "3"}), "Set the time of a way to 10 s, and the pause at the ends to 0 s. Set 3 round trips after one press.")
	assert.Contains(t, words(handed{rounds: "3", buttons: `round-trips = "endless"`}), "stop it after 3 round trips.")
	each := words(handed{buttons: "lag = \"0.2 s\"\nlag-spread = \"0.1 s\"", loop: "528 frames", rounds: "2", move: "dwell-far = \"2 s\""})
	assert.Contains(t, each, "Press for the way back 2 s after it has arrived; for each of the 2 rounds press anew")
	assert.Contains(t, each, "it sets out 0.2 s after the press")
	assert.Contains(t, each, "to 7 captured frames either way", "twice the root of two squares of 0.1 s, in frames of 1/24 s")
	assert.NotContains(t, each, "To check")
	// By even acceleration from rest: 300 mm in 10 s with ramps of 2 s, 0.2 s before its end.
	assert.Contains(t, words(handed{}), "Taken so much early, the seam jumps by 0.375 mm on rail.")
	assert.Contains(t, words(handed{rounds: "3"}), "opens no seam")
	assert.Contains(t, words(handed{loop: "528 frames", move: "dwell-far = \"1 s\"\ndwell-near = \"1 s\""}), "Its rest at the near end hides as much")
}

// Other capture rates of the camera are among the offers, those that close best first.
func TestOffers(t *testing.T) {
	h := handed{rounds: "3", loop: "481 frames", buttons: "round-trips = \"endless\"\nmeasured = [\"50 rounds of 20 s in 1001 s\"]"}
	text := strings.Replace(h.text(), `capture = "24"`, "capture = \"24\"\noffers = [\"48\", \"23.976\"]", 1)
	s, err := shot.Decode("s.toml", []byte(text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	rates, last := map[string]bool{}, -1.0
	for _, o := range p.Offers() {
		rates[o.Loop.Clock.Capture.String()] = true
		slip := p.SlipOf(o)
		assert.GreaterOrEqual(t, slip.Jump, last)
		last = slip.Jump
		assert.True(t, slip.Off.Less(exact.Int(3)), slip.Off)
	}
	assert.Len(t, rates, 3)
}
