package pace

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
)

// Takes that go by their plan's times are mostly said to, never said not to, and frame 0 is found: within a fifth of a frame
// where they are clean, half of one where they are bad.
func TestTakesByTheirTimesAreFound(t *testing.T) {
	n := many.Times(1, 100)
	for name, within := range map[string]float64{"clean": 0.2, "bad": 0.5} {
		t.Run(name, func(t *testing.T) {
			said, worst, sum := 0, 0.0, 0.0
			for i := range n {
				_, s := newDrawing(uint64(i)).take(name == "bad")
				r, err := Lay(s.film(t), nil, s.plan)
				require.NoError(t, err)
				off := r.Frame0.Value - s.zero
				assert.Less(t, math.Abs(off), within, "%d %s", i, r.Verdict.Text)
				worst, sum = max(worst, math.Abs(off)), sum+off*off/(r.Frame0.Sure*r.Frame0.Sure)
				assert.NotEqual(t, Differs, r.Verdict.Kind, "%d %s", i, r.Verdict.Text)
				if r.Verdict.Kind == ByTimes {
					said++
				} else {
					t.Log(i, r.Verdict.Text)
				}
				if testing.Verbose() {
					t.Logf("%d off %.3f sure %.3f", i, off, r.Frame0.Sure)
				}
			}
			least := map[string]int{"clean": n * 9 / 10, "bad": n * 3 / 4} // of takes that nothing was fitted to, all and 82 of a hundred
			assert.GreaterOrEqual(t, said, min(least[name], n-1))
			t.Logf("%d of %d said, worst %.3f, off in sigmas %.2f", said, n, worst, math.Sqrt(sum/float64(n)))
		})
	}
}

// Takes that do not are never said to.
func TestNoOtherTakeGoesByTheTimes(t *testing.T) {
	n := many.Times(1, 100)
	told := map[string]int{}
	for i := range n {
		d, o := newDrawing(uint64(1000+i)), others[i%len(others)]
		sh, s := d.take(i%2 == 1)
		o.do(d, sh, &s)
		r, err := Lay(s.film(t), nil, s.plan)
		require.NoError(t, err)
		assert.NotEqual(t, ByTimes, r.Verdict.Kind, "%d %s rounds %d law %s: %s laws %v rate %v", i, o.name, s.plan.Rounds, sh.law.Name(), r.Verdict.Text, r.Laws, r.Rate)
		if r.Verdict.Kind == Differs {
			told[o.name]++
		}
	}
	t.Log(fmt.Sprint(n, " differ ", told))
}
