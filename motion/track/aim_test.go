package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

func sights() *rapid.Generator[track.Sight] {
	return rapid.Custom(func(t *rapid.T) track.Sight {
		return track.Sight{
			Along: rapid.Float64Range(-300, 300).Draw(t, "along"),
			Away:  rapid.Float64Range(50, 900).Draw(t, "away"),
			Up:    rapid.Float64Range(-300, 300).Draw(t, "up"),
		}
	})
}

// Each derivative of a jet is held against the central difference of the one
// below it, whose error is h^2/6 times the third derivative: a few parts in a
// million here.
func TestSightDerivativesAreThoseOfDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sights().Draw(t, "sight")
		ring := track.RingThrough(60, track.Mark{Distance: 200, Place: 30}, track.Mark{Distance: 900, Place: 10})
		u := s.Along + rapid.Float64Range(-600, 600).Draw(t, "off")
		if s.Distance(u)[0] < 120 { // no lens of 60 mm is sharp there
			u = s.Along + 600
		}
		for name, f := range map[string]func(float64) track.Jet{
			"pan": s.Pan, "tilt": s.Tilt, "distance": s.Distance,
			"focus": func(x float64) track.Jet { return ring.Place(s, x) },
		} {
			derivatives(t, name, f, u, 0.05)
		}
		derivatives(t, "arc", s.Arc, rapid.Float64Range(-70, 70).Draw(t, "heading"), 0.005)
	})
}

func derivatives(t *rapid.T, name string, f func(float64) track.Jet, x, h float64) {
	before, at, after := f(x-h), f(x), f(x+h)
	for d := 1; d < 4; d++ {
		size := math.Abs(before[d]) + math.Abs(after[d]) + math.Abs(at[d])
		spread := math.Abs(before[d] - 2*at[d] + after[d])
		blur := 1e-13 * (math.Abs(at[d-1]) + 1) / h
		assert.InDelta(t, (after[d-1]-before[d-1])/(2*h), at[d], spread+1e-4*size+blur, "%s, derivative %d at %v", name, d, x)
	}
}

// Right-angled triangles with whole sides: 3-4-5 on the flat, and 5-12-13 from
// it up.
func TestSightsOfTriangles(t *testing.T) {
	s := track.Sight{Along: 100, Away: 400, Up: 1200}
	assert.InDelta(t, math.Atan(0.75)*180/math.Pi, s.Pan(400)[0], 1e-12, "the lens is 300 mm to the right, and looks back to the left")
	assert.InDelta(t, -math.Atan(0.75)*180/math.Pi, s.Pan(-200)[0], 1e-12)
	assert.InDelta(t, math.Atan(1200.0/500)*180/math.Pi, s.Tilt(400)[0], 1e-12)
	assert.InDelta(t, 1300, s.Distance(400)[0], 1e-12)
	assert.InDelta(t, 500, s.Arc(45)[0], 1e-12)
}

// A ring is at both of the marks it was made from; between them it follows the
// thin lens: for f = 50, extensions at 150, 300 and 550 mm are 25, 10 and 5 mm.
func TestRingFollowsTheThinLens(t *testing.T) {
	r := track.RingThrough(50, track.Mark{Distance: 150, Place: 110}, track.Mark{Distance: 550, Place: 10})
	flat := func(u float64) float64 { return r.Place(track.Sight{Away: u}, 0)[0] }
	assert.InDelta(t, 110, flat(150), 1e-12)
	assert.InDelta(t, 10, flat(550), 1e-12)
	assert.InDelta(t, 35, flat(300), 1e-12)
}

func TestAimFollowsTheCarriage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		carriage, s := thereAndBack(t), sights().Draw(t, "sight")
		pan, err := track.Aim(carriage, s.Pan)
		require.NoError(t, err)
		end := carriage.Period().Float()
		for range 50 {
			sec := rapid.Float64Range(0, end).Draw(t, "at")
			want := s.Pan(carriage.At(sec).Pos).Of(carriage.At(sec))
			assert.InDelta(t, want.Pos, pan.At(sec).Pos, 2*track.FineSlack.Pos)
			// No speed or acceleration that the chain rule gives passes the
			// extremes of the track by more than the stated slack.
			e := pan.Extremes()
			assert.LessOrEqual(t, math.Abs(want.Vel), math.Abs(e.Speed.Value)*(1+track.FineSlack.Acc)+1e-12)
			assert.LessOrEqual(t, math.Abs(want.Acc), math.Abs(e.Acc.Value)*(1+2*track.FineSlack.Acc)+1e-12)
		}
		// The seam inherits: what the carriage is continuous in, so is the pan.
		at, before := s.Pan(carriage.At(0).Pos).Of(carriage.At(0)), s.Pan(carriage.Before(end).Pos).Of(carriage.Before(end))
		e := pan.Extremes()
		assert.InDelta(t, at.Pos, pan.At(0).Pos, 1e-9)
		assert.InDelta(t, before.Vel, pan.Before(end).Vel, joint*math.Abs(e.Speed.Value))
		assert.InDelta(t, at.Vel, pan.At(0).Vel, joint*math.Abs(e.Speed.Value))
	})
}

// Sideways past a point at an even speed v, a distance d away, the pan is
// fastest when abeam, at v/d rad/s, and speeds up most at w = d/sqrt(3), by
// 3 sqrt(3)/8 v^2/d^2 rad/s^2: the derivatives of atan(w/d) (elementary).
func TestAimExtremesAreThoseOfTheArcTangent(t *testing.T) {
	const v, d = 240.0, 300.0
	pass, err := track.Through(exact.Int(4), track.ThroughSpec{From: 0, To: 960, Law: named(t, "uniform")})
	require.NoError(t, err)
	pan, err := track.Aim(pass, track.Sight{Along: 480, Away: d}.Pan)
	require.NoError(t, err)
	e := pan.Extremes()
	k := 180 / math.Pi
	assert.InDelta(t, v/d*k, e.Speed.Value, 1e-6)
	assert.InDelta(t, 2, e.Speed.Time, 1e-4)
	top := 0.0
	for sec := 0.0; sec < 4; sec += 1e-4 {
		top = max(top, math.Abs(pan.At(sec).Acc))
	}
	assert.InEpsilon(t, 3*math.Sqrt(3)/8*v*v/(d*d)*k, top, 2e-6)
}

func TestArcTurnsTheViewByItsLaw(t *testing.T) {
	s := track.Sight{Along: 200, Away: 350}
	spec := track.ThereAndBackSpec{From: -25, To: 35, Out: named(t, "cycloidal"), Cycles: 1, DwellFar: exact.New(1, 3)}
	rail, err := track.Arc(exact.Int(6), s, spec)
	require.NoError(t, err)
	pan, err := track.Aim(rail, s.Pan)
	require.NoError(t, err)
	headings := must(t)(track.ThereAndBack(exact.Int(6), spec))
	for sec := 0.0; sec < 6; sec += 0.01 {
		assert.InDelta(t, headings.At(sec).Pos, pan.At(sec).Pos, 4e-9, "at %v s", sec)
	}
	assert.InDelta(t, s.Along+s.Away*math.Tan(35*math.Pi/180), rail.Extremes().Max.Value, 1e-9)
}

func TestAimsThatCannotBe(t *testing.T) {
	for name, f := range map[string]func() error{
		"behind": func() error { return track.Sight{Away: -1}.Check() },
		"nan":    func() error { return track.Sight{Away: math.NaN()}.Check() },
		"steep": func() error {
			_, err := track.Arc(exact.Int(1), track.Sight{Away: 1}, track.ThereAndBackSpec{From: 0, To: 85, Out: named(t, "3-4-5"), Cycles: 1})
			return err
		},
		"a turning carriage": func() error {
			turn := must(t)(track.Turn(exact.Int(1), track.TurnSpec{Turns: exact.Int(1), Law: named(t, "uniform")}))
			_, err := track.Aim(turn, track.Sight{Away: 1}.Pan)
			return err
		},
	} {
		assert.Error(t, f(), name)
	}
}
