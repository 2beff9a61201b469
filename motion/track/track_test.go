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

func TestSampledValuesNeverPassTheExtremes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		e, end := tr.Extremes(), tr.Period().Float()
		reach := math.Max(math.Abs(e.Min.Value), math.Abs(e.Max.Value))
		low, high, top := math.Inf(1), math.Inf(-1), track.State{}
		for i := range samples {
			s := tr.At(end * float64(i) / samples)
			low, high = math.Min(low, s.Pos), math.Max(high, s.Pos)
			top.Vel = math.Max(top.Vel, math.Abs(s.Vel))
			top.Acc = math.Max(top.Acc, math.Abs(s.Acc))
			top.Jerk = math.Max(top.Jerk, math.Abs(s.Jerk))
		}
		assert.LessOrEqual(t, high, e.Max.Value+rounding*reach, "position")
		assert.GreaterOrEqual(t, low, e.Min.Value-rounding*reach, "position")
		assert.LessOrEqual(t, top.Vel, math.Abs(e.Speed.Value)*(1+rounding), "speed")
		// A steady turn has no acceleration but for the rounding of its speed.
		blur := rounding * math.Abs(e.Speed.Value) / end
		assert.LessOrEqual(t, top.Acc, math.Abs(e.Acc.Value)*(1+rounding)+blur, "acceleration")
		assert.LessOrEqual(t, top.Jerk, math.Abs(e.Jerk.Value)*(1+rounding)+blur/end, "jerk")
	})
}

func TestExtremesAreReachedWhereTheySay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		e := tr.Extremes()
		reach := math.Max(math.Abs(e.Min.Value), math.Abs(e.Max.Value))
		reached := func(p track.Peak, of func(track.State) float64, slack float64, what string) {
			if math.IsInf(p.Value, 0) {
				return
			}
			a, b := of(tr.At(p.Time)), of(tr.Before(p.Time))
			if p.Time == 0 {
				b = a
			}
			near := math.Min(math.Abs(a-p.Value), math.Abs(b-p.Value))
			within(t, 0, near, slack, "%s %v at %v s", what, p.Value, p.Time)
		}
		pos := func(s track.State) float64 { return s.Pos }
		reached(e.Min, pos, rounding*reach, "least position")
		reached(e.Max, pos, rounding*reach, "greatest position")
		reached(e.Speed, func(s track.State) float64 { return s.Vel }, joint*math.Abs(e.Speed.Value), "speed")
		reached(e.Acc, func(s track.State) float64 { return s.Acc }, joint*math.Abs(e.Acc.Value), "acceleration")
	})
}

func TestEveryTrackClosesAndRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		end, gain := tr.Period().Float(), tr.Advance().Float()
		start := tr.At(0)
		e := tr.Extremes()
		slack := rounding * (math.Abs(e.Min.Value) + math.Abs(e.Max.Value) + math.Abs(gain))
		within(t, start.Pos+gain, tr.Before(end).Pos, slack, "seam")
		next := tr.At(end)
		assert.Equal(t, start.Pos+gain, next.Pos)
		assert.Equal(t, start.Vel, next.Vel)
		sec := end * rapid.Float64Range(0, 1).Draw(t, "time")
		// A time three rounds on is itself rounded, and the axis moves meanwhile.
		moved := 8 * end * 0x1p-52 * math.Abs(e.Speed.Value)
		within(t, tr.At(sec).Pos-3*gain, tr.At(sec-3*end).Pos, slack+moved, "three rounds before")
		within(t, tr.At(sec).Pos+2*gain, tr.At(sec+2*end).Pos, slack+moved, "two rounds on")
	})
}

func TestSpansAreMonotoneAndCoverTheLoop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		e := tr.Extremes()
		slack := 1e-10 * (math.Abs(e.Min.Value) + math.Abs(e.Max.Value)) // ten times what Spans calls rounding
		at, dir := 0.0, 7
		for _, s := range tr.Spans() {
			require.Equal(t, at, s.From)
			require.Greater(t, s.To, s.From)
			require.NotEqual(t, dir, s.Dir, "neighbours go different ways")
			at, dir = s.To, s.Dir
			c := tr.Cursor(s)
			before, _, _ := c.At(s.From)
			for i := 1; i <= 200; i++ {
				pos, _, _ := c.At(s.From + (s.To-s.From)*float64(i)/200)
				if s.Dir == 0 {
					within(t, before, pos, slack, "at rest")
				}
				require.GreaterOrEqual(t, (pos-before)*float64(s.Dir), -slack, "direction %d", s.Dir)
				before = pos
			}
		}
		require.Equal(t, tr.Period().Float(), at)
	})
}

func TestCursorAgreesWithTrack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		for _, s := range tr.Spans() {
			c := tr.Cursor(s)
			for i := range 20 {
				sec := s.From + (s.To-s.From)*float64(i)/20
				want := tr.At(sec)
				pos, vel, acc := c.At(sec)
				require.Equal(t, [3]float64{want.Pos, want.Vel, want.Acc}, [3]float64{pos, vel, acc})
			}
			want := tr.Before(s.To)
			pos, vel, _ := c.At(s.To)
			require.Equal(t, [2]float64{want.Pos, want.Vel}, [2]float64{pos, vel})
		}
	})
}

func TestBreaksRiseFromStartToEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		b := tr.Breaks()
		require.Equal(t, 0.0, b[0])
		within(t, tr.Period().Float(), b[len(b)-1], rounding*tr.Period().Float(), "last break")
		for i := 1; i < len(b); i++ {
			require.Greater(t, b[i], b[i-1])
		}
	})
}

// Between breaks each derivative is the slope of the one below it.
func TestDerivativesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		e := tr.Extremes()
		b := tr.Breaks()
		for i := 1; i < len(b); i++ {
			mid, h := (b[i]+b[i-1])/2, (b[i]-b[i-1])*1e-3
			lo, at, hi := tr.At(mid-h), tr.At(mid), tr.At(mid+h)
			// Central differences err by h^2/6 times the third derivative, by
			// the rounding of values over h, and by that of the times.
			third := math.Abs(tr.At(b[i-1]).Jerk) + math.Abs(at.Jerk) + math.Abs(tr.Before(b[i]).Jerk)
			clock := 1e-13 + 4*0x1p-52*tr.Period().Float()/h
			noise := 1e-15 * (math.Abs(e.Min.Value) + math.Abs(e.Max.Value)) / h
			within(t, at.Vel, (hi.Pos-lo.Pos)/(2*h), h*h*third+noise+clock*math.Abs(e.Speed.Value), "velocity")
			// On a quintic piece jerk is a parabola, and its slope at most eight
			// times its greatest value over the length: h^2/6 of that is 0.0014
			// of h times it.
			within(t, at.Acc, (hi.Vel-lo.Vel)/(2*h), (1e-4+clock)*math.Abs(at.Acc)+(2e-3+clock)*h*third+1e-13*math.Abs(e.Speed.Value)/h, "acceleration")
			within(t, at.Jerk, (hi.Acc-lo.Acc)/(2*h), (1e-4+clock)*(third+math.Abs(at.Acc)/h)+1e-13*(math.Abs(lo.Acc)+math.Abs(hi.Acc)+math.Abs(e.Speed.Value)/(b[i]-b[i-1]))/h, "jerk")
		}
	})
}

func TestHold(t *testing.T) {
	tr := must(t)(track.Hold(exact.Int(6), 12.5))
	assert.Equal(t, track.State{Pos: 12.5}, tr.At(3))
	assert.Equal(t, track.State{Pos: 12.5}, tr.Before(6))
	assert.Equal(t, []track.Span{{From: 0, To: 6}}, tr.Spans())
	assert.Equal(t, []track.Interval{{From: 0, To: 6}}, tr.Dwells())
	assert.Equal(t, track.Extremes{Min: track.Peak{Value: 12.5}, Max: track.Peak{Value: 12.5}}, tr.Extremes())
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		_, err := track.Hold(exact.Int(6), bad)
		assert.ErrorContains(t, err, "finite")
	}
	_, err := track.Hold(exact.Int(0), 1)
	assert.ErrorContains(t, err, "longer than 0 s")
}

func TestTurn(t *testing.T) {
	sixth := exact.New(1, 6)
	tr := must(t)(track.Turn(exact.New(6, 5), track.TurnSpec{Start: 10, Turns: sixth, Law: named(t, "uniform")}))
	assert.True(t, exact.Int(60).Equal(tr.Advance()))
	assert.Equal(t, 70.0, tr.Before(1.2).Pos)
	assert.Equal(t, 10.0, tr.At(0).Pos)
	assert.Equal(t, 10+60*5000.0, tr.At(1.2*5000).Pos)
	e := tr.Extremes()
	assert.Equal(t, track.Peak{Value: 50}, e.Speed)
	assert.Equal(t, track.Peak{}, e.Acc)
	assert.Equal(t, track.Peak{}, e.Jerk)
	assert.Equal(t, []track.Span{{From: 0, To: 1.2, Dir: 1}}, tr.Spans())
	assert.Empty(t, tr.Dwells())

	back := must(t)(track.Turn(exact.Int(2), track.TurnSpec{Turns: exact.Int(-1), Law: named(t, "harmonic")}))
	e = back.Extremes()
	within(t, -180*math.Pi/2, e.Speed.Value, rounding*300, "speed")
	assert.Equal(t, 1.0, e.Speed.Time)
	assert.True(t, math.IsInf(e.Jerk.Value, 1), "harmonic starts and stops at once")

	for want, spec := range map[string]track.TurnSpec{
		"use a hold":   {Law: named(t, "uniform")},
		"motion law":   {Turns: sixth},
		"finite angle": {Start: math.NaN(), Turns: sixth, Law: named(t, "uniform")},
	} {
		_, err := track.Turn(exact.Int(1), spec)
		assert.ErrorContains(t, err, want)
	}
}
