package verify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// taken is the cosine taken frame by frame, one every 10 s, exposed for 2 s: a round and
// the first frame of the next. Its moves take half a second longer than they must.
func taken(m cosine) []trace.Exposed {
	place := func(k int64) int64 {
		at := exact.New(k%m.frames, 24).Float()
		return int64(math.Round(m.Position(0, at)*80)) + k/m.frames*m.advance.Mul(exact.Int(80)).Floor().Whole()
	}
	var out []trace.Exposed
	for k := range m.frames + 1 {
		x := trace.Exposed{Steps: []int64{place(k)}, Opens: 10 * float64(k), Closes: 10*float64(k) + 2}
		if k > 0 && place(k) != place(k-1) {
			from := out[k-1].Closes
			x.Hops = []trace.Hop{{From: place(k - 1), To: place(k), Begins: from, Ends: from + 0.5 + soonest(math.Abs(float64(place(k)-place(k-1)))/80, m.axis)}}
		}
		out = append(out, x)
	}
	return out
}

func TestATakeFrameByFrame(t *testing.T) {
	var checks []string
	for _, f := range ByFrame(sound(), taken(sound())) {
		assert.True(t, f.OK, f.Text)
		checks = append(checks, f.Check)
	}
	assert.Equal(t, []string{"frames rest", "frames in place", "moves between frames", "travel between frames", "frames close"}, checks)
	assert.Len(t, ByFrame(sound(), taken(sound())[:20]), 4, "part of a round does not close")
}

// Each flaw is found by the check that is for it, at the frame at which it is, and what is
// just within its bound is none.
func TestFlawsOfATakeFrameByFrame(t *testing.T) {
	const k = 12
	for _, c := range []struct {
		name  string
		spoil func(x []trace.Exposed)
		check string // "" = sound
		says  string
	}{
		{"moves into the exposure", func(x []trace.Exposed) { x[k].Hops[0].Ends = x[k].Opens + 1e-6 }, "frames rest", "frame 12 is exposed from 120.000 s"},
		{"ends as it opens", func(x []trace.Exposed) { x[k].Hops[0].Ends = x[k].Opens }, "", ""},
		{"sets out in the exposure", func(x []trace.Exposed) { x[k].Hops[0].Begins = x[k-1].Closes - 1e-6 }, "frames rest", "the one before until 112.000 s"},
		{"is exposed for no time", func(x []trace.Exposed) { x[k].Closes = x[k].Opens }, "frames rest", "from 120.000 to 120.000 s"},
		{"overlaps", func(x []trace.Exposed) { x[k-1].Closes = x[k].Opens + 1 }, "frames rest", "the one before until 121.000 s"},
		{"goes elsewhere", func(x []trace.Exposed) { x[k].Hops[0].To += 2 }, "frames in place", "its moves leave it at"},
		{"sets out elsewhere", func(x []trace.Exposed) { x[k].Hops[0].From++ }, "frames in place", "is to set out from step"},
		{"is a step off", func(x []trace.Exposed) { x[k].Hops[0].To++; x[k].Steps[0]++; x[k+1].Hops[0].From++ }, "frames in place", "in frame 12"},
		{"hurries", func(x []trace.Exposed) { x[k].Hops[0].Ends -= 0.501 }, "moves between frames", "to frame 12, and its limits want"},
		{"leaves its travel", func(x []trace.Exposed) {
			x[k].Hops = []trace.Hop{{From: x[k-1].Steps[0], To: 400*80 + 1, Begins: x[k-1].Closes, Ends: x[k-1].Closes + 4}, {From: 400*80 + 1, To: x[k].Steps[0], Begins: x[k-1].Closes + 4, Ends: x[k].Opens - 0.01}}
		}, "travel between frames", "goes to 400.012 on its way to frame 12"},
		{"goes twice at once", func(x []trace.Exposed) {
			h := x[k].Hops[0]
			x[k].Hops = []trace.Hop{{From: h.From, To: h.To, Begins: h.Begins, Ends: h.Ends}, {From: h.To, To: h.To, Begins: h.Ends - 1e-6, Ends: h.Ends + 1}}
		}, "frames rest", "sets out at"},
		{"goes on as it comes", func(x []trace.Exposed) {
			h := x[k].Hops[0]
			x[k].Hops = append(x[k].Hops, trace.Hop{From: h.To, To: h.To, Begins: h.Ends, Ends: h.Ends + 1})
		}, "", ""},
		{"does not come back", func(x []trace.Exposed) { x[48].Steps[0]++ }, "frames close", "1.00 steps from where a round should leave it"},
	} {
		x := taken(sound())
		c.spoil(x)
		found := false
		for _, f := range ByFrame(sound(), x) {
			if f.Check == c.check {
				found = true
				assert.False(t, f.OK, c.name)
				assert.Contains(t, f.Text, c.says, c.name)
			} else if c.check == "" {
				assert.True(t, f.OK, "%s: %s", c.name, f.Text)
			}
		}
		assert.Equal(t, c.check != "", found, c.name)
	}
}

// The least time over a distance, by the two closed forms: 60 mm within 100 mm/s and
// 300 mm/s2 take 0.6 + 1/3 s, 3 mm take twice the root of a hundredth.
func TestSoonest(t *testing.T) {
	a := sound().axis
	assert.InDelta(t, 0.6+100.0/300, soonest(60, a), 1e-12)
	assert.InDelta(t, 0.2, soonest(3, a), 1e-12)
	assert.InDelta(t, 2*soonest(100.0*100/300/4, a), soonest(100.0*100/300, a), 1e-12, "they meet where full speed is just reached")
}
