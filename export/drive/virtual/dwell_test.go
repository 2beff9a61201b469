package virtual_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/virtual"
)

const dwells = "../../../testdata/reference/firmware_dwells.tsv"

// dwellClose is how near a dwell must come, in s: a fifth of what an answer
// takes on the wire at 115200 baud, and six times the hundredths of a
// millisecond that a real board needs between motion and dwell.
const dwellClose = 0.1e-3

// idleAlways is the setting of a board whose motors keep their current: it has
// no idle delay.
const idleAlways = 255

// A board stands still between two moves for as long as was measured, whatever
// it is told and however long its motors settle.
func TestMeasuredDwells(t *testing.T) {
	f, err := os.Open(dwells)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma, r.Comment = '\t', '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, dwellRows+1)
	for _, row := range rows[1:] {
		o := bench()
		o.DwellGrain = 0.05
		if idle := number(t, row[0]); idle < idleAlways {
			o.IdleDelay = idle / 1000
		}
		got := stands(t, o, row[1])
		assert.InDelta(t, number(t, row[2]), got, dwellClose, "%v", row)
	}
}

// dwellRows is how many dwells were measured.
const dwellRows = 57

// stands returns how long the motors stand still between two moves of 80 steps
// with a dwell between them, in s.
func stands(t require.TestingT, o virtual.Options, dwell string) float64 {
	rig := virtual.New(o)
	_, err := rig.Write([]byte("G21 G90 G94\nG1 X1 F6000\nG4 P" + dwell + "\nG1 X2\n"))
	require.NoError(t, err)
	for next, ok := rig.Next(); ok && next < longest; next, ok = rig.Next() {
		rig.AdvanceTo(next)
	}
	rec := rig.Record()
	for i := 1; i < rec.Len(); i++ {
		if rec.Span(i).From[0] == 1 {
			return rec.Span(i).Start - rec.Span(i-1).End
		}
	}
	require.Fail(t, "it never went on")
	return 0
}

// Whatever a board is told, it dwells for at least that, and by less than a
// grain more; without a grain for exactly that.
func TestDwellsLastGrains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := bench()
		o.DwellGrain = rapid.SampledFrom([]float64{0, 0.01, 0.05, 0.1}).Draw(t, "grain")
		o.IdleDelay = rapid.SampledFrom([]float64{0, 0.025, 0.25}).Draw(t, "idle")
		told := float64(rapid.IntRange(0, 3000).Draw(t, "ms")) / 1000
		got := stands(t, o, fmt.Sprintf("%.3f", told)) - o.IdleDelay
		assert.GreaterOrEqual(t, got, told-dwellClose)
		assert.Less(t, got, told+o.DwellGrain+told*1e-3+dwellClose)
		if o.DwellGrain == 0 {
			assert.InDelta(t, told, got, dwellClose)
		}
	})
}

// While its motors settle after a hold it is still slowing down, takes no line,
// and goes on when it is told to afterwards.
func TestSettlesAfterAHold(t *testing.T) {
	o := bench()
	o.IdleDelay = 0.2
	h := newHost(t, o)
	require.Empty(t, h.stream("G21 G90 G94", "G1 X50 F3000"))
	h.rig.Advance(500 * time.Millisecond)
	h.say("!", 150*time.Millisecond) // a tenth of a second to stand still, from 50 mm/s
	assert.Contains(t, h.say("?", 10*time.Millisecond)[0], "<Hold:1|")
	h.say("~", 10*time.Millisecond)
	assert.Contains(t, h.say("?", 200*time.Millisecond)[0], "<Hold:1|", "it was told too early to go on")
	assert.Contains(t, h.say("?", 10*time.Millisecond)[0], "<Hold:0|")
	h.say("~", 10*time.Millisecond)
	h.finish()
	assert.Equal(t, []float64{50}, h.rig.Place())
}
