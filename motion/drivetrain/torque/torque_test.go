package torque_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

const (
	perTurn = 40.0 // mm
	span    = 2    // mm
	kilos   = 2.0
	// leg is how long the harmonic moves below take: a loop of 24 frames at 24 a
	// second less a dwell of an eighth, halved.
	leg = 7.0 / 16
)

var rho = perTurn / 1000 / (2 * math.Pi) // m a radian

// harmonic is the greatest acceleration of the harmonic law, pi^2/2 D/T^2, and
// its greatest speed, pi/2 D/T (Norton, Design of Machinery, cam chapter), in
// m.
var (
	harmonicAcc   = math.Pi * math.Pi / 2 * span / 1000 / (leg * leg)
	harmonicSpeed = math.Pi / 2 * span / leg // mm/s
)

func planned(t testing.TB, d *motor.Drive, moves ...shot.AxisMove) *plan.Plan {
	r := sample.Bench(rig.InverseTime)
	for i := range r.Axes {
		if r.Axes[i].Name == "rail" {
			r.Axes[i].Drive = d
		}
	}
	if len(moves) == 0 {
		moves = append(moves, sample.Rail(t, "harmonic", span))
	}
	return sample.Make(t, 24, r, moves...).Plan()
}

func drive(torques ...motor.Point) *motor.Drive {
	return &motor.Drive{PerTurn: perTurn, Load: motor.Load{Mass: kilos}, Train: motor.Ideal(), Motor: motor.Motor{Curve: torques, Reserve: 1.5}}
}

func one(t *testing.T, p *plan.Plan) torque.Axis {
	t.Helper()
	all := torque.Examine(p)
	require.Len(t, all, 1)
	return all[0]
}

// With the same torque at any speed, the worst moment is that of the greatest
// acceleration.
func TestEvenTorque(t *testing.T) {
	needs := kilos * harmonicAcc * rho
	a := one(t, planned(t, drive(motor.Point{Torque: 4 * needs}, motor.Point{Speed: 100, Torque: 4 * needs})))
	assert.Equal(t, torque.Enough, a.Level)
	assert.InEpsilon(t, needs, a.Worst.Needs, 1e-9)
	assert.InEpsilon(t, 4, a.Margin, 1e-9)
	assert.Zero(t, a.Cures)
}

// With a torque that falls evenly to nothing at n0, a harmonic motion of peak
// speed b n0 is worst where the sine of its phase is b, and the margin is
// sqrt(1-b^2) of that at rest: the greatest of cos x / (1 - b sin x).
func TestFallingTorque(t *testing.T) {
	needs := kilos * harmonicAcc * rho
	rapid.Check(t, func(r *rapid.T) {
		b := rapid.Float64Range(0.05, 0.95).Draw(r, "b")
		n0 := harmonicSpeed / perTurn / b
		a := one(t, planned(t, drive(motor.Point{Torque: 3 * needs}, motor.Point{Speed: n0})))
		require.InEpsilon(r, 3*math.Sqrt(1-b*b), a.Margin, 1e-9)
		require.InEpsilon(r, b*b*n0, a.Worst.Speed, 1e-5)
	})
}

// Inertia alone falls with the square of the time, and with the mass.
func TestCures(t *testing.T) {
	const good = 2e-3 // cures are good to a thousandth
	needs := kilos * harmonicAcc * rho
	for _, margin := range []float64{0.3, 0.9, 1.2} {
		a := one(t, planned(t, drive(motor.Point{Torque: margin * needs}, motor.Point{Speed: 100, Torque: margin * needs})))
		want := torque.Short
		if margin >= 1 {
			want = torque.Tight
		}
		assert.Equal(t, want, a.Level)
		assert.InEpsilon(t, math.Sqrt(1.5/margin), a.Cures.Slower, good)
		assert.InEpsilon(t, margin/1.5, a.Cures.Lighter, good)
		assert.InEpsilon(t, 1.5*needs, a.Cures.Torque, 1e-9)
	}
}

// Each cure, made, cures.
func TestCuresCure(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := drive(motor.Point{Torque: rapid.Float64Range(0.001, 0.01).Draw(r, "torque")}, motor.Point{Speed: rapid.Float64Range(0.1, 1).Draw(r, "end")})
		d.Load.Friction = rapid.Float64Range(0, 1).Draw(r, "friction")
		a := one(t, planned(t, d))
		if c := a.Cures.Lighter; c > 0 {
			light := *d
			light.Load.Mass *= c
			require.Equal(r, torque.Enough, one(t, planned(t, &light)).Level)
		}
		if c := a.Cures.Torque; c > 0 && !math.IsInf(a.Worst.Needs, 0) && a.Worst.Has > 0 {
			strong := *d
			strong.Motor.Curve = nil
			for _, p := range d.Motor.Curve {
				strong.Motor.Curve = append(strong.Motor.Curve, motor.Point{Speed: p.Speed, Torque: p.Torque * c / a.Worst.Has})
			}
			require.Equal(r, torque.Enough, one(t, planned(t, &strong)).Level)
		}
	})
}

func TestBeyondTheCurve(t *testing.T) {
	end := harmonicSpeed / perTurn / 2
	a := one(t, planned(t, drive(motor.Point{Torque: 10}, motor.Point{Speed: end, Torque: 10})))
	assert.Equal(t, torque.Short, a.Level)
	assert.Zero(t, a.Margin)
	assert.Greater(t, a.Worst.Speed, end)
	assert.InEpsilon(t, 2, a.Cures.Slower, 2e-3, "as slow as the curve goes")
	assert.Zero(t, a.Cures.Lighter)
}

func TestAJumpOfSpeedAsksForMoreThanAny(t *testing.T) {
	a := one(t, planned(t, drive(motor.Point{Torque: 10}, motor.Point{Speed: 100, Torque: 10}), sample.Rail(t, "uniform", span)))
	assert.Equal(t, torque.Short, a.Level)
	assert.True(t, math.IsInf(a.Worst.Needs, 1))
	assert.Zero(t, a.Margin)
	assert.Zero(t, a.Cures)
}

func TestWithoutACurve(t *testing.T) {
	a := one(t, planned(t, drive()))
	assert.Equal(t, torque.Unknown, a.Level)
	assert.InEpsilon(t, kilos*harmonicAcc*rho, a.Worst.Needs, 1e-9)
	assert.Empty(t, torque.Examine(planned(t, nil)))
}

// A holding torque below what the load turns the motor with at rest will not do,
// however slow the move.
func TestHolding(t *testing.T) {
	d := drive(motor.Point{Torque: 10}, motor.Point{Speed: 100, Torque: 10})
	d.Load.Pull = motor.Incline(kilos, 30)
	d.Motor.Holding = 0.9 * motor.Gravity * rho
	a := one(t, planned(t, d))
	assert.Equal(t, torque.Short, a.Level)
	assert.Zero(t, a.Cures.Slower)
	assert.InEpsilon(t, 0.6, a.Cures.Lighter, 2e-3)
	assert.Equal(t, motor.Nothing, a.Release.Keeper)
	assert.InDelta(t, 42, a.Travel, 1e-9, "from the far end of the move, 42 mm, down to 0")
	assert.InEpsilon(t, math.Sqrt(2*1000*motor.Gravity/2*42), a.Reaches, 1e-9)
}

func BenchmarkExamine(b *testing.B) {
	for name, need := range map[string]float64{"enough": 0.01, "with-cures": 0.0005} {
		p := planned(b, drive(motor.Point{Torque: need}, motor.Point{Speed: 1}))
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				torque.Examine(p)
			}
		})
	}
}

// TestEdgesOfTheTorque: just the reserve is enough, a little less is tight; just what is
// needed is tight, a little less is short. Not looked at is what the load does not
// state: friction that is left out is none, and the current that the driver gives.
func TestEdgesOfTheTorque(t *testing.T) {
	needs := kilos * harmonicAcc * rho
	for _, x := range []struct {
		share float64
		want  torque.Level
	}{
		{1.5 * (1 + 1e-6), torque.Enough}, {1.5 * (1 - 1e-6), torque.Tight},
		{1 + 1e-6, torque.Tight}, {1 - 1e-6, torque.Short},
	} {
		got := one(t, planned(t, drive(motor.Point{Torque: x.share * needs}, motor.Point{Speed: 100, Torque: x.share * needs})))
		assert.Equal(t, x.want, got.Level, "%v: %+v", x.share, got.Worst)
	}
}
