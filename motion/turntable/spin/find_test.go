package spin

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample/many"
)

func rate(t require.TestingT, s string) exact.Rat {
	r, err := clock.ParseRate(s)
	require.NoError(t, err)
	return r
}

func slow(t require.TestingT, capture, playback string) clock.Clock {
	c, err := clock.New(rate(t, capture), rate(t, playback), exact.Rat{})
	require.NoError(t, err)
	return c
}

func stand(periods ...exact.Rat) Stand {
	s := Stand{Name: "stand"}
	for i, p := range periods {
		s.Speeds = append(s.Speeds, Speed{Name: string(rune('a' + i)), Period: p})
	}
	return s
}

// A stand of 20.4 s, six alike panes, captured at 119.88: a pane takes
// 20.4/6*120000/1001 = 408000/1001 = 407.592 captured frames, by hand.
func TestFindByHand(t *testing.T) {
	q := Query{
		Clock: slow(t, "119.88", "23.976"), From: exact.Int(4), To: exact.Int(80),
		Products: []Product{{Stand: stand(exact.New(204, 10)), Symmetry: 6}},
	}
	a, err := Find(q)
	require.NoError(t, err)
	// 80 s at 23.976 are 1918 whole frames, 4 s begin at 96.
	assert.EqualValues(t, 1918-96+1, a.Considered)
	require.NotEmpty(t, a.Loops)
	first := a.Loops[0]
	// 2 panes: 815.18 frames, 815 is 0.185 off; 3: 1222.78, 1223 is 0.222 off;
	// 1: 407.59, 408 is 0.408 off; 4: 1630.37, 1630 is 0.368 off.
	assert.EqualValues(t, 815, first.Captured)
	s := first.Seams[0]
	assert.EqualValues(t, 2, s.Match)
	assert.True(t, s.Frames().Equal(exact.Int(815).Sub(exact.New(2*408000, 1001))), s.Frames().String())
	assert.True(t, s.Error.Equal(exact.Int(815).Mul(exact.New(1001, 120000)).Quo(exact.New(204, 10)).Sub(exact.New(1, 3))))
	assert.True(t, s.Degrees().Equal(s.Error.Mul(exact.Int(360))))
	assert.Equal(t, []int64{815, 1223, 1630}, []int64{a.Loops[0].Captured, a.Loops[1].Captured, a.Loops[2].Captured})
}

// A table that turns once in ten seconds closes exactly each second, filmed at
// 24: what a programmable table would do.
func TestFindExactOnesFirstAndShortestFirst(t *testing.T) {
	q := Query{
		Clock: slow(t, "24", "24"), From: exact.Int(1), To: exact.Int(6), Most: 3,
		Products: []Product{{Stand: stand(exact.Int(10)), Symmetry: 10}},
	}
	a, err := Find(q)
	require.NoError(t, err)
	assert.EqualValues(t, 6, a.Closing)
	assert.Empty(t, a.Fits)
	for i, l := range a.Loops {
		assert.EqualValues(t, 24*(i+1), l.Captured)
		assert.True(t, l.Sure())
		_, ever := l.Seams[0].Shows()
		assert.False(t, ever)
	}
}

// genQuery draws small queries of every kind.
func genQuery(t *rapid.T) Query {
	rates := []string{"23.976", "24", "25", "29.97", "30", "59.94", "119.88", "120", "1/2"}
	c, err := clock.New(rate(t, rapid.SampledFrom(rates).Draw(t, "capture")),
		rate(t, rapid.SampledFrom(rates).Draw(t, "playback")), exact.New(rapid.Int64Range(0, 5).Draw(t, "retime"), 4))
	if err != nil {
		t.Skip(err)
	}
	q := Query{Clock: c, Cycles: rapid.Int64Range(0, 6).Draw(t, "cycles"), Most: rapid.IntRange(1, 9).Draw(t, "most")}
	q.From = exact.New(rapid.Int64Range(1, 40).Draw(t, "from"), 4)
	q.To = q.From.Add(exact.New(rapid.Int64Range(0, 8).Draw(t, "span"), 4))
	for range rapid.IntRange(0, 2).Draw(t, "others") {
		q.Captures = append(q.Captures, rate(t, rapid.SampledFrom(rates).Draw(t, "other")))
	}
	for range rapid.IntRange(1, 3).Draw(t, "products") {
		p := Product{Symmetry: rapid.Int64Range(1, 9).Draw(t, "k")}
		for range rapid.IntRange(1, 2).Draw(t, "speeds") {
			period := exact.New(rapid.Int64Range(1, 500).Draw(t, "p"), rapid.Int64Range(1, 60).Draw(t, "d"))
			p.Stand.Speeds = append(p.Stand.Speeds, Speed{Period: period, Sigma: period.Mul(exact.New(rapid.Int64Range(0, 3).Draw(t, "u"), 1000))})
		}
		if rapid.Bool().Draw(t, "camera") {
			p.Radius, p.Scale = exact.Int(45), exact.New(rapid.Int64Range(1, 400).Draw(t, "scale"), 10)
		}
		q.Products = append(q.Products, p)
	}
	return q
}

// brute finds the same by asking the clock about every frame count, with the one
// before and the one after, and by sorting everything: it shares nothing with the
// search but Seam.
func brute(q Query) (loops []Loop, closing, considered int64) {
	var rest []Loop
	for _, c := range q.clocks() {
		for _, speeds := range q.combinations() {
			l, r, n := bruteOne(q, c, speeds)
			loops, rest, considered = append(loops, l...), append(rest, r...), considered+n
		}
	}
	if len(loops) == 0 {
		loops, q.Most = rest, min(q.Most, spare)
	}
	for _, l := range loops {
		if l.Closes() {
			closing++
		}
	}
	// Insertion keeps what is equal in order.
	for i := 1; i < len(loops); i++ {
		for k := i; k > 0; k-- {
			a, b := loops[k-1], loops[k]
			if order := b.weight.Cmp(a.weight); order > 0 || order == 0 && !b.OnScreen().Less(a.OnScreen()) {
				break
			}
			loops[k-1], loops[k] = b, a
		}
	}
	return loops[:min(len(loops), q.Most)], closing, considered
}

// bruteOne returns the loops of one clock and speeds: the matches and those that
// close, the rest, and how many there are.
func bruteOne(q Query, c clock.Clock, speeds []Speed) (matches, rest []Loop, n int64) {
	worst := func(l Loop) exact.Rat {
		var out exact.Rat
		for _, s := range l.Seams {
			if share := s.Error.Quo(s.Bound).Abs(); out.Less(share) {
				out = share
			}
		}
		return out
	}
	// The nearest whole loop on either side may be many frames away.
	next := func(n, by int64) (Loop, bool) {
		for n += by; n > 0; n += by {
			if l, err := c.LoopFrames(n); err == nil {
				return q.build(l, speeds), true
			}
		}
		return Loop{}, false
	}
	last := q.To.Mul(c.Playback).Floor().Whole()
	for f := q.From.Mul(c.Playback).Ceil().Whole(); f <= last; f++ {
		l, err := c.LoopFrames(f)
		if err != nil {
			continue // not whole in captured frames
		}
		n++
		built := q.build(l, speeds)
		before, has := next(f, -1)
		after, _ := next(f, 1)
		match := (!has || !worst(before).Less(worst(built))) && worst(built).Less(worst(after))
		if match || built.Closes() {
			matches = append(matches, built)
		} else {
			rest = append(rest, built)
		}
	}
	return matches, rest, n
}

// The search misses nothing: it agrees with brute force over all frame counts in
// what it returns, in what closes and in how many loops there are.
func TestFindIsComplete(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := genQuery(t)
		if err := q.Faults().Err(); err != nil {
			loops, _, _ := brute(q)
			require.Empty(t, loops, "%v, yet there are loops", err)
			return
		}
		q.Cycles = max(1, q.Cycles)
		a := q.search()
		loops, closing, considered := brute(q)
		assert.Equal(t, considered, a.Considered)
		assert.Equal(t, closing, a.Closing)
		require.Len(t, a.Loops, len(loops))
		for i, want := range loops {
			got := a.Loops[i]
			assert.Equal(t, want.Captured, got.Captured, "loop %d", i)
			assert.True(t, want.weight.Equal(got.weight))
			assert.True(t, want.Clock.Capture.Equal(got.Clock.Capture))
			for k := range want.Seams {
				assert.Equal(t, want.Seams[k].Speed.Period.String(), got.Seams[k].Speed.Period.String())
			}
		}
	})
}

// Every error is that of the frame count itself: the captured frames less m faces.
func TestSeamIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := genQuery(t)
		if len(q.Faults()) > 0 {
			return
		}
		for _, l := range q.search().Loops {
			for _, s := range l.Seams {
				k := exact.Int(s.Product.Symmetry)
				face := s.Speed.Period.Mul(l.Clock.Capture).Quo(k) // in captured frames
				off := exact.Int(l.Captured).Sub(exact.Int(s.Match).Mul(face))
				assert.True(t, off.Equal(s.Frames()), "%s and %s", off, s.Frames())
				if s.Match > 1 {
					assert.False(t, face.Less(off.Abs().Mul(exact.Int(2))), "another match is nearer")
				}
			}
		}
	})
}

// Where nothing closes, what is proposed does.
func TestFitsClose(t *testing.T) {
	found := map[string]int{}
	count := func(t require.TestingT, q Query) {
		a, err := Find(q)
		if err != nil || a.Closing > 0 {
			return
		}
		for _, f := range a.Fits {
			if f.Loop != nil {
				found[f.Kind]++
				fitHolds(t, q, f)
			}
		}
	}
	count(t, nearMiss(t))
	for _, kind := range []string{"longer", "symmetry", "rate"} {
		assert.Positive(t, found[kind], kind)
	}
	many.Check(t, 30, func(t *rapid.T) { count(t, genQuery(t)) })
}

// nearMiss is a stand that misses its match by little, so that each kind of
// change makes it close.
func nearMiss(t *testing.T) Query {
	c, err := clock.New(exact.New(120000, 1001), exact.New(24000, 1001), exact.Rat{})
	require.NoError(t, err)
	p := Product{Symmetry: 6, Radius: exact.Int(45), Scale: exact.Int(12)}
	p.Stand.Speeds = []Speed{{Period: exact.New(73, 10)}}
	return Query{Clock: c, From: exact.Int(4), To: exact.Int(12), Products: []Product{p}}
}

func fitHolds(t require.TestingT, q Query, f Fit) {
	assert.True(t, f.Loop.Closes(), f.Text)
	switch f.Kind {
	case "rate":
		assert.False(t, f.Loop.OnScreen().Less(q.From) || q.To.Less(f.Loop.OnScreen()))
		assert.False(t, f.Loop.Clock.Capture.Equal(q.Clock.Capture))
	case "longer":
		assert.True(t, q.To.Less(f.Loop.OnScreen()))
	case "symmetry":
		assert.Less(t, q.Products[0].Symmetry, f.Loop.Seams[0].Product.Symmetry)
	}
}

// BenchmarkSearch looks through a long range, and BenchmarkFind through a usual
// one in which nothing closes, with what would.
func BenchmarkSearch(b *testing.B) {
	q := benchQuery(b, 40_000)
	var loops int64
	for b.Loop() {
		loops += q.search().Considered
	}
	b.ReportMetric(float64(loops)/b.Elapsed().Seconds(), "loops/s")
}

func BenchmarkFind(b *testing.B) {
	q := benchQuery(b, 30)
	for b.Loop() {
		if a, err := Find(q); err != nil || len(a.Fits) == 0 {
			b.Fatal(err)
		}
	}
}

func benchQuery(b *testing.B, to int64) Query {
	return Query{
		Clock: slow(b, "119.88", "23.976"), From: exact.Int(4), To: exact.Int(to), Cycles: 1, Most: DefaultMost,
		Products: []Product{{Stand: stand(exact.New(204, 10)), Symmetry: 6, Radius: exact.Int(45), Scale: exact.Int(80)}},
	}
}

// What no loop stands for has not been planned, and is not told as if it were.
func TestOffers(t *testing.T) {
	assert.Equal(t, "worked out, not planned: a trimmed rate", Fit{Text: "a trimmed rate"}.Offer())
	assert.Equal(t, "would close: a loop", Fit{Text: "a loop", Loop: &Loop{}}.Offer())
}
