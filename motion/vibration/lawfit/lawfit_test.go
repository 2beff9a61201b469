package lawfit_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/law"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration/lawfit"
	"seamrail/motion/vibration/spring"
)

const bench = `shot = "Lantern"
[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
rig = "bench"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3 m/s2"
jerk = "60000 mm/s3"
steps = "80 per mm"
[rig.axis.table]
travel = "endless"
speed = "90 deg/s"
acceleration = "180 deg/s2"
steps = "10 per deg"
[axis.table]
turns = "1/6"
[axis.rail]
from = "40 mm"
to = "100 mm"
`

func subject(t require.TestingT, keys string) lawfit.Subject {
	s, err := shot.Decode("f", []byte(bench+keys), nil)
	require.NoError(t, err)
	sub, err := lawfit.New(s, *s.Rig, "rail")
	require.NoError(t, err)
	return sub
}

// What the move has is D/T, D/T2 and D/T3 times the factors of 3-4-5 (Norton,
// Design of Machinery, cam chapter): 60 mm in 0.6 s.
func TestNow(t *testing.T) {
	o := subject(t, "").Own()
	assert.Equal(t, lawfit.Now, o.Aim)
	assert.True(t, o.Within)
	assert.InEpsilon(t, 15./8*100, o.Speed, 1e-12)
	assert.InEpsilon(t, 10/math.Sqrt(3)*60/0.36, o.Acc, 1e-12)
	assert.InEpsilon(t, 60*60/0.216, o.Jerk, 1e-12)
	assert.True(t, math.IsNaN(o.Left))
}

// With a dwell, the least jerk is 32 D/T3 where no other limit is near; the least
// acceleration has no speed held, and with a limited jerk solves
// d = a T2/4 - a2 T/(2 j).
func TestClosedForms(t *testing.T) {
	const d, j = 60, 60000
	slow := subject(t, "dwell-far = \"1 frame\"\n")
	_, way := slow.Ways()
	assert.InEpsilon(t, 32*d/math.Pow(way.Seconds, 3), slow.Offer(lawfit.Jerk).Bound, 1e-9)
	t1 := way.Seconds
	a := (t1*t1/4 - math.Sqrt(t1*t1*t1*t1/16-2*d*t1/j)) * j / t1
	acc := slow.Offer(lawfit.Acceleration)
	assert.InEpsilon(t, a, acc.Bound, 1e-9)
	assert.InDelta(t, 0, acc.Excess, 1e-4)
}

// Without a dwell acceleration carries through the turns: the least jerk is that of
// the cubic, 12 D/T3, and the least acceleration solves a (1 - 4 w2/3) = 4 D/T2
// with w = a/(j T).
func TestCarriedClosedForms(t *testing.T) {
	sub := subject(t, "")
	jerk := sub.Offer(lawfit.Jerk)
	assert.Equal(t, "carried", jerk.Name)
	assert.InEpsilon(t, 12*60/0.216, jerk.Bound, 1e-9)
	assert.InDelta(t, 0, jerk.Excess, 1e-6)
	acc := sub.Offer(lawfit.Acceleration)
	w := acc.Bound / (60000 * 0.6)
	assert.InEpsilon(t, 4*60/0.36, acc.Bound*(1-4*w*w/3), 1e-9)
}

// Every offer that is there is within the limits and near its bound; and what it
// writes into the shot is the law that was told.
func TestOffers(t *testing.T) {
	for _, c := range []struct {
		out     string
		share   float64
		hz, lag float64
	}{{"1/2", 1, 6, 0.03}, {"2/5", 0.95, 12, 0}, {"0.55", 1, 25, 0}, {"3/5", 0.9, 9.3, 0.1}} {
		timing := "out-share = \"" + c.out + "\"\ndwell-far = \"6 frames\"\n"
		sub := subject(t, timing)
		sub.Share, sub.Spring = c.share, spring.Spring{Frequency: c.hz, Damping: c.lag}
		for _, o := range sub.Offers()[1:] {
			require.True(t, o.Within, "%+v", o)
			assert.GreaterOrEqual(t, o.Excess, -1e-9, o.Aim)
			assert.Less(t, o.Excess, 2e-4, o.Aim)
			keys := timing
			for _, k := range o.Keys {
				keys += k.Key + " = \"" + k.Text + "\"\n"
			}
			written := subject(t, keys)
			written.Spring = sub.Spring
			again := written.Own()
			assert.InEpsilon(t, o.Speed, again.Speed, 1e-9)
			assert.InEpsilon(t, o.Jerk, again.Jerk, 1e-9)
			assert.InDelta(t, o.Left, again.Left, 1e-9)
			if o.Aim == lawfit.Shake {
				assert.Less(t, o.Left, 1e-4, "the keys are rounded")
			}
		}
	}
}

// No named law that the rig can do goes below a bound.
func TestBoundsHold(t *testing.T) {
	sub := subject(t, "")
	acc, jerk, smear := sub.Offer(lawfit.Acceleration), sub.Offer(lawfit.Jerk), sub.Offer(lawfit.Smear)
	compared := 0
	for _, l := range law.All() {
		p := l.Peaks()
		if l.At(0).V != 0 || math.IsInf(p.J, 1) || p.J*60/0.216 > 60000 {
			continue
		}
		compared++
		assert.GreaterOrEqual(t, p.A*60/0.36, acc.Bound, l.Name())
		assert.GreaterOrEqual(t, p.J*60/0.216, jerk.Bound, l.Name())
		assert.GreaterOrEqual(t, p.V*60/0.6, smear.Bound, l.Name())
	}
	assert.Equal(t, 7, compared)
}

func TestWhatCannotBe(t *testing.T) {
	sub := subject(t, "")
	sub.Share = 0.1
	for _, aim := range []string{lawfit.Acceleration, lawfit.Jerk, lawfit.Smear, lawfit.Shake} {
		o := sub.Offer(aim)
		assert.Empty(t, o.Name, aim)
		assert.Empty(t, o.Keys, aim)
		assert.NotEmpty(t, o.Why, aim)
	}
	sub.Spring = spring.Spring{Frequency: 1.1}
	assert.Contains(t, sub.Offer(lawfit.Shake).Why, "backwards")
	s, err := shot.Decode("f", []byte(bench), nil)
	require.NoError(t, err)
	for _, axis := range []string{"table", "tilt"} {
		_, err = lawfit.New(s, *s.Rig, axis)
		assert.ErrorContains(t, err, "there and back", axis)
	}
	assert.Panics(t, func() { sub.Offer("time") })
	_, err = strconv.ParseFloat(subject(t, "").Offer(lawfit.Smear).Keys[1].Text, 64)
	assert.NoError(t, err)
}
