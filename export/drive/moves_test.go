package drive

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/program"
)

// TestAGentleMove in lines: absolute to a place, or by a distance where nothing is known;
// a tenth of 180 degrees a second is 1080 a minute. It is waited for, and is where it was
// sent, or astray.
func TestAGentleMove(t *testing.T) {
	talks, w := echoed(t)
	talks.controller.Decimals = 3
	talks.at = []float64{10}
	require.NoError(t, talks.glide(0, 25.5, false))
	assert.Equal(t, []string{"G21 G90", "G94", "G1 A25.500 F1080.000", "G90", "G4 P0"}, w.heard)
	assert.Equal(t, []float64{25.5}, talks.at)
	assert.Equal(t, []float64{25.5}, talks.bound)
	w.heard = nil
	require.NoError(t, talks.glide(0, -3, true))
	assert.Equal(t, []string{"G21 G91", "G94", "G1 A-3.000 F1080.000", "G90", "G4 P0"}, w.heard)
	assert.Equal(t, []float64{25.5}, talks.at, "by a distance it is nowhere that is known")
	assert.Equal(t, []float64{25.5}, talks.bound)

	talks.shift = []float64{100} // it reports 100 more
	w.reports = "<Idle|MPos:0,0,0,130.2|Bf:15,128>"
	require.NoError(t, talks.glide(0, 30, false), "two tenths are a step and what a report is worth")
	w.reports = "<Idle|MPos:0,0,0,130.25|Bf:15,128>"
	require.ErrorContains(t, talks.glide(0, 30, false), "astray: axis table was sent to 30.000 deg and is reported at 30.250")
}

// TestWhereItCountsFrom: it is told a place in one line, and what it reports of it then is
// how far off its own count is.
func TestWhereItCountsFrom(t *testing.T) {
	talks, w := echoed(t)
	talks.controller.Decimals = 3
	talks.at = []float64{0}
	w.reports = "<Idle|MPos:0,0,0,500|Bf:15,128>"
	require.NoError(t, talks.place([]float64{-20}))
	assert.Equal(t, []string{"G92 A-20.000", "?"}, w.heard)
	assert.Equal(t, []float64{520}, talks.shift)
	assert.Equal(t, []float64{520}, talks.counter.far)
	at, ok := talks.position()
	require.True(t, ok)
	assert.Equal(t, []float64{-20}, at)

	// Home it, and it is where the rig file says; an endless axis without a switch is
	// taken to be where it was put.
	talks.controller.HomeLine, talks.axes[0].HomeLine, talks.axes[0].Home = "$H", "$H", 7
	assert.Equal(t, []string{"$H"}, talks.homeLines())
	assert.True(t, talks.canHome() && talks.homes(0))
	w.heard = nil
	require.NoError(t, talks.engine.home())
	assert.Equal(t, []string{"$H", "G92 A7.000", "?"}, w.heard)
	assert.Equal(t, []float64{7}, talks.at)
	assert.True(t, talks.known && talks.sure(0))
	talks.homesNot = true
	assert.False(t, talks.homes(0))
	assert.Equal(t, []float64{talks.start[0]}, talks.byHand())
}

// TestAJog is by so much from where it stands, within the travel.
func TestAJog(t *testing.T) {
	talks, w := echoed(t)
	talks.controller.Decimals = 3
	talks.at, talks.known = []float64{10}, true
	talks.axes[0].Endless, talks.axes[0].Min, talks.axes[0].Max = false, 0, 15
	require.NoError(t, talks.engine.jog(Request{By: 5}))
	assert.Equal(t, []float64{15}, talks.at)
	assert.Contains(t, w.heard, "G1 A15.000 F1080.000")
	w.heard = nil
	require.NoError(t, talks.engine.jog(Request{By: 0.5}))
	assert.Empty(t, w.heard)
	require.NoError(t, talks.engine.jog(Request{Axis: 1, By: -1}))
	require.NoError(t, talks.engine.jog(Request{Axis: -1, By: -1}))
	assert.Empty(t, w.heard, "there is no such axis")
	talks.known = false
	require.NoError(t, talks.engine.jog(Request{By: -2}))
	assert.Contains(t, w.heard, "G1 A-2.000 F1080.000", "where nothing is known it goes by a distance")
	assert.Contains(t, w.heard, "G21 G91")
}

// lineSource hands out lines.
type lineSource struct {
	lines  []program.Line
	finish int64
}

func (s *lineSource) Next() (program.Line, bool) {
	if len(s.lines) == 0 {
		return program.Line{}, false
	}
	l := s.lines[0]
	s.lines = s.lines[1:]
	return l, true
}
func (s *lineSource) Err() error               { return nil }
func (s *lineSource) FinishAfter(rounds int64) { s.finish = rounds }

// TestLinesOfAPass go out as there is room for them; the last, which ends the program of a
// file, is held back, and a wait for the end of motion goes in its place.
func TestLinesOfAPass(t *testing.T) {
	talks, _ := echoed(t)
	talks.controller.ReceiveBuffer = 32
	p := newPass(talks.engine, 1)
	talks.engine.pass = p
	src := &lineSource{lines: []program.Line{
		{Text: "G4 P0.5", Round: program.Setup}, {Text: "G1 A1 F1", Round: program.RunUp, Moves: true, Start: -0.1, End: 0},
		{Text: "G1 A2 F1", Moves: true, End: 0.1}, {Text: "G1 A3 F1", Moves: true, Start: 0.1, End: 0.2, Round: 1},
		{Text: "G1 A4 F1", Moves: true, Start: 0.2, End: 0.3, Round: 2}, {Text: "M2", Round: 2, Start: 0.3, End: 0.3},
	}}
	talks.stream = stream{pass: p, source: src, fill: 0.5}
	p.total = 2
	require.NoError(t, talks.feed(p))
	assert.Len(t, talks.flight, 3, "8, 9 and 9 characters, and 6 free, one of them always")
	assert.Equal(t, 26, talks.bytes)
	assert.InDelta(t, 26.0/32, p.fill, 1e-12)
	assert.Equal(t, int64(1), p.rounds)
	assert.InDelta(t, 0.1, p.until, 1e-12)
	assert.Equal(t, noon, talks.stream.fillsFrom)
	// The dwell is answered when it is over, and those behind it after that.
	prompt := func(bytes, lines, ahead int) int64 {
		return int64(overdue) + int64(talks.way.bytes(bytes+ahead+4*lines))
	}
	assert.GreaterOrEqual(t, talks.flight[0].by.UnixNano(), noon.Add(seconds(0.5)).UnixNano()+prompt(8, 1, 0))
	assert.Equal(t, noon.Add(seconds(0.5)).UnixNano()+prompt(9, 2, 8), talks.flight[1].by.UnixNano())
	talks.flight, talks.bytes = talks.flight[:0], 0
	require.NoError(t, talks.feed(p))
	assert.Len(t, talks.flight, 3)
	assert.Equal(t, syncLine, talks.flight[2].text)
	assert.Equal(t, int64(2), p.rounds)
	assert.Equal(t, int64(2), p.total)
	assert.InDelta(t, 0.3, talks.flight[2].line.Start, 1e-12)
	require.NoError(t, talks.feed(p))
	assert.Len(t, talks.flight, 3, "there is no more")
	p.total, p.rounds = 0, 5
	talks.finish(p)
	assert.Equal(t, [2]int64{5, 5}, [2]int64{p.total, src.finish})
	p.rounds = 0
	talks.finish(p)
	assert.Equal(t, int64(1), src.finish, "a round at the least")
}

// TestARehearsal finds the dwell that lets buffers fill, those of the rests, and by how
// much straight blocks leave the path: from 0 to 6 degrees in 0.1 s they do not, from 0 to
// 10 their middle is 2 degrees off.
func TestARehearsal(t *testing.T) {
	talks, _ := echoed(t)
	src := &lineSource{lines: []program.Line{
		{Text: "G4 P0.25", Round: program.Setup}, {Text: "G4 P0.5", Round: program.Setup}, {Text: "G1 A0 F1", Round: program.RunUp, Moves: true, Aim: []float64{0}},
		{Text: "G1 A6 F1", Moves: true, End: 0.1, Aim: []float64{6}}, {Text: "G4 P0.125", Start: 0.1, End: 0.225, Aim: []float64{6}},
		{Text: "G1 A16 F1", Moves: true, Start: 0.1, End: 0.2, Aim: []float64{16}}, {Text: "G4 P0.0625", Start: 0.1, End: 0.225},
	}}
	talks.Source = func() Source { return src }
	talks.Rounds = 0
	fill, rests, err := talks.rehearse()
	require.NoError(t, err)
	assert.Equal(t, 0.5, fill)
	assert.Equal(t, []float64{0.125, 0.0625}, rests)
	assert.InDelta(t, 2, talks.leaves[0], 1e-9)
	assert.Equal(t, int64(2), src.finish, "two rounds show all")
	talks.Rounds = 1
	_, _, err = talks.rehearse()
	require.NoError(t, err)
	assert.Equal(t, int64(1), src.finish)
	src.lines = []program.Line{{Text: string(make([]byte, 127))}}
	talks.controller.LineLength = 80
	_, _, err = talks.rehearse()
	require.ErrorContains(t, err, "has 127 characters and the controller reads 80")
	talks.stream.fill = 0.5
	assert.Equal(t, seconds(0.5+0.12), talks.lead(), "the dwell, and 120 bytes")
	talks.controller.Baud = 0
	assert.Equal(t, seconds(0.5), talks.lead())
}
