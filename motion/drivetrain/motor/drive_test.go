package motor

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// closed bounds rounding against a closed form.
const closed = 1e-12

// belt is 40 mm a turn: a pulley of 20 teeth of 2 mm.
func belt(l Load) Drive { return Drive{PerTurn: 40, Load: l, Train: Ideal()} }

// F r, with r = 40 mm / 2 pi: 2 kg at 3 m/s2 take 6 N.
func TestTorqueOfABelt(t *testing.T) {
	r := 0.04 / (2 * math.Pi)
	assert.InEpsilon(t, 6*r, belt(Load{Mass: 2}).Torque(100, 3000), closed)
	assert.InEpsilon(t, 7*r, belt(Load{Mass: 2, Friction: 1}).Torque(100, 3000), closed)
	assert.InEpsilon(t, -7*r, belt(Load{Mass: 2, Friction: 1}).Torque(-100, -3000), closed)
	assert.InEpsilon(t, 5*r, belt(Load{Mass: 2, Friction: 1}).Torque(-100, 3000), closed, "friction helps to slow")
	assert.InEpsilon(t, 7*r, belt(Load{Mass: 2, Friction: 1}).Torque(0, 3000), closed, "it resists the way it is about to go")
	assert.Zero(t, belt(Load{Mass: 2, Friction: 1}).Torque(0, 0))
}

// On 30 degrees gravity pulls with half the weight.
func TestTorqueOnAnIncline(t *testing.T) {
	r := 0.04 / (2 * math.Pi)
	d := belt(Load{Mass: 2, Pull: Incline(2, 30)})
	assert.InEpsilon(t, Gravity*r, d.Torque(100, 0), closed)
	assert.InEpsilon(t, Gravity*r, d.Torque(-100, 0), closed, "it holds back on the way down")
	assert.InEpsilon(t, Gravity*r, d.Standing(), closed)
	d.Load.Friction = 2
	assert.InEpsilon(t, (Gravity-2)*r, d.Standing(), closed)
}

// A rotor of 100 g cm2 at 100 rad/s2 takes 1 mN m (J alpha).
func TestTorqueOfTheRotor(t *testing.T) {
	d := Drive{Rotary: true, PerTurn: 360, Train: Ideal(), Motor: Motor{Inertia: 10}}
	assert.InEpsilon(t, 1e-3, d.Torque(1, 100*180/math.Pi), closed)
}

// Through a gear of n to 1 a load's inertia counts 1/n^2 at the shaft (Norton,
// Design of Machinery).
func TestReflectedInertia(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Float64Range(1, 100).Draw(t, "gear")
		j := rapid.Float64Range(1, 1e5).Draw(t, "kg mm2")
		d := Drive{Rotary: true, PerTurn: 360 / n, Train: Ideal(), Load: Load{Mass: j}}
		shaft := 50.0 // rad/s2 of the motor
		got := d.Torque(1, shaft/n*180/math.Pi)
		require.InEpsilon(t, j*1e-6/(n*n)*shaft, got, 1e-11)
	})
}

// No train makes work: what the motor gives is at least what the load takes, and
// what it takes back at most what the load gives.
func TestPowerIsNotMade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.Float64Range(0.05, 1).Draw(t, "efficiency")
		d := belt(Load{Mass: 2, Pull: rapid.Float64Range(-20, 20).Draw(t, "pull"), Friction: rapid.Float64Range(0, 5).Draw(t, "friction")})
		d.Train = Efficient(e)
		v := rapid.Float64Range(-400, 400).Draw(t, "v")
		a := rapid.Float64Range(-3000, 3000).Draw(t, "a")
		if v == 0 {
			v = 1
		}
		given := d.Torque(v, a) * 2 * math.Pi * v / 40
		force := 2*a/1000 + d.Load.Pull + math.Copysign(d.Load.Friction, v)
		taken := force * v / 1000
		require.GreaterOrEqual(t, given, taken-1e-9)
		if taken > 0 {
			require.InDelta(t, taken/e, given, 1e-9*math.Abs(given)+1e-12)
		}
	})
}

func TestAPullThatTurnsRoundCountsTheWorseWay(t *testing.T) {
	d := Drive{Rotary: true, PerTurn: 4, Train: Ideal(), Load: Load{Mass: 4000, Pull: 0.3, EitherWay: true}}
	one, other := d, d
	one.Load.EitherWay, other.Load.EitherWay, other.Load.Pull = false, false, -0.3
	rapid.Check(t, func(t *rapid.T) {
		v, a := rapid.Float64Range(-90, 90).Draw(t, "v"), rapid.Float64Range(-400, 400).Draw(t, "a")
		want := max(math.Abs(one.Torque(v, a)), math.Abs(other.Torque(v, a)))
		require.InDelta(t, want, math.Abs(d.Torque(v, a)), 1e-15)
	})
}

func TestCurve(t *testing.T) {
	m := Motor{Curve: []Point{{1, 0.4}, {5, 0.3}, {10, 0.1}}}
	for speed, want := range map[float64]float64{0: 0.4, 1: 0.4, 3: 0.35, 5: 0.3, 7.5: 0.2, 10: 0.1, 10.01: 0} {
		assert.InDelta(t, want, m.At(speed), 1e-15, "%g", speed)
	}
	assert.Zero(t, Motor{}.At(0))
	assert.InDelta(t, 10, belt(Load{}).Speed(-400), 1e-15)
}
