package spin

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// The first hit that Euclid's way finds is the first that counting finds.
func TestFirstIsBruteForce(t *testing.T) {
	const far = 4000
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		a := exact.New(rapid.Int64Range(0, 5000).Draw(t, "num"), rapid.Int64Range(1, 3000).Draw(t, "den"))
		bound := exact.New(rapid.Int64Range(0, 60).Draw(t, "bound"), rapid.Int64Range(1, 9000).Draw(t, "of"))
		lo := rapid.Int64Range(0, 5000).Draw(t, "lo")
		want, any := int64(0), false
		for i := lo; i < lo+far && !any; i++ {
			turned := a.Mul(exact.Int(i))
			if !bound.Less(turned.Sub(turned.Round()).Abs()) {
				want, any = i, true
			}
		}
		got, ok := firstWithin(a, bound, lo)
		if any {
			found++
			require.True(t, ok)
			assert.Equal(t, want, got)
			return
		}
		// Residues repeat after den of them, and far is more than den.
		assert.False(t, ok, "%d", got)
	})
	assert.Positive(t, found)
}

// First agrees with Find on the first loop that closes.
func TestFirstAgreesWithFind(t *testing.T) {
	agreed := 0
	rapid.Check(t, func(t *rapid.T) {
		q := genQuery(t)
		q.Products, q.Captures, q.Most = q.Products[:1], nil, 1_000_000
		q.Products[0].Stand = q.Products[0].Stand.Only(q.Products[0].Stand.Speeds[0])
		a, err := Find(q)
		if err != nil || a.Closing == 0 {
			return
		}
		var want Loop
		for _, l := range a.Loops {
			if l.Closes() && (want.Captured == 0 || l.Captured < want.Captured) {
				want = l
			}
		}
		p := q.Products[0]
		got, ok := First(q.Clock, p, p.Stand.Speeds[0], q.From)
		require.True(t, ok)
		// First does not count a start as a match.
		if want.Seams[0].Turns.Mul(exact.Int(2 * p.Symmetry)).Less(exact.Int(1)) {
			return
		}
		agreed++
		assert.Equal(t, want.Captured, got.Captured)
	})
	assert.Positive(t, agreed)
}

// A day of loops at 120 a second takes no longer than a minute of them.
func BenchmarkFirst(b *testing.B) {
	c := slow(b, "119.88", "23.976")
	p := Product{Stand: stand(exact.New(204001, 10000)), Symmetry: 6, Within: Bound{exact.New(1, 1_000_000), Degrees}}
	for b.Loop() {
		if _, ok := First(c, p, p.Stand.Speeds[0], exact.Int(4)); !ok {
			b.Fatal("nothing")
		}
	}
}

func texts(rs []exact.Rat) []string {
	var out []string
	for _, r := range rs {
		out = append(out, r.String())
	}
	return out
}

// Published convergents: of pi (Hardy and Wright, An Introduction to the Theory
// of Numbers, chapter X; Khinchin, Continued Fractions, section 4) and of the
// root of two, whose denominators are Pell's numbers (OEIS A000129). From
// memory: 3.14159265358979324 is pi to 17 decimals, which fixes those shown.
func TestConvergentsArePublished(t *testing.T) {
	pi := exact.New(314159265358979324, 100000000000000000)
	assert.Equal(t, []string{"3", "22/7", "333/106", "355/113", "103993/33102", "104348/33215"}, texts(Convergents(pi, 33215)))
	root2 := exact.New(141421356237309505, 100000000000000000)
	assert.Equal(t, []string{"1", "3/2", "7/5", "17/12", "41/29", "99/70", "239/169"}, texts(Convergents(root2, 169)))
	assert.Equal(t, []string{"2"}, texts(Convergents(exact.Int(2), 10)))
}

// The denominators are the record holders among all frame counts, by brute force.
func TestConvergentsHoldTheRecords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := exact.New(rapid.Int64Range(1, 4000).Draw(t, "num"), rapid.Int64Range(1, 4000).Draw(t, "den"))
		const most = 600
		var records []int64
		least := exact.Int(1)
		for q := int64(1); q <= most; q++ {
			turned := x.Mul(exact.Int(q))
			if off := turned.Sub(turned.Round()).Abs(); off.Less(least) {
				least = off
				records = append(records, q)
			}
		}
		var dens []int64
		for _, c := range Convergents(x, most) {
			dens = append(dens, c.Den().Int64())
		}
		// The first two convergents may share the denominator 1, and of two
		// equally near counts the first alone is a record.
		for _, q := range records {
			assert.Contains(t, dens, q)
		}
	})
}

// Every loop of Nearer holds the record among all that are no longer, and no
// record holder of the range is left out.
func TestNearerHoldsTheRecords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := slow(t, rapid.SampledFrom([]string{"119.88", "120", "24", "60"}).Draw(t, "capture"), "23.976")
		p := Product{Symmetry: rapid.Int64Range(1, 9).Draw(t, "k")}
		v := Speed{Period: exact.New(rapid.Int64Range(100, 3000).Draw(t, "period"), 100)}
		loops := Nearer(c, p, v, 100)
		listed := map[int64]bool{}
		for _, l := range loops {
			listed[l.Captured] = true
		}
		const far = 600
		record := exact.Int(1000)
		for n := int64(1); n <= far; n++ {
			l, err := c.LoopFrames(n)
			require.NoError(t, err)
			s := p.Seam(l, v)
			half := exact.New(1, 2*p.Symmetry)
			if s.Turns.Less(half) {
				assert.False(t, listed[l.Captured], "nothing has turned far enough to match")
				continue
			}
			if s.Error.Abs().Less(record) {
				record = s.Error.Abs()
				if settled(s) {
					assert.True(t, listed[l.Captured], "%d frames", l.Captured)
				}
			} else {
				assert.False(t, listed[l.Captured], "%d frames are no record", l.Captured)
			}
		}
	})
}

// settled tells whether a loop is the nearest to its match: on the way to the
// first one every loop is a record.
func settled(s Seam) bool {
	return !exact.New(1, 2).Less(s.Frames().Abs())
}
