package virtual_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// The two tables hold what a widely used open firmware for 8-bit boards was
// measured to do, on its host build: testdata/reference/README.md.
const (
	passes = "../../../testdata/reference/firmware_passes.tsv"
	slow   = "../../../testdata/reference/firmware_slow.tsv"
)

// closeEnough is how near the executed time must come, in s; the worst error
// must come as near as the way made in that time at the greatest speed, and
// half a step, which is what the time of a step may mean. All rows but one come
// within 0.2 ms, and that one within 0.7.
const closeEnough = 1e-3

// hostReaction is how long the measured host took to see an answer. It is
// more than nothing, so that the board has read all of the first 127 bytes,
// and begins to move, before the next come: the rows of 800 segments show that,
// and that the lines had no blanks.
const hostReaction = 200 * time.Microsecond

// measured is one row of a table.
type measured struct {
	blocks    int
	accel     float64
	feeds     string
	segments  int
	amplitude float64
	period    float64
	steps     float64 // a mm
	executed  float64 // s
	worst     float64 // mm
	dropped   int64   // -1 when not measured
}

func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func TestMeasuredPasses(t *testing.T) {
	rows := table(t, passes)
	require.Len(t, rows, 90)
	for _, row := range rows {
		n := func(key string) float64 { return number(t, row[key]) }
		check(t, measured{blocks: int(n("planner_blocks")), accel: n("acceleration_mm_s2"), feeds: row["feeds"],
			segments: int(n("segments")), amplitude: 100, period: 4, steps: 80, executed: n("executed_s"),
			worst: n("worst_error_mm"), dropped: -1})
	}
}

func TestMeasuredSlowMoves(t *testing.T) {
	rows := table(t, slow)
	require.Len(t, rows, 19)
	for _, row := range rows {
		n := func(key string) float64 { return number(t, row[key]) }
		check(t, measured{blocks: 16, accel: 500, feeds: "solved", segments: int(n("segments")), amplitude: n("amplitude_mm"),
			period: n("period_s"), steps: n("steps_per_mm"), executed: n("period_s") + n("late_ms")/1000,
			worst: n("worst_error_mm"), dropped: int64(n("dropped_lines"))})
	}
}

func check(t *testing.T, m measured) {
	t.Helper()
	o := bench()
	o.Blocks = m.blocks
	o.Axes[0].StepsPerUnit, o.Axes[0].Acceleration = m.steps, m.accel
	h := newHost(t, o)
	h.react = hostReaction
	require.Empty(t, h.stream(m.modes()))
	require.Empty(t, h.stream(m.lines()...))
	h.finish()
	got, worst := m.judge(h.rig.Record())
	name := fmt.Sprintf("%+v", m)
	assert.InDelta(t, m.executed, got, closeEnough, name)
	peak := 2 * math.Pi * m.amplitude / m.period // mm/s
	assert.InDelta(t, m.worst, worst, closeEnough*peak+0.5/m.steps, name)
	if m.dropped >= 0 {
		assert.Equal(t, m.dropped, h.rig.Stats().Dropped, name)
	}
}

// judge returns how long the motion lasts, and the error of the middle of each
// step that is worst. The measured times are those of the motion, from when its
// timer starts to when it stops, as the rows show: of slow step events the last
// comes three eighths before the end.
func (m measured) judge(d *virtual.Record) (lasts, worst float64) {
	start := d.Span(0).Start
	d.Steps(func(s virtual.Step) bool {
		sec := s.Seconds - start
		middle := (float64(s.Position) - float64(s.Dir)/2) / m.steps
		if e := middle - m.at(math.Min(sec, m.period)); math.Abs(e) > math.Abs(worst) {
			worst = e
		}
		return true
	})
	return d.Span(d.Len()-1).End - start, worst
}

func (m measured) at(t float64) float64 { return m.amplitude * (1 - math.Cos(2*math.Pi*t/m.period)) }

func (m measured) modes() string {
	if m.feeds == "inverse-time" {
		return "G21 G90 G93"
	}
	return "G21 G90 G94"
}

func (m measured) lines() []string {
	pos := make([]float64, m.segments+1)
	for i := range pos {
		pos[i] = m.at(m.period * float64(i) / float64(m.segments))
	}
	pos[m.segments] = 0
	feeds := m.perMinute(pos)
	out := make([]string, m.segments)
	for i := range out {
		out[i] = fmt.Sprintf("G1X%.3fF%.3f", pos[i+1], feeds[i])
	}
	return out
}

// perMinute returns the F words. Those of the table of passes were made from
// the positions as written, those of the slow moves from the exact ones.
func (m measured) perMinute(pos []float64) []float64 {
	ways := make([]float64, m.segments)
	for i := range ways {
		a, b := pos[i], pos[i+1]
		if m.dropped < 0 {
			a, b = math.Round(a*1000)/1000, math.Round(b*1000)/1000
		}
		ways[i] = math.Abs(b - a)
	}
	dt := m.period / float64(m.segments)
	out := make([]float64, m.segments)
	for i, d := range ways {
		out[i] = d / dt * 60
		if m.feeds == "inverse-time" {
			out[i] = 60 / dt
		}
	}
	if m.feeds == "solved" {
		half := m.segments / 2
		m.solve(ways[:half], out[:half], dt)
		m.solve(ways[half:], out[half:], dt)
	}
	return out
}

// solve chooses the feeds of half a move from its ends to its middle, so that
// each block, entered at the speed of its outer neighbour, covers its way in
// exactly dt: d = F dt - (F-before)²/2a. The middle one of an odd number pays
// on both sides. Where the acceleration does not allow it, F = d/dt.
func (m measured) solve(ways, out []float64, dt float64) {
	lo, hi := 0, len(ways)-1
	left, right := 0.0, 0.0
	for ; lo < hi; lo, hi = lo+1, hi-1 {
		left = m.faster(ways[lo], left, dt, 1)
		right = m.faster(ways[hi], right, dt, 1)
		out[lo], out[hi] = left*60, right*60
	}
	if lo == hi {
		out[lo] = m.faster(ways[lo], (left+right)/2, dt, 2) * 60
	}
}

func (m measured) faster(way, before, dt, ramps float64) float64 {
	a := m.accel * dt / ramps
	under := a*a - 2*m.accel/ramps*(way-before*dt)
	if under < 0 || way < before*dt {
		return way / dt
	}
	return before + a - math.Sqrt(under)
}
