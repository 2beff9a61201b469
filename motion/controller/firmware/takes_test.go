package firmware_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/firmware"
)

// Twenty takes as an open firmware for 8-bit boards ran them on a host build
// that counts every cycle: testdata/reference/README.md.
const takes = "../../../testdata/reference/takes/"

const (
	// apart is how near a length must come to the measured one, s: the main loop
	// of the measured build turns every 10 us, and lengths are printed in whole us.
	apart = 20e-6
	// stepsApart is a step, which may be just before or just after the instant of
	// a sample.
	stepsApart = 1
)

func rows(t *testing.T, name string) []string {
	b, err := os.ReadFile(name)
	require.NoError(t, err)
	var out []string
	for _, l := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if !strings.HasPrefix(l, "#") && !strings.HasPrefix(l, "(") {
			out = append(out, l)
		}
	}
	return out
}

func number(t *testing.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// measuredBoard is the board that was measured, before it is set.
func measuredBoard() firmware.Board {
	return firmware.Board{
		Timer: firmware.SixteenBit(16e6), Blocks: 16, Turn: firmware.Measured, DwellGrain: firmware.Lasting(0.05),
		AlongAll: true, Axes: make([]firmware.Axis, 2),
	}
}

func settings(t *testing.T, name string) firmware.Board {
	b := measuredBoard()
	for _, l := range rows(t, name) {
		key, text, _ := strings.Cut(l, "=")
		v := number(t, text)
		axis := &b.Axes[key[len(key)-1]&1]
		switch {
		case key == "$1" && v < 255:
			b.IdleDelay = firmware.Lasting(v / 1000)
		case key == "$11":
			b.JunctionDeviation = v
		case strings.HasPrefix(key, "$10"):
			axis.StepsPerUnit = v
		case strings.HasPrefix(key, "$11"):
			axis.Speed = v / 60
		case strings.HasPrefix(key, "$12"):
			axis.Acceleration = v
		}
	}
	return b
}

// program hands out lines.
func program(lines []string) firmware.Program {
	return func() (string, bool) {
		if len(lines) == 0 {
			return "", false
		}
		line := lines[0]
		lines = lines[1:]
		return line, true
	}
}

// record is what a board has run, from the first motion after a dwell on.
type record struct {
	slices []firmware.Slice
	starts []firmware.Instant
}

func play(t *testing.T, b firmware.Board, lines []string, after int64) record {
	return playFrom(t, b, lines, after, firmware.Counts{})
}

func playFrom(t *testing.T, b firmware.Board, lines []string, after int64, from firmware.Counts) record {
	var r record
	_, err := b.Play(program(lines), "XY", from, firmware.Link{Baud: 115200, Receive: 127}, firmware.Watch{
		Slice: func(s *firmware.Slice, at firmware.Instant) {
			if s.Line > after {
				r.slices, r.starts = append(r.slices, *s), append(r.starts, at)
			}
		},
	})
	require.NoError(t, err)
	return r
}

func (r record) lasts() float64 {
	n := len(r.slices) - 1
	return (r.starts[n] + r.slices[n].Lasts() - r.starts[0]).Seconds()
}

// at returns the steps at a time from the beginning. Times must not go back.
func (r *record) at(sec float64) firmware.Counts {
	since := firmware.Lasting(sec)
	k := 0
	for k+1 < len(r.starts) && r.starts[k+1]-r.starts[0] <= since {
		k++
	}
	return r.slices[k].CountsAfter(2, r.slices[k].PulsesBy(since-(r.starts[k]-r.starts[0])))
}

func TestMeasuredTakes(t *testing.T) {
	table := rows(t, takes+"takes.tsv")
	require.Len(t, table, 21)
	for _, row := range table[1:] {
		f := strings.Fields(row)
		t.Run(f[0], func(t *testing.T) {
			name := filepath.Join(takes, f[0])
			lines := rows(t, name+".ngc")
			open := int64(0)
			for i, l := range lines {
				if l == "G4 P0.5" {
					open = int64(i + 1)
				}
			}
			require.Positive(t, open)
			r := play(t, settings(t, name+".settings"), lines, open)
			assert.InDelta(t, number(t, f[3]), r.lasts(), apart)
			samples := rows(t, name+".tsv")[1:]
			require.Greater(t, len(samples), 100)
			for _, s := range samples {
				f := strings.Fields(s)
				got := r.at(number(t, f[0]))
				assert.InDelta(t, number(t, f[1]), got[0], stepsApart, "x at %s s", f[0])
				assert.InDelta(t, number(t, f[2]), got[1], stepsApart, "y at %s s", f[0])
			}
		})
	}
}

// The dwells between two moves that were measured. Those of no length at all
// and no idle delay end before the counter has come round.
func TestMeasuredDwells(t *testing.T) {
	table := rows(t, "../../../testdata/reference/firmware_dwells.tsv")
	require.Len(t, table, 58)
	for _, row := range table[1:] {
		f := strings.Fields(row)
		b := measuredBoard()
		b.JunctionDeviation = 0.01
		b.Axes[0] = firmware.Axis{StepsPerUnit: 80, Acceleration: 500, Speed: 200}
		b.Axes[1] = b.Axes[0]
		if idle := number(t, f[0]); idle < 255 {
			b.IdleDelay = firmware.Lasting(idle / 1000)
		}
		r := play(t, b, []string{"G21 G90", "G94", "G1 X1 F600", "G4 P" + f[1], "G1 X2 F600"}, 0)
		for k := 1; k < len(r.starts); k++ {
			gap := (r.starts[k] - r.starts[k-1] - r.slices[k-1].Lasts()).Seconds()
			if gap > 0 {
				assert.InDelta(t, max(number(t, f[2]), r.slices[k-1].Beat.Every.Seconds()), gap, apart, row)
			}
		}
	}
}

// The counter goes on while the motors stand. Of the measured dwells neither the
// last interval before nor the first after is told; two numbers explain the time
// from step to step of all 57. The first step of a slow slice comes with its
// fifth interrupt.
func TestTheCounterGoesOn(t *testing.T) {
	const last, first, fifth = 260.4375e-6, 343.91e-6, 5
	const printed = 2e-6 // times are printed in whole us
	timer := firmware.SixteenBit(16e6)
	for _, row := range rows(t, "../../../testdata/reference/firmware_dwells.tsv")[1:] {
		f := strings.Fields(row)
		var c firmware.Counter
		c.Rest(0, firmware.Lasting(last))
		every := firmware.Lasting(first)
		start, lead := timer.Wake(c, firmware.Lasting(number(t, f[2])), every)
		assert.InDelta(t, number(t, f[3]), (start + fifth*every - lead).Seconds(), printed, row)
	}
}
