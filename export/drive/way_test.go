package drive

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/program"
)

const ms = time.Millisecond

// noon is an instant to count from; at is so many ms after it.
var noon = time.Date(2024, 1, 1, 12, 0, 0, 0, time.UTC)

func at(millis float64) time.Time {
	return noon.Add(time.Duration(millis * float64(time.Millisecond)))
}

func spanOf(a, b, c float64) span { return span{at(a), at(b), at(c)} }

// TestWhenBytesAreAcross: ten bits each, one after the other, from when the wire is free.
// At 10 000 bits/s that is a millisecond a byte.
func TestWhenBytesAreAcross(t *testing.T) {
	l := newLink(10_000)
	assert.Equal(t, 7*ms, l.bytes(7))
	l.sent(5, at(0))
	assert.Equal(t, at(5), l.across)
	l.sent(3, at(2))
	assert.Equal(t, at(8), l.across, "behind those before")
	l.sent(1, at(20))
	assert.Equal(t, at(21), l.across, "the wire was free")
	none := newLink(0)
	none.sent(500, at(3))
	assert.Equal(t, at(3), none.across, "a wire that is not known takes no time")
	assert.Equal(t, newLink(-1), newLink(0))
}

// TestWhenAnAnswerWasSaid: when its first byte came, less that byte on the wire; or as
// early as the first of the lines that came without a gap up to it, since it may have
// waited for those; or any time while this computer was not looking.
func TestWhenAnAnswerWasSaid(t *testing.T) {
	l := newLink(10_000)
	l.hears(4, at(11)) // its first byte was begun at 10, its last is there at 14
	assert.Equal(t, spanOf(10, 10, 10), l.said())
	l.hears(4, at(16)) // begun at 15, within four bytes
	assert.Equal(t, spanOf(10, 15, 15), l.said())
	l.hears(4, at(24)) // the last was there at 19: four ms are three bytes and the grain
	assert.Equal(t, spanOf(10, 23, 23), l.said())
	l.hears(4, at(32.1)) // there at 27, and more than four later
	assert.Equal(t, spanOf(31.1, 31.1, 31.1), l.said())
	assert.Equal(t, 4, l.count)
	l.wakes(at(5), at(30), at(31))
	assert.Equal(t, spanOf(31.1, 31.1, 31.1), l.said(), "a millisecond late is looking")
	l.wakes(at(5), at(30), at(31.01))
	assert.Equal(t, spanOf(5, 31.1, 31.1), l.said(), "and later is not")
	l.wakes(at(40), at(50), at(60))
	assert.Equal(t, spanOf(31.1, 31.1, 31.1), l.said(), "it came before that")
	l.wakes(at(40), at(50), at(50))
	assert.True(t, l.blind.IsZero())
}

// TestHowFarAnswersDiffer: reports tell, or prompt answers where none has come; a
// millisecond is what an adapter makes.
func TestHowFarAnswersDiffer(t *testing.T) {
	l := newLink(10_000)
	assert.Equal(t, ms, l.jitter())
	l.answers.add(4 * ms)
	l.answers.add(10 * ms)
	l.answers.add(7 * ms)
	assert.Equal(t, 6*ms, l.jitter())
	l.reports.add(3 * ms)
	assert.Equal(t, ms, l.jitter())
	l.reports.add(5 * ms)
	assert.Equal(t, 2*ms, l.jitter())
	assert.Equal(t, spread{n: 3, least: 4 * ms, most: 10 * ms, kept: []time.Duration{4 * ms, 10 * ms, 7 * ms}}, l.answers)

	// What an answer takes longer than a report is the work on a line; lines of a take
	// may be quicker.
	assert.Equal(t, 1*ms, l.work(), "4 less the mean 3 of those as short as the shortest")
	l.reports.add(4 * ms)
	assert.Equal(t, 500*time.Microsecond, l.work(), "3 and 4 are 3.5 in the mean, 5 is too long")
	l.lines.add(3800 * time.Microsecond)
	assert.Equal(t, 300*time.Microsecond, l.work())
	l.lines = spread{}
	l.lines.add(9 * ms)
	assert.Equal(t, 500*time.Microsecond, l.work())
	l.lines.add(ms)
	assert.Zero(t, l.work(), "never less than nothing")
	assert.Zero(t, (&link{reports: l.reports}).work(), "nor known without both")
	assert.Zero(t, (&link{answers: l.answers}).work())
	assert.Zero(t, (&spread{}).usual())
	var many spread
	for range 150 {
		many.add(ms)
	}
	assert.Len(t, many.kept, 100)
	assert.Equal(t, 150, many.n)
}

// TestWhenLinesHadBeenRead: an answer that came with a gap tells; where they have come as
// close as the wire carries them the controller may have been done before: by as much as
// each line takes it, no sooner than it began and no later than it said so.
func TestWhenLinesHadBeenRead(t *testing.T) {
	l := newLink(10_000) // an ok is 4 ms
	from, said := spanOf(90, 100, 110), func(x float64) span { return spanOf(x-1, x, x) }
	assert.Equal(t, span{at(130), at(130), at(131)}, l.hasRead(from, said(130), 0))
	assert.Equal(t, span{at(114), at(114), at(115)}, l.hasRead(from, said(114), 3), "three answers are 12 ms and a grain")
	assert.Equal(t, span{at(90), at(100), at(114)}, l.hasRead(from, said(113), 3), "nothing is known of its work")
	l.reports.add(2 * ms)
	l.answers.add(4 * ms)
	l.answers.add(5 * ms)
	assert.Equal(t, span{at(90), at(106 + 1.5), at(114)}, l.hasRead(from, said(113), 3), "2.5 ms each, by what answers take longer")
	assert.Equal(t, span{at(90), at(103), at(103)}, l.hasRead(from, said(102), 3), "but no longer than there was")
	assert.Equal(t, span{at(90), at(107.5), at(114)}, l.hasRead(spanOf(90, 100, 100), said(113), 3), "three times the longest answer are 15")
	l.answers.most = 4 * ms
	assert.Equal(t, span{at(90), at(107.5), at(112)}, l.hasRead(spanOf(90, 100, 100), said(113), 3))
}

// TestBoundsOfAnInstant: what lies between two is out by the worse of both sides.
func TestBoundsOfAnInstant(t *testing.T) {
	assert.Equal(t, spanOf(5, 7, 9), spanOf(5, 7, 9).within())
	assert.Equal(t, spanOf(5, 5, 9), spanOf(5, 3, 9).within())
	assert.Equal(t, spanOf(5, 9, 9), spanOf(5, 12, 9).within())
	assert.Equal(t, spanOf(7, 9, 11), spanOf(5, 7, 9).add(2*ms))
	lasts, doubt := between(spanOf(0, 1, 4), spanOf(98, 100, 101))
	assert.Equal(t, [2]time.Duration{99 * ms, 5 * ms}, [2]time.Duration{lasts, doubt}, "99 and from 94 to 101")
	lasts, doubt = between(spanOf(-6, 1, 2), spanOf(99, 100, 103))
	assert.Equal(t, [2]time.Duration{99 * ms, 10 * ms}, [2]time.Duration{lasts, doubt}, "and from 97 to 109")
	assert.Equal(t, at(3), later(at(3), at(1)))
	assert.Equal(t, at(3), later(at(1), at(3)))
	assert.Equal(t, at(1), earlier(at(3), at(1)))
	assert.Equal(t, at(1), earlier(at(1), at(3)))
	assert.Equal(t, 1500*ms, seconds(1.5))
}

// slowWire takes so many bytes a time.
type slowWire struct {
	World
	room int
	took []byte
	err  error
}

func (w *slowWire) Write(p []byte) (int, error) {
	n := min(w.room, len(p))
	w.room -= n
	w.took = append(w.took, p[:n]...)
	return n, w.err
}

// TestUrgentBytesOvertake: also in the middle of a line; a frame that cuts in goes behind
// the one that has begun, so that neither is torn.
func TestUrgentBytesOvertake(t *testing.T) {
	var o wire
	w := &slowWire{room: 2}
	assert.False(t, o.waiting())
	o.send([]byte("abc"))
	o.send([]byte("de"))
	require.NoError(t, o.flush(w))
	assert.Equal(t, "ab", string(w.took))
	assert.Equal(t, [3]int64{5, 2, 2}, [3]int64{o.queued, o.lined, o.sent})
	o.cutIn([]byte("XY"))
	o.hurry('!')
	assert.True(t, o.waiting())
	w.room = 4
	require.NoError(t, o.flush(w))
	assert.Equal(t, "ab!cXY", string(w.took))
	assert.Equal(t, [3]int64{7, 5, 6}, [3]int64{o.queued, o.lined, o.sent})
	o.cutIn([]byte("Z"))
	assert.Equal(t, "Zde", string(o.queue), "nothing has begun: at the front")
	o.forget()
	assert.False(t, o.waiting())
	assert.Equal(t, int64(5), o.queued, "what is forgotten was never sent")
	o.cutIn([]byte("q"))
	w.room, w.err = 1, errors.New("gone")
	assert.Error(t, o.flush(w))
	assert.Equal(t, "ab!cXYq", string(w.took))
}

// TestRowsOfSteps: each holds by how much the motors turn in a tick, as absolute places
// have it, so that nothing adds up; more than 127 in one is refused.
func TestRowsOfSteps(t *testing.T) {
	place := func(sec float64, steps []int64) {
		steps[0], steps[1] = nearestStep(10*sec, 100), nearestStep(-3*sec, 100)
	}
	r := newRows(2, 0.1, 4, place)
	var buf []byte
	var err error
	for r.left() {
		buf, err = r.row(buf)
		require.NoError(t, err)
	}
	assert.Equal(t, []byte{100, 226, 100, 226, 100, 226, 100, 226}, buf, "100 forward and 30 back, four times")
	assert.False(t, r.left())
	assert.True(t, newRows(1, 1, -1, place0).left(), "one without an end goes on")
	for _, x := range []struct {
		mm float64
		ok bool
	}{{127, true}, {128, false}, {-128, true}, {-129, false}} {
		r := newRows(1, 1, 1, func(sec float64, steps []int64) { steps[0] = int64(x.mm * sec) })
		_, err := r.row(nil)
		assert.Equal(t, x.ok, err == nil, "%v", x)
	}
	low, high := newRows(2, 0.1, 4, place).between(1, 3)
	assert.Equal(t, [][]int64{{100, -90}, {300, -30}}, [][]int64{low, high})
	low, high = newRows(2, 0.1, 4, place).between(-2, 1)
	assert.Equal(t, [][]int64{{0, -30}, {100, 0}}, [][]int64{low, high}, "there are none before the first")
	low, high = newRows(2, 0.1, 4, place).between(4, 9)
	assert.Equal(t, [][]int64{{400, -120}, {400, -120}}, [][]int64{low, high}, "nor beyond the last")
	low, high = newRows(2, 0.1, -1, place).between(8, 9)
	assert.Equal(t, [][]int64{{800, -270}, {900, -240}}, [][]int64{low, high})
	for _, x := range []struct {
		pos  float64
		want int64
	}{{0.0049, 0}, {0.005, 1}, {-0.005, 0}, {-0.0051, -1}, {1.234, 123}} {
		assert.Equal(t, x.want, nearestStep(x.pos, 100), "%v", x)
	}
	for sec, want := range map[float64]int64{0.3: 3, 0.30000001: 3, 0.301: 4, 0: 0, 0.0999: 1} {
		assert.Equal(t, want, ticksOf(sec, 0.1), "%g s", sec)
	}
}

func place0(float64, []int64) {}

// TestDwellsInGrains: a dwell lasts whole grains, none less than it was told; a hair above
// a whole number is that number, since words have six decimals.
func TestDwellsInGrains(t *testing.T) {
	for _, x := range []struct{ told, grain, want float64 }{
		{0.12, 0.05, 0.15}, {0.15, 0.05, 0.15}, {0.1500001, 0.05, 0.15}, {0.15001, 0.05, 0.2}, {0.12, 0, 0.12}, {0, 0.05, 0}, {0.12, -1, 0.12},
	} {
		assert.InDelta(t, x.want, inGrains(x.told, x.grain), 1e-12, "%v", x)
	}
	for text, want := range map[string]float64{"G4 P0.25": 0.25, "G4 P0": 0, "G1 X1": 0, "G4 Px": 0, "G4": 0} {
		assert.Equal(t, want, dwell(text), text)
	}
	talks := &talker{engine: &engine{job: &job{}}}
	talks.controller.DwellGrain, talks.controller.IdleDelay = 0.05, 0.025
	assert.InDelta(t, 7.025, talks.ends(&program.Line{Text: syncLine, Start: 7, End: 9}), 1e-12)
	assert.InDelta(t, 7, talks.ends(&program.Line{Text: "G1 X1", Moves: true, Start: 7, End: 9}), 1e-12)
	assert.InDelta(t, 9+0.03+0.025, talks.ends(&program.Line{Text: "G4 P0.12", Start: 8.88, End: 9}), 1e-12, "a grain that is begun is waited for")
	// Which dwells are tried: the shortest, the middle and the longest of up to a second.
	assert.Equal(t, []float64{0.1, 0.3, 0.9}, tries([]float64{0.9, 0.3, 0.1, 0.2, 0.5, 0.1, 1.5}))
	assert.Equal(t, []float64{0.1, 1}, tries([]float64{1, 0.1, 1, 1.001}))
	assert.Empty(t, tries([]float64{2}))
	for grain, want := range map[float64]float64{0.0029: 0, 0.003: 0.003, 0.0501: 0.05, 0.0506: 0.051} {
		assert.InDelta(t, want, wholeMillis(grain), 1e-12, "%g s", grain)
	}
	assert.Equal(t, []string{"none", "50 ms"}, []string{grainWords(0), grainWords(0.05)})
}

// TestWhatIsSaidOfAPass in words with their number and direction.
func TestWhatIsSaidOfAPass(t *testing.T) {
	assert.Equal(t, "it has no hold: it still has 1 line and moves for up to 1.5 s more", holds(1, 1500*ms))
	assert.Equal(t, "it has no hold: it still has 12 lines and moves for up to 0.0 s more", holds(12, -ms))
	assert.Equal(t, "it slows down within 0.5 s, and keeps 2 lines and 3.2 s of motion", heldBack(2, 3.2, 500*ms))
	assert.Equal(t, "it slows down within 0.5 s, and keeps 0 lines and 0.0 s of motion", heldBack(0, -1, 500*ms))
	assert.Equal(t, "the pass took 15.0 ms longer than planned, give or take 3.0 ms, 0.3 captured frames: look at it before you keep it", outOfStep(0.015, 0.003, 0.05))
	assert.Equal(t, "the pass took 25.0 ms less than planned, give or take 3.0 ms, 0.5 captured frames: look at it before you keep it", outOfStep(-0.025, 0.003, 0.05))
	assert.Equal(t, "axis pan is", axesNamed([]string{"pan"}))
	assert.Equal(t, "axes pan, tilt are", axesNamed([]string{"pan", "tilt"}))
}

// TestFromWhenOnThereIsRoom for a block: when the oldest of those that are held is over,
// or may be by a block that is longer. A rest empties it, and blocks of more than a fifth
// of a second tell nothing.
func TestFromWhenOnThereIsRoom(t *testing.T) {
	var a lookahead
	line := func(from, to float64) *program.Line { return &program.Line{Moves: true, Start: from, End: to} }
	type room struct {
		sec float64
		ok  bool
	}
	next := func(l *program.Line) room {
		sec, ok := a.next(l, 3)
		return room{math.Round(sec*1e9) / 1e9, ok}
	}
	assert.Equal(t, room{0, false}, next(&program.Line{Round: program.Setup, Moves: true, Start: 3, End: 3.1}))
	assert.Equal(t, room{1, true}, next(line(1, 1.1)), "the first, when it begins")
	assert.Equal(t, room{1, true}, next(line(1.1, 1.25)), "1.1, less the longest, of 0.1")
	assert.Equal(t, room{0.95, true}, next(line(1.25, 1.3)), "less 0.15")
	assert.Equal(t, room{1.1, true}, next(line(1.3, 1.4)), "three are held: when the first is over")
	assert.Equal(t, room{1.25, true}, next(line(1.4, 1.59)))
	assert.Equal(t, room{1.3, false}, next(line(1.59, 1.81)), "a block of more than a fifth of a second")
	assert.Equal(t, room{0, false}, next(&program.Line{Text: "G4 P1", Start: 1.81, End: 2.81}))
	assert.Equal(t, room{2.81, true}, next(line(2.81, 2.9)))
}
