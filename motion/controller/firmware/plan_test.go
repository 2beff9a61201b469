package firmware

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// railAndTable is a rail of 80 steps a mm and a table of 10 steps a degree.
func railAndTable() *Board {
	return &Board{Blocks: 16, JunctionDeviation: 0.01, Axes: []Axis{
		{StepsPerUnit: 80, Acceleration: 500, Speed: 200},
		{StepsPerUnit: 10, Acceleration: 720, Speed: 180, Rotary: true},
	}}
}

// TestHowFastABlockIs: 30 mm and 40 degrees together are 50 of path, by Pythagoras. What
// F asks for is by RS-274: one over the minutes, so much along the path, or so much along
// the linear axes; rotary axes alone go by their degrees. A degree may count as another
// length. No axis goes faster than it can, and no block slower than 1 a minute.
func TestHowFastABlockIs(t *testing.T) {
	for _, x := range []struct {
		name         string
		mm, deg      int64
		along        bool
		counts       float64 // of a degree
		pace         Pace
		length, want float64 // path units, and a minute
	}{
		{"the minutes", 30, 40, false, 0, Pace{Feed: 20, Inverse: true}, 50, 1000},
		{"along all", 30, 40, true, 0, Pace{Feed: 600}, 50, 600},
		{"along the rail", 30, 40, false, 0, Pace{Feed: 600}, 50, 1000}, // 30 mm at 600 mm/min are 50 at 1000
		{"the rail alone", 30, 0, false, 0, Pace{Feed: 600}, 30, 600},
		{"the table alone", 0, 40, false, 0, Pace{Feed: 600}, 40, 600},
		{"backwards", -30, -40, false, 0, Pace{Feed: 600}, 50, 1000},
		{"a degree counts for half", 0, 40, false, 0.5, Pace{Feed: 600}, 20, 300},
		{"a degree counts for two", 30, 20, false, 2, Pace{Feed: 600}, 50, 1000},
		{"no faster than the rail", 30, 0, false, 0, Pace{Feed: 60_000}, 30, 200 * 60},
		{"no faster than the table", 0, 40, false, 0, Pace{Feed: 60_000}, 40, 180 * 60},
		{"no faster than the worse", 30, 40, true, 0, Pace{Feed: 60_000}, 50, 180 * 60 / 0.8},
		{"rapid", 30, 40, false, 0, Pace{Feed: 1, Rapid: true}, 50, 180 * 60 / 0.8},
		{"for ever", 30, 0, false, 0, Pace{Feed: 0.001}, 30, 1},
	} {
		b := railAndTable()
		b.AlongAll, b.Axes[1].Counts = x.along, x.counts
		from := Counts{700, -300}
		k, moved := b.Block(&from, &Counts{700 + 80*x.mm, -300 + 10*x.deg}, x.pace)
		require.True(t, moved, x.name)
		assert.InEpsilon(t, x.length, k.length, 1e-6, x.name)
		assert.InEpsilon(t, x.want, k.nominal, 1e-5, x.name)
		assert.Equal(t, Counts{80 * x.mm, 10 * x.deg}, k.Steps)
		assert.Equal(t, max(80*x.mm, -80*x.mm, 10*x.deg, -10*x.deg), k.Events, x.name)
	}
	at := Counts{5, 7}
	_, moved := railAndTable().Block(&at, &at, Pace{Feed: 100})
	assert.False(t, moved, "where nothing steps there is no block")
}

// TestHowHardABlockMayPush: the axis that binds decides, by its share of the path. At
// 3-4-5 the rail allows 500/0.6 and the table 720/0.8.
func TestHowHardABlockMayPush(t *testing.T) {
	for _, x := range []struct {
		mm, deg int64
		want    float64 // per s²
	}{{30, 40, 500 / 0.6}, {30, 0, 500}, {0, 40, 720}, {-30, 40, 500 / 0.6}, {3, 40, 720 * math.Sqrt(1609) / 40}} {
		k, _ := railAndTable().Block(&Counts{}, &Counts{80 * x.mm, 10 * x.deg}, Pace{Rapid: true})
		assert.InEpsilon(t, x.want*3600, k.accel, 1e-5, "%v", x)
	}
}

// TestHowFastACornerIs: round a right angle of two equal axes on the circle that passes
// the corner at d, r = d*sin 45/(1-sin 45), and the push, along the bisector, is the
// axes' by the root of two. Straight on there is no corner, and straight back no speed.
func TestHowFastACornerIs(t *testing.T) {
	b := &Board{JunctionDeviation: 0.01, Axes: []Axis{{StepsPerUnit: 80, Acceleration: 500}, {StepsPerUnit: 80, Acceleration: 500}}}
	at := func(deg float64) *Vector {
		return &Vector{float32(math.Cos(deg * math.Pi / 180)), float32(math.Sin(deg * math.Pi / 180))}
	}
	speed := func(from, to float64) float64 { return enter(b.corner2(at(from), at(to))) } // mm/s
	half := math.Sqrt(0.5)
	assert.InEpsilon(t, math.Sqrt(500*math.Sqrt2*0.01*half/(1-half)), speed(0, 90), 1e-5)
	assert.InEpsilon(t, speed(0, 90), speed(90, 0), 1e-5)
	assert.InEpsilon(t, speed(0, 90), speed(180, 90), 1e-5)
	assert.Zero(t, speed(0, 180))
	assert.True(t, math.IsInf(speed(30, 30), 1))
	// By 60 degrees from 0: the angle between is 120, half of it 60; the push is along
	// 120 degrees, where the second axis' 500 allow 500/sin 120.
	sin := math.Sin(math.Pi / 3)
	assert.InEpsilon(t, math.Sqrt(500/sin*0.01*sin/(1-sin)), speed(0, 60), 1e-4)
	// Just bent, and just not straight back: both have a speed.
	assert.False(t, math.IsInf(speed(0, 0.2), 1))
	assert.Positive(t, speed(0, 179.8))
	assert.True(t, math.IsInf(speed(0, 0.05), 1), "what 24 bits cannot tell from straight is")
	assert.Zero(t, speed(0, 179.95))
}

// TestTheLookAheadIsTheFastestThatCanStop: the speed at which a block may begin is the
// greatest from which each corner after it, and a stop at the end, can still be kept,
// and to which each before it can be left: v² of any corner and 2as of the way between,
// whichever is least. That is a closed form, corner by corner, whatever the order in
// which the ring works it out.
func TestTheLookAheadIsTheFastestThatCanStop(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := railAndTable()
		b.Axes[1] = Axis{StepsPerUnit: 80, Acceleration: 1000, Speed: 200}
		p := b.Planner()
		from := Counts{}
		var limits []float64
		for n := rapid.IntRange(1, 15).Draw(rt, "blocks"); !p.Full() && n > 0; n-- {
			to := from
			to[0] += rapid.Int64Range(-400, 400).Draw(rt, "x")
			to[1] += rapid.Int64Range(-40, 400).Draw(rt, "y")
			k, moved := b.Block(&from, &to, Pace{Feed: float32(rapid.Float64Range(100, 9000).Draw(rt, "F"))})
			if !moved {
				continue
			}
			p.Add(&k)
			from = to
			// What the corner itself allows: no more than either side goes.
			limit := 0.0
			if last := p.count - 1; last > 0 {
				slower := math.Min(float64(p.At(last-1).nominal), float64(p.At(last).nominal))
				limit = math.Min(slower*slower, float64(b.corner2(&p.At(last-1).unit, &p.At(last).unit)))
			}
			limits = append(limits, limit)
			requireFastest(rt, &p, limits)
		}
	})
}

func requireFastest(rt *rapid.T, p *Planner, limits []float64) {
	for i := range limits {
		want := math.Inf(1)
		way := 0.0 // 2as from corner i on
		for j := i; j <= len(limits); j++ {
			if j == len(limits) {
				want = math.Min(want, way)
				break
			}
			want = math.Min(want, limits[j]+way)
			way += 2 * float64(p.At(j).accel) * float64(p.At(j).length)
		}
		way = 0
		for j := i - 1; j >= 0; j-- {
			way += 2 * float64(p.At(j).accel) * float64(p.At(j).length)
			want = math.Min(want, limits[j]+way)
		}
		require.InDelta(rt, want, float64(p.At(i).entry2), 1e-4*want+1e-3, "block %d of %d", i, len(limits))
	}
}

// TestTheRingHasOnePlaceFewer: of 16 places one stays free, so that 15 blocks go in; a
// ring that is full takes no more, and those that have left make room.
func TestTheRingHasOnePlaceFewer(t *testing.T) {
	b := railAndTable()
	p := b.Planner()
	s := b.Slicer()
	var out Slice
	from := Counts{}
	add := func() {
		to := from
		to[0] += 80
		k, _ := b.Block(&from, &to, Pace{Feed: 600})
		k.Line = from[0]/80 + 1
		from = to
		p.Add(&k)
	}
	assert.True(t, p.Empty())
	for n := range 15 {
		assert.False(t, p.Full(), "%d blocks", n)
		add()
		assert.False(t, p.Empty())
	}
	require.True(t, p.Full())
	assert.Panics(t, add)
	from[0] -= 80
	for left := int64(1); left <= 40; left++ { // round the ring and on
		for p.At(0).Line == left && p.count == 15 {
			s.Next(&p, &out)
		}
		require.False(t, p.Full())
		add()
		for i := range 15 {
			require.Equal(t, left+1+int64(i), p.At(i).Line, "the oldest first")
		}
	}
}

// TestATrapezoidOfSpeed: from u to w over d at a, by v² = u² + 2as. Places are path units
// from the end of the block.
func TestATrapezoidOfSpeed(t *testing.T) {
	for _, x := range []struct {
		name             string
		d, a, f, u2, w2  float32
		ramp             ramp
		upUntil, downFor float64
		top, exit        float64
	}{
		// Up from rest to 20 in 200/a = 4, down to rest in 4.
		{"from rest to rest", 20, 50, 20, 0, 0, up, 16, 4, 20, 0},
		{"from 10, down to 10", 20, 50, 20, 100, 100, up, 17, 3, 20, 10},
		{"level at once", 20, 50, 20, 400, 0, level, 20, 4, 20, 0},
		// Both ramps would want 8: they meet in the middle, at v² = 2*50*2.
		{"a triangle", 4, 50, 20, 0, 0, up, 2, 2, math.Sqrt(200), 0},
		// From 10 down to rest takes 1 more than the way up: they meet at 1.5 + 0.5.
		{"a lopsided triangle", 3, 50, 20, 100, 0, up, 2, 2, math.Sqrt(200), 0},
		{"up all the way", 2, 50, 20, 0, 200, up, 0, 0, math.Sqrt(200), math.Sqrt(200)},
		{"down all the way", 2, 50, 20, 200, 0, down, 2, 0, 0, 0},
	} {
		got := trapezoid(&Block{length: x.d, accel: x.a, nominal: x.f, entry2: x.u2}, x.w2)
		assert.Equal(t, x.ramp, got.ramp, x.name)
		assert.InDelta(t, x.exit, got.exit, 1e-5, x.name)
		if x.ramp == down {
			continue // it has neither a way up nor a top
		}
		assert.InDelta(t, x.top, got.top, 1e-4, x.name)
		assert.InDelta(t, x.downFor, got.downAfter, 1e-5, x.name)
		if x.ramp == up {
			assert.InDelta(t, x.upUntil, got.upUntil, 1e-5, x.name)
		}
	}
}

// TestShapesAreThoseOfMoves: in mm and seconds, with rests between that every move
// begins slowly after.
func TestShapesAreThoseOfMoves(t *testing.T) {
	b := &Board{JunctionDeviation: 0.01, Axes: []Axis{{StepsPerUnit: 80, Acceleration: 500, Speed: 200}, {StepsPerUnit: 80, Acceleration: 500, Speed: 200}}}
	s := b.Shapes([]Counts{{800}, {1600}, {0, 800}, {}, {0, 800}, {0, -800}})
	require.Len(t, s, 6)
	assert.InDelta(t, 10, s[0].Length, 1e-6)
	assert.InDelta(t, 500, s[0].Acc, 1e-3)
	assert.InDelta(t, 200, s[0].Cap, 1e-3)
	assert.Zero(t, s[0].Enter, "from rest")
	assert.InDelta(t, 20, s[1].Length, 1e-6)
	assert.True(t, math.IsInf(s[1].Enter, 1), "straight on")
	half := math.Sqrt(0.5)
	assert.InEpsilon(t, math.Sqrt(500*math.Sqrt2*0.01*half/(1-half)), s[2].Enter, 1e-5, "round a corner")
	assert.Equal(t, Shape{}, s[3], "a rest")
	assert.InDelta(t, 10, s[4].Length, 1e-6)
	assert.Zero(t, s[4].Enter, "after a rest")
	assert.Zero(t, s[5].Enter, "straight back")
}
