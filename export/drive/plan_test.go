package drive

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// quiet is an observer that keeps what is said.
type quiet struct {
	Observer
	said []string
}

func (q *quiet) Say(text string) { q.said = append(q.said, text) }
func (q *quiet) Enter(State)     {}
func (q *quiet) Count(int)       {}

// evenTurn is a table of the bench that turns evenly, 60 degrees a second, a turn a round.
func evenTurn(t *testing.T, change func(*rig.Rig)) *trajectory.Trajectory {
	table := sample.Turning(sample.Table(t), exact.Int(1))
	r := sample.Bench(rig.InverseTime)
	if change != nil {
		change(&r)
	}
	return sample.Make(t, 6*24, r, table)
}

// talking is a lineController of a take of so many rounds at noon, and its observer.
func talking(t *testing.T, rounds int64, change func(*rig.Rig)) (*lineController, *quiet) {
	q := &quiet{}
	e := &engine{job: newJob(Options{Trajectory: evenTurn(t, change), Rounds: rounds, Observer: q}), now: noon}
	talks := newLineController(e)
	e.m = talks
	return talks, q
}

// passing is a pass of it that began to move such that frame 0 was at noon.
func passing(t *testing.T, rounds int64) *pass {
	talks, _ := talking(t, rounds, nil)
	p := newPass(talks.engine, 1)
	p.zero = noon
	p.engine.pass = p
	return p
}

// TestWhenThePassIs: time that was held is left out, and stands while it is held.
func TestWhenThePassIs(t *testing.T) {
	p := passing(t, 3)
	p.now = at(2500)
	assert.InDelta(t, 2.5, p.sec(), 1e-12)
	p.shift = 500 * ms
	assert.InDelta(t, 2, p.sec(), 1e-12)
	assert.Equal(t, at(3500), p.when(3))
	p.pausedAt = at(1500)
	assert.InDelta(t, 1, p.sec(), 1e-12)
	p.zero = time.Time{}
	assert.Equal(t, -p.runUp, p.sec(), "before it has begun it stands at the beginning of its run-up")
	p.anchorAt(at(100), -0.5)
	assert.Equal(t, at(600), p.zero, "half a second before frame 0")
	p.anchorAt(at(900), 0)
	assert.Equal(t, at(600), p.zero, "which is said once")
	assert.Equal(t, int64(3), p.ofRounds())
	p.total = 0
	assert.Equal(t, int64(endless), p.ofRounds())
}

// TestMotionThatIsLate: a quarter of a second is too much; a pass that was held shifts by
// what it is late, since slowing down takes time that nobody knows.
func TestMotionThatIsLate(t *testing.T) {
	for _, x := range []struct {
		millis float64
		held   bool
		late   float64
		shift  time.Duration
		fails  bool
	}{
		{-100, false, 0, 0, false}, {249, false, 0.249, 0, false}, {251, false, 0.251, 0, true},
		{400, true, 0.4, 400 * ms, false}, {-100, true, 0, 0, false},
	} {
		p := passing(t, 3)
		p.now, p.held = at(2000+x.millis), x.held
		p.dueAt(2)
		assert.InDelta(t, x.late, p.late, 1e-9)
		assert.InDelta(t, x.shift, p.shift, 2)
		if assert.Equal(t, x.fails, p.failure != nil, "%v", x) && x.fails {
			assert.Equal(t, "motion is 251 ms behind the plan: the link or this computer is too slow", p.failure.Detail)
		}
	}
}

// TestWherePlansHaveAnAxis: at 60 degrees a second, between 1 s and 2 s it is from 60 to
// 120; in the run-up anywhere from where it rests to frame 0, and in the run-out anywhere
// from the last frame to rest, since controllers ramp in their own way.
func TestWherePlansHaveAnAxis(t *testing.T) {
	p := passing(t, 3)
	up, out := 30*p.runUp, 30*p.runOut // half the way that it would go
	for _, x := range []struct {
		x, from, to, want float64
	}{
		{90, 1, 2, 0}, {60, 1, 2, 0}, {120, 1, 2, 0}, {59, 1, 2, -1}, {123, 1, 2, 3},
		{-up, -0.1, -0.05, 0}, {-up - 2, -0.1, -0.05, -2}, {0, -0.1, -0.05, 0}, {5, -0.1, -0.05, 5}, {5, -0.1, 0.1, 0}, {7, -0.1, 0.1, 1},
		{1080 + out, 18.01, 18.02, 0}, {1080 + out + 4, 18.01, 18.02, 4}, {1080, 18.01, 18.02, 0}, {1074, 18.01, 18.02, -6}, {1075, 17.9, 18.02, 0},
	} {
		assert.InDelta(t, x.want, p.beyond(0, x.x, x.from, x.to), 1e-6, "%+v", x)
	}
	p.total = 0 // it goes on until asked: there is no run-out yet
	assert.InDelta(t, 0, p.beyond(0, 1140, 18.5, 19.5), 1e-6)
	assert.InDelta(t, -1, p.beyond(0, 1109, 18.5, 19.5), 1e-6)
}

// TestReportsThatAreNotThePlans: two in a row, or one in sixteen for long. At rest an
// axis may be off by what is told of reports and a step, of a tenth of a degree here; on
// the way by what straight blocks leave the path besides.
func TestReportsThatAreNotThePlans(t *testing.T) {
	p := passing(t, 3)
	may := strayUnits + 0.1
	assert.InDelta(t, may, p.mayRest(0), 1e-12)
	assert.InDelta(t, may, p.mayStray(0), 1e-12)
	p.leaves = []float64{0.25}
	assert.InDelta(t, may+0.25, p.mayStray(0), 1e-12)
	report := func(deg float64) { p.agrees([]float64{deg}, 1, 2) }
	report(120 + may + 0.24)
	report(60 - may - 0.24)
	assert.Zero(t, p.strays)
	report(120 + may + 0.26)
	assert.Equal(t, 16, p.strays)
	report(90)
	assert.Equal(t, 15, p.strays)
	for range 20 {
		report(90)
	}
	assert.Zero(t, p.strays)
	report(60 - may - 0.26)
	for range 15 {
		report(90)
	}
	report(60 - may - 0.26)
	assert.Nil(t, p.failure, "one in sixteen may be noise, once")
	for range 15 {
		report(90)
	}
	for range 15 {
		report(60 - may - 0.26)
		for range 15 {
			report(90)
		}
	}
	require.NotNil(t, p.failure, "but not for long")
	q := passing(t, 3)
	q.agrees([]float64{130}, 1, 2)
	require.Nil(t, q.failure)
	q.agrees([]float64{130}, 1, 2)
	require.NotNil(t, q.failure)
	assert.Equal(t, NotPlan, q.failure.End)
	assert.Equal(t, "axis table is reported at 130.000 deg about 1.50 s from frame 0, 10.000 from where the plan has it", q.failure.Detail)
}

// TestWhatIsSeenOfAPass: how far a report is from all places at which the axis may have
// been since it was asked for, and the worst of them; only where frames are shot, and
// while it is not held.
func TestWhatIsSeenOfAPass(t *testing.T) {
	p := passing(t, 1)
	see := func(deg, millis float64) { p.now = at(millis); p.saw([]float64{deg}, at(millis-100)) }
	see(57, 1000) // from 54 to 60
	assert.Equal(t, []float64{0}, p.off)
	see(61, 1000)
	assert.InDelta(t, 1, p.off[0], 1e-9)
	see(52, 1000)
	assert.InDelta(t, -2, p.off[0], 1e-9)
	see(60.5, 1000)
	assert.InDelta(t, -2, p.worst[0], 1e-9)
	assert.Equal(t, []float64{60.5}, p.position)
	see(100, 50)
	assert.Nil(t, p.off, "asked for before frame 0")
	see(100, 6001)
	assert.Nil(t, p.off, "after the last frame")
	see(359, 6000)
	assert.NotNil(t, p.off)
	p.pausedAt = at(1000)
	see(63, 1500)
	assert.Equal(t, []float64{63}, p.position, "what is held goes on a little")
	assert.InDelta(t, 0, p.off[0], 1e-3, "along the path")
	assert.InDelta(t, 1.05*24, p.sighted.Frame, 0.01, "to a frame of its own")
	see(30, 1500)
	assert.InDelta(t, -30, p.off[0], 0.1, "but never back")
	assert.Equal(t, -30.0, math.Round(p.worst[0]))
	p.pausedAt, p.holds, p.held, p.worst = time.Time{}, 1, true, nil
	see(57+0.05*60, 1000)
	assert.InDelta(t, 0, p.off[0], 1e-3, "gone on, its time is its own")
	see(90, 1000)
	assert.Less(t, p.off[0], 30.0)
	assert.Greater(t, p.worst[0], 1.0, "but no time explains that, and it is the worst of both parts")
	assert.True(t, p.filmed(0, 6))
	assert.False(t, p.filmed(-0.001, 6))
	assert.False(t, p.filmed(0, 6.001))
	p.total = 0
	assert.True(t, p.filmed(0, 1e6))
}

// TestHowGentlyAnAxisIsMoved: at a tenth of its speed, by its own limit or what the
// controller is set to, whichever is less: 400 mm at 40 mm/s and 1000 mm/s2 take 10.04 s,
// and with a jerk of 10 000 mm/s3 a tenth more to rise and fall.
func TestHowGentlyAnAxisIsMoved(t *testing.T) {
	a := rig.Axis{MaxSpeed: 400, MaxAcc: 1000}
	assert.InDelta(t, 400.0/40+40.0/1000, gentle(a, 400).T, 1e-9)
	assert.InDelta(t, 400.0/40+40.0/1000, gentle(a, -400).T, 1e-9)
	a.MaxJerk = 100_000
	assert.InDelta(t, 400.0/40+40.0/1000+1000.0/100_000, gentle(a, 400).T, 1e-9)
	assert.Equal(t, 1000.0, acceleration(a))
	a.Settings.Acceleration = 300
	assert.Equal(t, 300.0, acceleration(a))
	a.Settings.Acceleration = 3000
	assert.Equal(t, 1000.0, acceleration(a))
	// To slow down from full speed takes the axis that needs longest, and a tenth.
	assert.Equal(t, 600*ms, slowest([]rig.Axis{{MaxSpeed: 100, MaxAcc: 1000}, {MaxSpeed: 400, MaxAcc: 800}}))
	talks, _ := talking(t, 1, nil)
	assert.Equal(t, slowest(talks.axes), talks.slowest())
	talks.controller.Decimals = 3
	for x, want := range map[float64]string{1.23456: "1.235", -0.0004: "0.000", -0.0006: "-0.001", 0: "0.000"} {
		assert.Equal(t, want, talks.number(x))
	}
}

// TestHowLongSwitchesMayBeLookedFor: over the travel and back at 5 mm/s, with 5 s besides,
// of all axes that the line homes, and the patience that every answer has.
func TestHowLongSwitchesMayBeLookedFor(t *testing.T) {
	talks, _ := talking(t, 1, func(r *rig.Rig) { r.Controller.HomeLine, r.Axes[1].HomeLine = "$H", "$H" })
	// The rail has 400 mm, the table a turn.
	assert.Equal(t, seconds(2*400/5.0+5+2*360/5.0+5)+patience, talks.homeWait("$H"))
	assert.Equal(t, patience, talks.homeWait("$HX"))
}

// TestTheNearestPlaceThatLooksTheSame: a table that stands at 1090 degrees goes back to
// 1080 rather than three times round.
func TestTheNearestPlaceThatLooksTheSame(t *testing.T) {
	for stands, want := range map[float64]float64{1090: 1080, 1270: 1440, -170: 0, -190: -360, 0: 0} {
		talks, _ := talking(t, 1, nil)
		m := &placed{lineController: talks}
		talks.engine.m, talks.engine.at = m, []float64{stands}
		talks.engine.start[0] = 0
		require.NoError(t, talks.engine.back())
		if want != stands {
			assert.Equal(t, want, m.went, "from %g", stands)
		}
		assert.Equal(t, []float64{0}, m.counts, "and counts from where the take begins")
		assert.Equal(t, []float64{0}, talks.engine.at)
	}
}

// placed goes where it is told and does nothing else.
type placed struct {
	*lineController
	went   float64
	counts []float64
}

func (p *placed) glide(_ int, to float64, _ bool) error { p.went = to; return nil }
func (p *placed) place(at []float64) error              { p.counts = at; return nil }

// TestHowManyRoundsAreLeftToCount: of 24 bits at 160 steps a degree 32 768 degrees are told
// apart; a turn a round from 1000 degrees leaves 88, and backwards, from there, 93.
func TestHowManyRoundsAreLeftToCount(t *testing.T) {
	fine := func(r *rig.Rig) {
		r.Axes[1].StepsPerUnit, r.Controller.SinglePrecision = exact.Int(160), true
	}
	for _, x := range []struct {
		far  float64
		want int64
	}{{1000, 88}, {0, 91}, {32_000, 2}, {32_700, 0}, {40_000, 0}, {-1000, 93}} {
		talks, _ := talking(t, 1, fine)
		talks.start[0] = 0
		talks.counter.far = []float64{x.far}
		n, i := talks.countable()
		assert.Equal(t, x.want, n, "from %g deg", x.far)
		assert.Zero(t, i)
	}
	talks, _ := talking(t, 1, nil)
	talks.counter.far = []float64{1e9}
	n, _ := talks.countable()
	assert.Equal(t, int64(endless), n, "53 bits never run out")
	// It is noted how far its own count is from that of the words.
	talks.recount([]float64{370}, []float64{10})
	assert.Equal(t, []float64{1e9 + 360}, talks.counter.far)
	talks.counter.far = nil
	talks.recount([]float64{370}, []float64{10})
	assert.Equal(t, []float64{0}, talks.counter.far, "it is taken to have been switched on just now")
	assert.True(t, talks.counter.guessed)
	talks.status.machine = []float64{5, 0, 0, 25}
	talks.recount([]float64{370}, []float64{10})
	assert.Equal(t, []float64{15}, talks.counter.far, "or it tells")
}

// TestWhenABeatIsDue: by the count-in until the motion tells, and never while it is held;
// one that is a tenth of a second late is not told any more.
func TestWhenABeatIsDue(t *testing.T) {
	p := passing(t, 1)
	var told []float64
	p.Call = func(b Beat) { told = append(told, b.At) }
	left := []float64{0.5, 0.6, 0.7, 2}
	b := &beats{e: p.engine, pull: func() (Beat, bool) {
		if len(left) == 0 {
			return Beat{}, false
		}
		next := Beat{At: left[0]}
		left = left[1:]
		return next, true
	}}
	assert.Equal(t, p.now.Add(never), b.due(p), "there is none")
	b.next, b.more = b.pull()
	assert.Equal(t, at(500), b.due(p))
	p.pausedAt = at(1)
	assert.Equal(t, p.now.Add(never), b.due(p))
	assert.Equal(t, p.now.Add(never), b.due(nil))
	b.zero = at(1000)
	assert.Equal(t, at(1500), b.due(nil))
	p.pausedAt = time.Time{}
	p.now = at(499)
	b.tick(p)
	assert.Empty(t, told)
	p.now = at(700)
	b.tick(p)
	assert.Equal(t, []float64{0.6, 0.7}, told, "0.5 is two tenths late")
	p.now = at(1e4)
	b.tick(p)
	assert.Equal(t, []float64{0.6, 0.7}, told)
	assert.False(t, b.more)
}

// TestRoomWithinSoftLimits: a controller that counts its travel below 0, above it or as
// the rig file does might have it on any side; a take that fits none is refused.
func TestRoomWithinSoftLimits(t *testing.T) {
	talks, _ := talking(t, 1, func(r *rig.Rig) { r.Axes[1].Endless, r.Axes[1].Min, r.Axes[1].Max = false, -100, 500 })
	talks.travels = []float64{400}
	low, high := talks.reach(0)
	assert.InDelta(t, -30*talks.runUp, low, 1e-9, "it begins at rest")
	assert.InDelta(t, 360+30*talks.runOut, high, 1e-9, "and ends at rest, a turn further on")
	for _, x := range []struct {
		stands, shift, low, high float64
		might, fits              int
	}{
		{-10, -50, -300, -10, 1, 1}, {-10, -50, -401, -10, 1, 0}, {-10, -50, -400.05, 0.05, 1, 1}, {-10, -50, -300, 0.2, 1, 0},
		{10, 50, 10, 300, 1, 1}, {10, 50, 10, 400.2, 1, 0}, {0, 50, 0, 300, 2, 1}, {0, 50, -5, 5, 2, 0},
		{10, 0.05, -90, 490, 2, 1}, {10, 0.11, -90, 490, 1, 0}, {10, -0.05, -101, 490, 2, 0}, {600, 50, 600, 700, 0, 0},
	} {
		might, fits := talks.sides(0, x.stands, x.shift, x.low, x.high)
		assert.Equal(t, [2]int{x.might, x.fits}, [2]int{might, fits}, "%+v", x)
	}
	talks.axes[0].Settings.TravelName = "$133"
	for _, x := range []struct {
		travel       float64
		refuse, tell string
	}{
		{600, "", ""}, {-600, "", ""}, {599, "", "axis table: soft limits let it go 599 deg"},
		{high - low - 0.05, "", "a jog beyond them stops with an alarm"}, {high - low - 0.15, "it would stop with an alarm in the middle of it", ""},
	} {
		talks.read = settings{"$133": x.travel}
		f := talks.roomOf(0, "on")
		assert.Contains(t, f.refuse, x.refuse)
		assert.Contains(t, f.tell, x.tell)
		assert.Equal(t, x.refuse == "", f.refuse == "", "%+v", x)
		assert.Equal(t, x.tell == "", f.tell == "", "%+v", x)
		assert.Equal(t, math.Abs(x.travel), talks.travels[0])
	}
	talks.read = nil
	assert.Contains(t, talks.roomOf(0, "on").tell, "is not known")
	assert.Equal(t, []float64{400, 3}, []float64{400, float64(count(true) + count(false) + 2)})
}

// TestHowLateAPassMayBe: by the worst pace until it is seen, then from when it was.
func TestHowLateAPassMayBe(t *testing.T) {
	p := passing(t, 3)
	talks := p.m.(*lineController)
	s := &stream{pass: p}
	p.now = at(10_000)
	assert.InDelta(t, mostOff(10+p.runUp), s.mayLag(talks), 1e-9, "nothing has been seen yet")
	p.now = at(500)
	assert.InDelta(t, 0.05+(0.5+p.runUp)/10, s.mayLag(talks), 1e-9, "a tenth of what has passed, the run-up with it")
	p.now, s.seenAt = at(10_000), at(6000)
	assert.InDelta(t, mostOff(6)+0.0071*4, s.mayLag(talks), 1e-9, "a round, and four seconds since")
	talks.Foretold = func(rounds int64) float64 { return p.planned(rounds) - 0.03 }
	assert.InDelta(t, 0.05+0.03+0.0071*4, s.mayLag(talks), 1e-9)
	assert.InDelta(t, p.runUp+p.runOut+2*6, p.planned(2), 1e-9)
	assert.InDelta(t, p.planned(2)-0.03, p.foretold(2), 1e-9)
}
