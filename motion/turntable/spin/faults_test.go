package spin

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

func okQuery(t require.TestingT) Query {
	return Query{Clock: slow(t, "119.88", "23.976"), From: exact.Int(4), To: exact.Int(12), Products: []Product{lantern()}}
}

// Everything wrong is an error that says what would do.
func TestFaultsSayWhatWouldDo(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Query)
		parts []string
	}{
		"no product":  {func(q *Query) { q.Products = nil }, []string{"stand is missing", "20.4 s"}},
		"no speed":    {func(q *Query) { q.Products[0].Stand.Speeds = nil }, []string{"stand stand has no speed", "20 turns in 412.3 s"}},
		"no period":   {func(q *Query) { q.Products[0].Stand.Speeds[0].Period = exact.Rat{} }, []string{"period 0 s must be above 0 s", "time a few turns"}},
		"large sigma": {func(q *Query) { q.Products[0].Stand.Speeds[0].Sigma = exact.Int(21) }, []string{"uncertainty 21 s must be", "below the period, 20.4 s", "0.05 s is usual"}},
		"as large":    {func(q *Query) { q.Products[0].Stand.Speeds[0].Sigma = exact.New(204, 10) }, []string{"uncertainty"}},
		"below 0":     {func(q *Query) { q.Products[0].Stand.Speeds[0].Sigma = exact.Int(-1) }, []string{"uncertainty"}},
		"symmetry":    {func(q *Query) { q.Products[0].Symmetry = 0 }, []string{"symmetry 0 must be 1 to 1000", "one front"}},
		"radius":      {func(q *Query) { q.Products[0].Radius = exact.Int(-4) }, []string{"radius -4 mm"}},
		"scale":       {func(q *Query) { q.Products[0].Scale = exact.Int(-4) }, []string{"scale -4 px/mm"}},
		"regulation":  {func(q *Query) { q.Products[0].Stand.Regulation = exact.Int(1) }, []string{"regulation 1 must be"}},
		"bound":       {func(q *Query) { q.Products[0].Within = Bound{exact.Int(0), Degrees} }, []string{"bound 0 deg must be above 0"}},
		"mm, no radius": {func(q *Query) {
			q.Products[0].Radius, q.Products[0].Within = exact.Rat{}, Bound{exact.Int(1), Millimetres}
		}, []string{"needs the product's radius"}},
		"px, no camera":  {func(q *Query) { q.Products[0].Scale, q.Products[0].Within = exact.Rat{}, Bound{exact.Int(1), Pixels} }, []string{"pixels a mm"}},
		"backwards":      {func(q *Query) { q.From, q.To = q.To, q.From }, []string{"range 12 s to 4 s is empty", "\"4 s\" to \"12 s\""}},
		"from nothing":   {func(q *Query) { q.From = exact.Rat{} }, []string{"range 0 s to 12 s is empty"}},
		"between frames": {func(q *Query) { q.From, q.To = exact.New(401, 100), exact.New(402, 100) }, []string{"holds no loop", "nearest last 4.004 s and 4.046 s"}},
		"too long":       {func(q *Query) { q.To = exact.Int(10_000_000) }, []string{"is too long", "must end by 417083.333 s"}},
		"cycles":         {func(q *Query) { q.Cycles = -1 }, []string{"cycles -1 must be 1 to 1000"}},
		"capture":        {func(q *Query) { q.Captures = []exact.Rat{exact.Int(-1)} }, []string{"capture -1 is no rate"}},
		"sets": {func(q *Query) {
			for i := range 17 {
				q.Products[0].Stand.Speeds = append(q.Products[0].Stand.Speeds, Speed{fmt.Sprint(i), exact.Int(20), exact.Rat{}})
			}
			q.Products = append(q.Products, q.Products[0])
		}, []string{"must have at most 256"}},
	} {
		t.Run(name, func(t *testing.T) {
			q := okQuery(t)
			c.spoil(&q)
			_, err := Find(q)
			require.Error(t, err)
			for _, part := range c.parts {
				assert.ErrorContains(t, err, part)
			}
		})
	}
}

func TestAllFaultsAtOnce(t *testing.T) {
	q := okQuery(t)
	q.Products[0].Symmetry, q.Products[0].Radius, q.Cycles = 0, exact.Int(-1), -2
	q.Products[0].Stand.Speeds[0].Period = exact.Rat{}
	assert.Len(t, q.Faults(), 4)
}

func TestParseSymmetry(t *testing.T) {
	n, err := ParseSymmetry("6")
	require.NoError(t, err)
	assert.EqualValues(t, 6, n)
	for _, text := range []string{"0", "1.5", "-6", "1001", "six", "", "6 mm"} {
		_, err := ParseSymmetry(text)
		assert.ErrorContains(t, err, "must be a whole number from 1 to 1000", text)
		assert.ErrorContains(t, err, "six alike panes")
	}
}

func TestParseDirection(t *testing.T) {
	for _, d := range []Direction{Clockwise, Anticlockwise} {
		got, err := ParseDirection(d.String())
		require.NoError(t, err)
		assert.Equal(t, d, got)
	}
	assert.EqualValues(t, -1, Clockwise.Sign())
	assert.EqualValues(t, 1, Anticlockwise.Sign())
	_, err := ParseDirection("left")
	assert.ErrorContains(t, err, "seen from above")
}

// FuzzFind throws periods, ranges and rates at the search: it returns an error
// or loops that are inside the range and in order.
func FuzzFind(f *testing.F) {
	f.Add("20.4", "0.05", "119.88", "23.976", "4", "12", int64(6))
	f.Add("0", "1", "1/2", "24", "12", "4", int64(0))
	f.Add("0.001", "0", "1000000", "1/1000000", "1", "2", int64(1000))
	f.Fuzz(func(t *testing.T, period, sigma, capture, playback, from, to string, k int64) {
		var values [6]exact.Rat
		for i, text := range []string{period, sigma, capture, playback, from, to} {
			v, err := exact.Parse(text)
			if err != nil {
				return
			}
			values[i] = v
		}
		q := okQuery(t)
		q.Clock.Capture, q.Clock.Playback = exact.Int(24), exact.Int(24)
		if c, err := newClock(values[2], values[3]); err == nil {
			q.Clock = c
		}
		q.From, q.To = values[4], values[5]
		if exact.Int(10_000).Less(q.To.Sub(q.From).Mul(q.Clock.Playback)) {
			return // it would only take long
		}
		q.Products[0].Symmetry = k
		q.Products[0].Stand.Speeds[0] = Speed{Period: values[0], Sigma: values[1]}
		a, err := Find(q)
		if err != nil {
			return
		}
		require.NotEmpty(t, a.Loops)
		for i, l := range a.Loops {
			assert.False(t, l.OnScreen().Less(q.From) || q.To.Less(l.OnScreen()))
			if i > 0 {
				assert.False(t, l.weight.Less(a.Loops[i-1].weight))
			}
		}
	})
}

func newClock(capture, playback exact.Rat) (clock.Clock, error) {
	return clock.New(capture, playback, exact.Rat{})
}
