package ontime

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/program"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// scene is a take that is watched by hand: an axis of 10 steps/mm that goes 10 mm/s and
// gains 20 mm in each of two rounds of 2 s, with four frames in each. It comes from 10 mm
// before in the second before frame 0, in line 3, and begins at 7 s; lines of a second
// each follow, 4 and 5 in the first round, 6 and 7 in the second, and half a second in
// line 8 after them.
type scene struct {
	*witness
	at int64 // steps
}

func watched(t *testing.T) *scene {
	w := newMachine(evenly(t, 60, "24")).witness(&ideal{sec: []float64{0, 0.5, 1, 1.5}, pos: [][]float64{{0}, {5}, {10}, {15}}}, 2)
	w.up, w.period, w.per, w.gain = 1, 2, []float64{10}, []float64{20}
	for _, l := range []program.Line{
		{Round: program.Setup}, {Round: program.Setup}, {Round: program.RunUp, Start: -1, Moves: true},
		{Start: 0, End: 1, Moves: true}, {Start: 1, End: 2, Moves: true, Block: 1},
		{Round: 1, Start: 2, End: 3, Moves: true}, {Round: 1, Start: 3, End: 4, Moves: true, Block: 1},
		{Round: 2, Start: 4, End: 4.5, Moves: true}, {Round: 2, Start: 4.5, End: 4.5},
	} {
		w.hear(&l)
	}
	return &scene{witness: w, at: -100}
}

// goes makes so many steps in a line, evenly from one time to another.
func (s *scene) goes(line, steps int64, from, to float64) {
	s.began(line, firmware.Lasting(from))
	s.ran(line, steps, from, to, 0)
}

// ran is one slice of it, whose first interval is short by the lead.
func (s *scene) ran(line, steps int64, from, to float64, lead firmware.Instant) {
	slice := firmware.Slice{
		Beat: firmware.Beat{Every: firmware.Lasting((to - from) / float64(steps))}, Pulses: steps,
		Events: steps, Line: line, Lead: lead,
	}
	slice.Begins[0], slice.Steps[0] = s.at, steps
	s.slice(&slice, firmware.Lasting(from))
	s.at += steps
}

// TestEachFrameIsHeldAgainstThePath: what is off at one captured frame is told with its
// place and its frame, whether the axis moves then, waits for the next line, or has done
// with the take; each frame is looked at once in each round, and what the axis gains in a
// round is no deviation.
func TestEachFrameIsHeldAgainstThePath(t *testing.T) {
	type run struct {
		line, steps int64
		from, to    float64
	}
	good := []run{{3, 100, 7, 8}, {4, 100, 8, 9}, {5, 100, 9, 10}, {6, 100, 10, 11}, {7, 100, 11, 12}, {8, 50, 12, 12.5}}
	for _, x := range []struct {
		name    string
		line    int // of those, which is another
		is      run
		worst   float64
		seconds float64
		frame   int64
	}{
		{"as planned", 0, good[0], 0, 0, 0},
		{"a late beginning", 1, run{4, 100, 8.2, 9}, 3.7 - 5, 0.5, 12}, // 100 in 0.8 s: 37 of 50 by 8.5
		{"too quick, and waits", 2, run{5, 100, 9, 9.4}, 5, 1.5, 36},
		{"in the second round", 4, run{7, 100, 11, 11.4}, 5, 3.5, 84},
		{"too few steps at last", 4, run{7, 40, 11, 11.4}, -1, 3.5, 84},
		{"off from the beginning", 0, run{3, 80, 7, 8}, -2, 0, 0},
	} {
		s := watched(t)
		for i, r := range good {
			if i == x.line {
				r = x.is
			}
			s.goes(r.line, r.steps, r.from, r.to)
		}
		s.look(firmware.Never)
		d := s.off[0]
		assert.InDelta(t, x.worst, d.Worst, 1e-9, x.name)
		assert.InDelta(t, x.seconds, d.Seconds, 1e-12, x.name)
		assert.Equal(t, x.frame, d.Frame, x.name)
		assert.Equal(t, [2]int{2, 0}, [2]int{s.round, s.frame}, "%s: each is looked at", x.name)
		assert.Equal(t, firmware.Never, s.next, x.name)
	}
}

// TestTheFirstOfTheWorstIsTold: an axis that is off by as much in all frames is told at
// the first.
func TestTheFirstOfTheWorstIsTold(t *testing.T) {
	s := watched(t)
	s.at = -120
	s.goes(3, 100, 7, 8)
	s.goes(4, 400, 8, 12)
	s.look(firmware.Never)
	assert.Equal(t, Deviation{Axis: "table", Unit: "deg", Wanted: 0.2, Worst: -2}, s.off[0])
}

// TestWhatStandsIsLookedAtToo: frames before the first step, and all of them where none
// comes.
func TestWhatStandsIsLookedAtToo(t *testing.T) {
	s := watched(t)
	s.last.Begins[0] = 40
	s.stands(3, firmware.Lasting(7), firmware.Lasting(8))
	assert.Equal(t, firmware.Lasting(8), s.next, "a second before frame 0")
	s.look(firmware.Lasting(8.6))
	assert.Equal(t, 2, s.frame, "two are due by then")
	assert.InDelta(t, 4, s.off[0].Worst, 1e-9, "of which the first is at 0, not at 4")
	s.look(firmware.Never)
	assert.InDelta(t, 4-35, s.off[0].Worst, 1e-9)
	assert.Equal(t, int64(84), s.off[0].Frame)
	idle := watched(t)
	idle.look(firmware.Never)
	assert.Zero(t, idle.off[0].Worst, "a take that has not begun has no frames")
}

// TestALineIsKnownByItsNumber: the lines of the program are counted from 1, those before
// the take and the end of it are none of it.
func TestALineIsKnownByItsNumber(t *testing.T) {
	s := watched(t)
	assert.Equal(t, 2, s.setup)
	require.Len(t, s.lines, 6)
	for number, start := range map[int64]float64{3: -1, 4: 0, 5: 1, 8: 4} {
		require.NotNil(t, s.line(number), "%d", number)
		assert.Equal(t, start, s.line(number).start, "%d", number)
	}
	for _, number := range []int64{-1, 0, 1, 2, 9, 10} {
		assert.Nil(t, s.line(number), "%d", number)
	}
	assert.Equal(t, heard{round: 1, block: 1, moves: true, start: 3, end: 4}, *s.line(7))
	s.began(2, 5)
	s.stands(1, 5, 6)
	assert.False(t, s.met, "the way to the start is not the take")
	s.began(3, 7)
	s.began(4, 9)
	assert.Equal(t, []firmware.Instant{7, 7, 9}, []firmware.Instant{s.zero, s.line(3).began, s.line(4).began})
}

// TestWhenARestBegins: with the end of the motion before it, however late the board comes
// to it; one before all motion when it does.
func TestWhenARestBegins(t *testing.T) {
	s := watched(t)
	s.goes(1, 10, 6, 7) // the way to the start ends as the take begins
	require.False(t, s.met)
	s.stands(3, firmware.Lasting(7), firmware.Lasting(7.5))
	assert.Equal(t, firmware.Lasting(7), s.line(3).began)
	s.stands(4, firmware.Lasting(7.6), firmware.Lasting(8))
	assert.Equal(t, firmware.Lasting(7.6), s.line(4).began)
	assert.Equal(t, firmware.Lasting(7), s.zero)
	s.goes(5, 50, 8, 8.5)
	s.stands(6, firmware.Lasting(8.7), firmware.Lasting(9))
	assert.Equal(t, firmware.Lasting(8.5), s.line(6).began)
	early := watched(t) // with time between the way to the start and the take
	early.goes(1, 10, 5, 6)
	early.stands(3, firmware.Lasting(7), firmware.Lasting(7.5))
	assert.Equal(t, firmware.Lasting(7), early.line(3).began)
}

// TestWhereTheTimerStandsShiftsAll: the lead of the first slice of the take is noted;
// where that of another run is to be taken for it, the take counts as begun by as much
// earlier or later. That of no other slice counts.
func TestWhereTheTimerStandsShiftsAll(t *testing.T) {
	for _, way := range []float64{6, 7} { // when the way to the start ends
		for _, aligned := range []bool{false, true} {
			s := watched(t)
			s.aligned, s.lead = aligned, 1000
			s.ran(1, 10, 5, way, 77)
			s.end = firmware.Lasting(way)
			s.began(3, firmware.Lasting(7))
			s.ran(3, 50, 7, 7.4, 3000)
			zero, lead := firmware.Lasting(7), firmware.Instant(3000)
			if aligned {
				zero, lead = zero-2000, 1000
			}
			assert.Equal(t, zero, s.zero, "%v %v", way, aligned)
			assert.Equal(t, lead, s.lead)
			assert.Equal(t, zero+firmware.Lasting(1), s.next)
			s.ran(4, 1, 7.4, 7.45, 5000)
			assert.Equal(t, zero, s.zero)
			assert.Equal(t, lead, s.lead)
		}
	}
}

// TestASliceOnTheEdge marks its line, and one that is not leaves it so.
func TestASliceOnTheEdge(t *testing.T) {
	s := watched(t)
	edged := func(line int64, edge int) {
		s.slice(&firmware.Slice{Line: line, Beat: firmware.Beat{Edge: edge}}, 0)
	}
	edged(3, -1)
	edged(3, 0)
	edged(4, 1)
	edged(1, 1) // of no line of the take
	assert.Equal(t, []int{-1, 1, 0}, []int{s.line(3).edge, s.line(4).edge, s.line(5).edge})
}

// TestHowLateRoundsAre: each line by when it begins, all of them by when the last motion
// ends; that a round is later than the one before is told by those that are alike. Were a
// late round told as early, or two for one, a take that drifts would pass.
func TestHowLateRoundsAre(t *testing.T) {
	late := []float64{0.010, 0.013, 0.020, 0.022, 0.030, 0.031}
	for _, x := range []struct {
		rounds int
		more   float64
	}{{1, 0.040 - 0.010}, {2, 0.040 - 0.013}, {3, 0.020 - 0.013}, {4, 0.022 - 0.020}, {5, (0.030 - 0.020) / 2}, {6, (0.031 - 0.022) / 2}} {
		for _, up := range []bool{false, true} {
			m := newMachine(evenly(t, 60, "24"))
			w := m.witness(idealOf(m.t), x.rounds)
			w.zero, w.up = firmware.Lasting(7), 0.5
			if up {
				w.lines = []heard{{round: program.RunUp, start: -0.5, end: 0, moves: true, began: w.zero}}
			}
			for r := range x.rounds {
				start := 6 * float64(r)
				w.lines = append(w.lines, heard{round: int64(r), start: start, end: start + 4, moves: true, began: firmware.Lasting(7.5 + start + late[r])},
					heard{round: int64(r), start: start + 4, end: start + 5, moves: true}, heard{round: int64(r), start: start + 5, end: start + 6, moves: true})
			}
			w.end = firmware.Lasting(7.5 + 6*float64(x.rounds) + 0.040)
			p := w.prediction(int64(x.rounds))
			assert.Equal(t, 3, p.Blocks)
			assert.InDelta(t, 0.010, p.begun, 1e-9)
			assert.InDelta(t, 0.040, p.Late, 1e-9)
			assert.InDelta(t, x.more, p.RoundLate, 1e-9, "%d rounds", x.rounds)
			assert.InDelta(t, 6+x.more, p.RoundExecuted, 1e-9)
			assert.InDelta(t, m.t.TakeTime(int64(x.rounds)).Float(), p.Planned, 1e-9)
			assert.InDelta(t, p.Planned+0.040, p.Executed, 1e-9)
			assert.Equal(t, m.within, p.Within)
			more := w.prediction(int64(x.rounds) + 4)
			assert.Equal(t, [2]int64{int64(x.rounds) + 4, int64(x.rounds)}, [2]int64{more.Rounds, more.Ran})
			assert.InDelta(t, 0.040+4*x.more, more.Late, 1e-9)
			// With a run-out, the rounds end where it begins, and the take after it; a rest
			// that it ends with holds nothing up.
			end := 6 * float64(x.rounds)
			w.lines = append(w.lines, heard{round: int64(x.rounds), start: end, end: end + 1, moves: true, began: firmware.Lasting(7.5 + end + 0.035)})
			w.end = firmware.Lasting(7.5 + end + 1 - 0.003)
			out := w.prediction(int64(x.rounds))
			assert.InDelta(t, 0.035, out.Late, 1e-9)
			assert.InDelta(t, out.Planned-0.003, out.Executed, 1e-9)
			assert.Equal(t, 3, out.Blocks)
			w.lines = append(w.lines, heard{round: int64(x.rounds), start: end + 1, end: end + 9, began: firmware.Lasting(7.5 + end + 1 + 0.002)})
			assert.InDelta(t, out.Planned+0.002, w.prediction(int64(x.rounds)).Executed, 1e-9)
		}
	}
}

// TestTheVeryLinesAreRun: from where the axis is homed, so many rounds, to the last frame
// of the last, and with what the take opens with; a line that cannot be told is an error,
// not a take that is on time.
func TestTheVeryLinesAreRun(t *testing.T) {
	tr := sample.Still(t)
	m := newMachine(tr)
	k, ok := m.cut(way{longest: exact.New(1, 50)})
	require.True(t, ok)
	x := idealOf(tr)
	far, err := m.run(k, 2, x)
	require.NoError(t, err)
	assert.Equal(t, [2]int{2, 0}, [2]int{far.round, far.frame})
	assert.Equal(t, int64(1), far.lines[len(far.lines)-1].round)
	assert.Less(t, far.off[0].Worst, 0.5)
	assert.Greater(t, far.off[0].Worst, -0.5)
	m.axes[0].Home = 40 // where the move begins
	near, err := m.run(k, 2, x)
	require.NoError(t, err)
	assert.Greater(t, (far.zero - near.zero).Seconds(), 0.1, "the way to the start takes 40 mm at 400 mm/s at least")
	assert.InDelta(t, far.off[0].Worst, near.off[0].Worst, 1e-9)
	m.opening.CountIn = 5
	counted, err := m.run(k, 2, x)
	require.NoError(t, err)
	assert.Greater(t, (counted.zero - near.zero).Seconds(), 3.0, "a count-in of 5 s")
	m.c.LineLength = 5
	_, err = m.run(k, 2, x)
	assert.Error(t, err)
}

// TestARestIsHeldAgainstThePathFromTheBeginning: an axis that is homed where the move
// begins and stands there at first is there.
func TestARestIsHeldAgainstThePathFromTheBeginning(t *testing.T) {
	rail := sample.Ways(sample.Rail(t, "3-4-5", 2), func(w *move.Ways) { w.DwellNear, w.Phase = exact.New(1, 4), exact.New(7, 8) })
	tr := sample.Make(t, 24, sample.Bench(rig.InverseTime), rail)
	m := newMachine(tr)
	m.axes[0].Home = 40
	k, ok := m.cut(way{longest: exact.New(1, 50)})
	require.True(t, ok)
	w, err := m.run(k, 1, &ideal{sec: []float64{0.05}, pos: [][]float64{{40}}})
	require.NoError(t, err)
	assert.Zero(t, w.off[0].Worst)
}
