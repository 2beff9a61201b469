package firmware

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ticks is so many ticks of 16 MHz in minutes, as the board has them.
func ticks(n float64) float32 { return float32(n / 16e6 / 60) }

// TestTheSlowestStepRate: 65 535 ticks and one of lag, eight to a step event, of 16 MHz.
func TestTheSlowestStepRate(t *testing.T) {
	assert.InDelta(t, 16e6/65536/8, SixteenBit(16e6).SlowestRate(), 1e-9)
	assert.InDelta(t, 20e6/65536/8, SixteenBit(20e6).SlowestRate(), 1e-9)
	assert.Zero(t, Timer{}.SlowestRate())
	assert.Zero(t, Timer{Hz: 16e6, Finer: 3, FinerBelow: 8000}.SlowestRate(), "a counter without an end")
	// Two million ticks are slower than that: the counter goes as slowly as it can.
	assert.Equal(t, Lasting(65536/16e6), SixteenBit(16e6).beat(ticks(2e6)).Every)
}

// TestHowOftenTheInterruptComes: once a step event down to 8000 a second, then twice,
// four and eight times, each from half the rate on; an interval is the whole ticks above,
// shared out, and a tick of lag.
func TestHowOftenTheInterruptComes(t *testing.T) {
	timer := SixteenBit(16e6)
	for _, x := range []struct {
		ticks float64 // wanted between step events
		level int
		every int64 // ticks between interrupts
	}{
		{999.5, 0, 1001}, {1000.5, 0, 1002}, {1999.5, 1, 1001}, {1998.5, 0, 2000},
		{2100.5, 1, 1051}, {2101.5, 1, 1052}, {3998.5, 1, 2000}, {3999.5, 2, 1001}, {7999.5, 3, 1001}, {7998.5, 2, 2000}, {400_000.5, 3, 50_001},
	} {
		b := timer.beat(ticks(x.ticks))
		assert.Equal(t, x.level, b.Level, "%v", x)
		assert.Equal(t, Lasting(float64(x.every)/16e6), b.Every, "%v", x)
	}
	exact := Timer{}.beat(1)
	assert.Equal(t, Beat{Every: 60 * Second}, exact, "a timer that counts nothing is exact")
	slow := Timer{Slowest: 0.5}.beat(1)
	assert.InDelta(t, 0.5, slow.Every.Seconds(), 1e-7)
	assert.InDelta(t, 0.25, Timer{Slowest: 0.5}.beat(0.25/60).Every.Seconds(), 1e-7)
	skewed := timer
	skewed.Skew = 0.01
	assert.Equal(t, Lasting(1011.0/16e6), skewed.beat(ticks(999.5)).Every, "999.5 and a hundredth are 1009.5")
}

// TestAHairFromAnotherInterval: where rounding might make another interval of it that is
// said, on the side on which it is.
func TestAHairFromAnotherInterval(t *testing.T) {
	for _, x := range []struct {
		ticks float64
		edge  int
	}{
		{1000.01, 1}, {1000.5, 0}, {1000.06, 0}, {1000.94, 0}, {1000.99, -1},
		// Two by two from 2000 ticks on: 2099.x and 2100.x are counted alike.
		{2099.5, 0}, {2099.99, 0}, {2099.01, 1}, {2100.5, 0}, {2100.01, 0}, {2100.99, -1},
	} {
		assert.Equal(t, x.edge, SixteenBit(16e6).beat(ticks(x.ticks)).Edge, "%v", x)
	}
}

// TestTheNextInterval is a tick longer, or as many as interrupts make a step event.
func TestTheNextInterval(t *testing.T) {
	for _, x := range []struct{ rate, ticks float64 }{{10_000, 1}, {7000, 2}, {3900, 4}, {1900, 8}, {100, 8}} {
		assert.Equal(t, x.ticks/16e6, SixteenBit(16e6).Stair(1/x.rate), "%g steps/s", x.rate)
	}
}

// TestTheNearestInterval: what is told for it makes the board take it, and none that it
// has is nearer to what is wanted, counted one by one.
func TestTheNearestInterval(t *testing.T) {
	timer := SixteenBit(16e6)
	nearest := func(rt interface {
		require.TestingT
		Fatalf(string, ...any)
	}, want float64) {
		told, got := timer.Nearest(want)
		b := timer.beat(float32(told / 60))
		require.InDelta(rt, got, b.Every.Seconds()*float64(int(1)<<b.Level), 1e-11, "what it is told gives it")
		require.Zero(rt, b.Edge, "from the middle")
		about := int64(16e6 * want)
		for ticks := max(1, about-64); ticks <= about+64; ticks++ { // as it counts each of them
			level := timer.level(ticks)
			if other := float64(timer.counted(ticks, level)<<level) / 16e6; math.Abs(got-want) > math.Abs(other-want)+1e-12 {
				rt.Fatalf("%g is nearer than %g", other, got)
			}
		}
	}
	rapid.Check(t, func(rt *rapid.T) { nearest(rt, rapid.Float64Range(20, 5e5).Draw(rt, "ticks")/16e6) })
	for _, edge := range []float64{2000, 4000, 8000} { // from where the interrupt comes twice as often
		for off := -8.0; off <= 8; off += 0.1 {
			nearest(t, (edge+off)/16e6)
		}
	}
	_, least := timer.Nearest(0)
	assert.Equal(t, 2/16e6, least, "none is shorter than a tick and its lag")
}

// TestWhenAMotionBegins: before the first, at once. While the counter still runs up to
// the interval that was set last, when it is there; after that at once, part of an
// interval early, since it goes on counting; and by way of its highest count where it is
// beyond the interval that is set now.
func TestWhenAMotionBegins(t *testing.T) {
	const us = 1_000_000 * Picosecond
	timer := SixteenBit(16e6)
	round := Lasting(65536 / 16e6)
	for _, x := range []struct {
		name        string
		every       Instant // of the motion before; it rested at 5 s
		now, next   Instant
		start, lead Instant
	}{
		{"the first", 0, 7 * Second, 100 * us, 7 * Second, 0},
		{"within the interval", 300 * us, 5*Second + 100*us, 200 * us, 5*Second + 300*us, 0},
		{"just over", 300 * us, 5*Second + 300*us, 200 * us, 5*Second + 300*us, 0},
		{"part of the next", 300 * us, 5*Second + 350*us, 200 * us, 5*Second + 350*us, 50 * us},
		{"round and round", 300 * us, 5*Second + 950*us, 200 * us, 5*Second + 950*us, 50 * us},
		{"beyond what is set now", 300 * us, 5*Second + 500*us, 200 * us, 5*Second + 500*us, 200*us - round},
		{"still beyond", 300 * us, 5*Second + 550*us, 200 * us, 5*Second + 550*us, 250*us - round},
	} {
		var c Counter
		if x.every > 0 {
			c.Rest(5*Second, x.every)
		}
		start, lead := timer.Wake(c, x.now, x.next)
		assert.Equal(t, x.start, start, x.name)
		assert.Equal(t, x.lead, lead, x.name)
	}
	var c Counter
	c.Rest(0, us)
	start, lead := Timer{}.Wake(c, 7*us/2, us)
	assert.Equal(t, [2]Instant{7 * us / 2, 0}, [2]Instant{start, lead}, "an exact timer goes on at once")
}

// TestHowLongADwellLasts: in whole grains above what is asked, each with a turn of the
// main loop, and one turn more.
func TestHowLongADwellLasts(t *testing.T) {
	const ms, us = 1_000_000_000 * Picosecond, 1_000_000 * Picosecond
	b := Board{Turn: 10 * us, DwellGrain: 50 * ms}
	for _, x := range []struct {
		sec  float64
		want Instant
	}{{0, 10 * us}, {0.05, 50*ms + 20*us}, {0.051, 100*ms + 30*us}, {0.5, 500*ms + 110*us}} {
		assert.Equal(t, x.want, b.Dwell(x.sec), "%g s", x.sec)
	}
	b.DwellGrain = 0
	assert.Equal(t, 51*ms+10*us, b.Dwell(0.051), "or of any length")
	b.ClockError = 0.001
	assert.InDelta(t, float64(51*ms+10*us+51*us), float64(b.Dwell(0.051)), 2, "by a clock that is slow")
	b.DwellGrain = 50 * ms
	assert.InDelta(t, float64(100*ms+100*us+30*us), float64(b.Dwell(0.051)), 4)
	assert.Equal(t, 20*us, b.lineTime(true))
	assert.Equal(t, 10*us, b.lineTime(false))
	b.Line = 3 * us
	assert.Equal(t, 23*us, b.lineTime(true))
	assert.Equal(t, 13*us, b.lineTime(false))
	for at, want := range map[Instant]Instant{0: 0, 1: 10 * us, 10 * us: 10 * us, 10*us + 1: 20 * us, 19 * us: 20 * us} {
		assert.Equal(t, want, b.looks(at), "its main loop looks every 10 us")
	}
	b.Turn = 0
	assert.Equal(t, 17*us, b.looks(17*us))
}

// TestStepsAreSharedOut by Bresenham: of five step events three are steps of an axis with
// three, counted from half an event on, in eighths; backwards alike.
func TestStepsAreSharedOut(t *testing.T) {
	s := Slice{Steps: Counts{5, 3, -3, 0}, Begins: Counts{100, 200, 300, 400}, Events: 5}
	for axis, n := range []float64{5, 3} {
		for u := int64(0); u <= 40; u++ {
			// The counter begins at 5/2, gains n/8 each eighth, and steps beyond 5.
			want := int64(math.Ceil((2.5+n*float64(u)/8)/5)) - 1
			assert.Equal(t, want, s.StepsAfter(axis, u), "axis %d after %d eighths", axis, u)
		}
	}
	assert.Equal(t, -s.StepsAfter(1, 17), s.StepsAfter(2, 17))
	assert.Zero(t, s.StepsAfter(3, 40))
	// Five interrupts at level 1 are twenty eighths, from 8 on.
	s.From, s.Beat = 8, Beat{Every: 10, Level: 1}
	s.Pulses = 5
	assert.Equal(t, int64(28), s.Eighths(5))
	assert.Equal(t, Counts{103, 202, 298, 400}, s.CountsAfter(3, 5), "28 of 40 eighths: 3.5 and 2.1, half a one more to step")
	for since, want := range map[Instant]int64{-5: 0, 0: 0, 9: 0, 10: 1, 49: 4, 50: 5, 500: 5} {
		assert.Equal(t, want, s.PulsesBy(since), "after %d", since)
	}
	assert.Equal(t, Instant(50), s.Lasts())
	s.Lead = 4 // the first comes so much sooner, and all the others
	assert.Equal(t, Instant(46), s.Lasts())
	assert.Equal(t, int64(1), s.PulsesBy(6))
	assert.Equal(t, int64(0), s.PulsesBy(5))
	s.Beat.Every = 0
	assert.Equal(t, int64(5), s.PulsesBy(0))
}

// TestPlacesAreReadAsTheBoardReadsThem: with 24 bits a place of a hundred thousand is a
// hundred and twenty-eighth off, with 53 it is not.
func TestPlacesAreReadAsTheBoardReadsThem(t *testing.T) {
	b := railAndTable()
	assert.Equal(t, int64(100), b.StepsAt(0, 1.25))
	assert.Equal(t, int64(-100), b.StepsAt(0, -1.25))
	b.Axes[0].Offset = 10
	assert.Equal(t, int64(900), b.StepsAt(0, 1.25))
	b.Axes[0].Offset = 1e5
	assert.Equal(t, int64(8_000_001), b.StepsAt(0, 0.01), "0.0078125 of a mm")
	b.Wide = true
	b.Axes[0].Offset = 1e7
	assert.Equal(t, int64(800_000_001), b.StepsAt(0, 0.0125))
}
