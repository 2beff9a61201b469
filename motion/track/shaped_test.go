package track

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
)

// anyTrack draws a track of every kind.
func anyTrack(t *rapid.T) *Track {
	period := exact.New(rapid.Int64Range(50, 500).Draw(t, "period"), 100)
	pick := func(label string) law.Law { return rapid.SampledFrom(law.All()).Draw(t, label) }
	var tr *Track
	var err error
	switch rapid.SampledFrom([]string{"there-and-back", "turn", "keys"}).Draw(t, "kind") {
	case "there-and-back":
		tr, err = ThereAndBack(period, ThereAndBackSpec{
			From: -5, To: 30, Out: pick("out"), Back: pick("back"), Cycles: rapid.IntRange(1, 3).Draw(t, "cycles"),
			DwellFar: period.Mul(exact.New(rapid.Int64Range(0, 8).Draw(t, "dwell"), 100)), Phase: exact.New(rapid.Int64Range(0, 9).Draw(t, "phase"), 10),
		})
	case "turn":
		tr, err = Turn(period, TurnSpec{Start: 12, Turns: exact.New(1, 6), Law: pick("law")})
	default:
		at := func(n int64) exact.Rat { return period.Mul(exact.New(n, 10)) }
		tr, err = Keys(period, KeysSpec{Keys: []Key{{Time: at(1), Pos: 3}, {Time: at(4), Pos: 20, Hold: at(1)}, {Time: at(8), Pos: -4}},
			Monotone: rapid.Bool().Draw(t, "monotone")})
	}
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

func anyRow(t *rapid.T, tr *Track) []Impulse {
	n := rapid.IntRange(1, 3).Draw(t, "impulses")
	weights, sum := make([]float64, n), 0.0
	for i := range weights {
		weights[i] = rapid.Float64Range(0.1, 1).Draw(t, "weight")
		sum += weights[i]
	}
	row := make([]Impulse, n)
	for i := range row {
		row[i] = Impulse{tr.period.Mul(exact.New(rapid.Int64Range(-999, 999).Draw(t, "delay"), 1000)), weights[i] / sum}
	}
	return row
}

// A shaped track is the sum of shares of the track, at every time and in
// every derivative that has one value there.
func TestShapedIsTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		row := anyRow(t, tr)
		s, err := Shaped(tr, row)
		require.NoError(t, err)
		assert.True(t, s.Period().Equal(tr.Period()))
		assert.True(t, s.Advance().Equal(tr.Advance()))
		e := tr.Extremes()
		for range 20 {
			at := rapid.Float64Range(-1, 2).Draw(t, "at") * tr.seconds
			var want State
			near := false
			for _, p := range row {
				x := tr.At(at - p.Delay.Float())
				want.Pos += p.Share * x.Pos
				want.Vel += p.Share * x.Vel
				want.Acc += p.Share * x.Acc
				local, _ := tr.wrap(at - p.Delay.Float())
				for _, b := range tr.Breaks() {
					near = near || math.Abs(local-b) < 1e-9
				}
			}
			if near {
				continue
			}
			got := s.At(at)
			assert.InDelta(t, want.Pos, got.Pos, 1e-10)
			assert.InDelta(t, want.Vel, got.Vel, 1e-10*math.Abs(e.Speed.Value))
			if acc := math.Abs(e.Acc.Value); !math.IsInf(acc, 0) {
				assert.InDelta(t, want.Acc, got.Acc, 1e-8*acc)
			}
		}
	})
}

func TestShapedExtremesAreReachedAndNotPassed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		s, err := Shaped(tr, anyRow(t, tr))
		require.NoError(t, err)
		e := s.Extremes()
		const samples = 500
		for k := range samples {
			x := s.At(tr.seconds * float64(k) / samples)
			assert.LessOrEqual(t, x.Pos, e.Max.Value+1e-9)
			assert.GreaterOrEqual(t, x.Pos, e.Min.Value-1e-9)
			assert.LessOrEqual(t, math.Abs(x.Vel), math.Abs(e.Speed.Value)*(1+1e-9))
			assert.LessOrEqual(t, math.Abs(x.Acc), math.Abs(e.Acc.Value)*(1+1e-7)+1e-9)
		}
		assert.InDelta(t, e.Speed.Value, speedNear(s, e.Speed.Time), 1e-6*math.Abs(e.Speed.Value)+1e-9)
		whole := tr.Extremes()
		if tr.gain == 0 {
			assert.LessOrEqual(t, e.Max.Value, whole.Max.Value+1e-9, "it goes nowhere that the track does not go")
			assert.GreaterOrEqual(t, e.Min.Value, whole.Min.Value-1e-9)
		}
		assert.LessOrEqual(t, math.Abs(e.Speed.Value), math.Abs(whole.Speed.Value)*(1+1e-9))
	})
}

// speedNear is the speed of greater size on either side of at.
func speedNear(s *Track, at float64) float64 {
	a, b := s.At(at).Vel, s.Before(at).Vel
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
}

func TestShapedSpansCoverTheLoopOneWayEach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := anyTrack(t)
		s, err := Shaped(tr, anyRow(t, tr))
		require.NoError(t, err)
		oneWayEach(t, s)
		before, after := s.Before(tr.seconds), s.At(tr.seconds)
		assert.InDelta(t, before.Pos, after.Pos, 1e-9, "it closes")
	})
}

// oneWayEach holds that the spans follow one another over the whole loop, and
// that the track goes the way each of them says.
func oneWayEach(t assert.TestingT, s *Track) {
	from := 0.0
	for _, span := range s.Spans() {
		assert.Equal(t, from, span.From)
		from = span.To
		last := s.At(span.From).Pos
		for k := 1; k < 20; k++ {
			at := span.From + (span.To-span.From)*float64(k)/20
			here := s.At(at).Pos
			assert.GreaterOrEqual(t, (here-last)*float64(span.Dir), -1e-8)
			if span.Dir == 0 {
				assert.InDelta(t, last, here, 1e-9)
			}
			last = here
		}
	}
	assert.Equal(t, s.seconds, from)
}

// A stretch is gone back over in less time than there is from one look to the
// next: both turns are found all the same.
func TestTwoTurnsBetweenLooksAreFound(t *testing.T) {
	out, err := law.Named("cycloidal")
	require.NoError(t, err)
	back, err := law.Named("harmonic")
	require.NoError(t, err)
	period := exact.New(53, 100)
	tr, err := ThereAndBack(period, ThereAndBackSpec{From: -5, To: 30, Out: out, Back: back, Cycles: 3,
		DwellFar: period.Mul(exact.New(3, 100)), Phase: exact.New(3, 10)})
	require.NoError(t, err)
	s, err := Shaped(tr, []Impulse{{period.Mul(exact.New(-409, 1000)), 5. / 6}, {period.Mul(exact.New(410, 1000)), 1. / 6}})
	require.NoError(t, err)
	oneWayEach(t, s)
}

// One impulse without a delay changes nothing.
func TestShapedByOne(t *testing.T) {
	l, err := law.Named("3-4-5")
	require.NoError(t, err)
	tr, err := ThereAndBack(exact.Int(2), ThereAndBackSpec{To: 10, Out: l, Cycles: 1, DwellFar: exact.New(1, 4)})
	require.NoError(t, err)
	s, err := Shaped(tr, []Impulse{{exact.Int(0), 1}})
	require.NoError(t, err)
	a, b := tr.Extremes(), s.Extremes()
	assert.InDelta(t, a.Acc.Value, b.Acc.Value, 1e-9)
	assert.InDelta(t, a.Jerk.Value, b.Jerk.Value, 1e-6)
	assert.Len(t, s.Dwells(), 1)
}

func TestRowsThatShapeNothing(t *testing.T) {
	tr, err := Hold(exact.Int(1), 3)
	require.NoError(t, err)
	for _, c := range []struct {
		row  []Impulse
		want string
	}{
		{nil, "0 impulses"},
		{make([]Impulse, 17), "17 impulses"},
		{[]Impulse{{exact.Int(1), 1}}, "less than the loop"},
		{[]Impulse{{exact.Int(-1), 1}}, "less than the loop"},
		{[]Impulse{{exact.Int(0), 0}}, "above 0"},
		{[]Impulse{{exact.Int(0), math.NaN()}}, "above 0"},
		{[]Impulse{{exact.Int(0), 0.5}}, "sum to 1"},
	} {
		_, err := Shaped(tr, c.row)
		assert.ErrorContains(t, err, c.want)
	}
}

func BenchmarkShaped(b *testing.B) {
	l, _ := law.Named("3-4-5")
	tr, err := ThereAndBack(exact.Int(2), ThereAndBackSpec{To: 10, Out: l, Cycles: 1, DwellFar: exact.New(1, 4)})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s, err := Shaped(tr, []Impulse{{exact.Int(0), 0.5}, {exact.New(1, 10), 0.5}})
		if err != nil {
			b.Fatal(err)
		}
		s.Extremes()
	}
}
