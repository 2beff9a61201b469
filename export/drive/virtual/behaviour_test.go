package virtual_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// How the host streams shows in the lateness as it was measured to.
func TestMeasuredStreaming(t *testing.T) {
	rows := table(t, "../../../testdata/reference/firmware_streaming.tsv")
	require.Len(t, rows, 8)
	for _, row := range rows {
		n := func(key string) float64 { return number(t, row[key]) }
		m := measured{blocks: 16, accel: 1000, feeds: "solved", segments: int(n("segments")), amplitude: 100, period: 4, steps: 80, dropped: -1}
		o := bench()
		o.Axes[0].Acceleration, o.Baud, o.LineSeconds = m.accel, 115200, 300e-6
		h := newHost(t, o)
		h.window, h.react = int(n("counts_bytes")), time.Duration(n("host_delay_ms"))*time.Millisecond
		lines := m.lines()
		if s := n("dwell_s"); s > 0 {
			lines = append([]string{fmt.Sprintf("G4P%v", s)}, lines...)
		}
		require.Empty(t, h.stream(lines...))
		h.finish()
		got, _ := m.judge(h.rig.Record())
		late := n("late_ms") / 1000
		assert.InDelta(t, late, got-m.period, math.Max(3e-3, 0.1*late), "%v", row)
	}
}

// A turntable that turns evenly is coupled to the carriage in every block, and
// a corner setting too fine makes it worse.
func TestMeasuredTwoAxes(t *testing.T) {
	rows := table(t, "../../../testdata/reference/firmware_two_axes.tsv")
	require.Len(t, rows, 4)
	for _, row := range rows {
		n := func(key string) float64 { return number(t, row[key]) }
		o := bench()
		o.AlongAll, o.JunctionDeviation = true, n("junction_deviation_mm")
		o.Axes[0].Acceleration = n("acceleration")
		o.Axes = append(o.Axes, virtual.Axis{Letter: 'A', Rotary: true, StepsPerUnit: 26.7,
			Acceleration: n("acceleration"), Speed: 200, Endless: true})
		const blocks, period = 200, 4.0
		lines := []string{"G93"}
		for i := 1; i <= blocks; i++ {
			u := float64(i) / blocks
			lines = append(lines, fmt.Sprintf("G1X%.3fA%.3fF%.3f", 100*(1-math.Cos(2*math.Pi*u)), 360*u, 60*blocks/period))
		}
		got, end := lasts(t, o, lines...)
		late := n("late_ms") / 1000
		assert.InDelta(t, late, got-period, math.Max(3e-3, 0.02*late), "%v", row)
		assert.Equal(t, 0.0, end[0])
		assert.InDelta(t, 360, end[1], 1/26.7)
	}
}

// Asked for all the speed there is, in short blocks, it goes as fast as it can
// stop within the blocks it holds, v² = 2 a (B-1) L, and no faster. The one in
// hand is used up on the way, so it is between B-2 and B-1 of them.
func TestLookAheadBoundsTheSpeed(t *testing.T) {
	const way, accel = 0.5, 500.0 // mm a block, mm/s²
	for _, blocks := range []int{4, 8, 16, 36, 100} {
		o := onTheDot()
		o.Axes[0].Acceleration, o.Axes[0].Speed, o.Axes[0].Max, o.Blocks = accel, 1000, 1e4, blocks
		var lines []string
		for i := 1; i <= 2000; i++ {
			lines = append(lines, fmt.Sprintf("G94 G1 X%v F60000", way*float64(i)))
		}
		h := newHost(t, o)
		require.Empty(t, h.stream(lines...))
		h.finish()
		d := h.rig.Record()
		middle := d.Span(d.Len() / 2).Start
		v := (d.At(middle + 0.5)[0] - d.At(middle - 0.5)[0]) / 1
		held := func(n int) float64 { return math.Sqrt(2 * accel * way * float64(n)) }
		assert.Less(t, v, held(blocks-1), "%d blocks", blocks)
		assert.Greater(t, v, held(blocks-2)*0.95, "%d blocks", blocks)
	}
}

// Every pass is the same to the last step, and every run of the same events.
func TestDeterministic(t *testing.T) {
	run := func() []virtual.Step {
		m := measured{blocks: 16, accel: 1000, feeds: "solved", segments: 100, amplitude: 100, period: 4, steps: 80, dropped: -1}
		o := bench()
		o.Baud, o.LineSeconds = 115200, 300e-6
		h := newHost(t, o)
		require.Empty(t, h.stream(append([]string{"G4P0.3"}, m.lines()...)...))
		h.finish()
		var out []virtual.Step
		h.rig.Record().Steps(func(s virtual.Step) bool { out = append(out, s); return true })
		return out
	}
	first := run()
	require.Len(t, first, 2*16000)
	assert.Equal(t, first, run())
}
