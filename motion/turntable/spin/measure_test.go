package spin

import (
	"bufio"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// certified is a data set whose fit through the origin is published.
type certified struct {
	x, y                   []exact.Rat
	slope, deviation, left float64
}

// readCertified reads testdata/reference/through_origin.tsv.
func readCertified(t *testing.T) map[string]certified {
	file, err := os.Open(filepath.Join("..", "..", "..", "testdata", "reference", "through_origin.tsv"))
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	out := map[string]certified{}
	for s := bufio.NewScanner(file); s.Scan(); {
		f := strings.Split(s.Text(), "\t")
		if strings.HasPrefix(f[0], "#") || f[0] == "set" {
			continue
		}
		require.Len(t, f, 4, s.Text())
		c := out[f[0]]
		value := func(text string) exact.Rat {
			r, err := exact.Parse(text)
			require.NoError(t, err)
			return r
		}
		switch f[1] {
		case "point":
			c.x, c.y = append(c.x, value(f[2])), append(c.y, value(f[3]))
		case "slope":
			c.slope, c.deviation = value(f[2]).Float(), value(f[3]).Float()
		case "residual":
			c.left = value(f[2]).Float()
		default:
			t.Fatal(s.Text())
		}
		out[f[0]] = c
	}
	return out
}

// Least squares through the origin and its standard error against certified
// values. The readings are taken to be far better than they are, so that the
// uncertainty comes from their scatter alone, as it does there.
func TestMeasureAgainstCertifiedValues(t *testing.T) {
	sets := readCertified(t)
	require.Len(t, sets, 2)
	assumed := exact.New(1, 1000)
	for name, c := range sets {
		var readings []Reading
		for i := range c.x {
			readings = append(readings, Reading{Turns: c.x[i], Seconds: c.y[i], Variance: assumed.Mul(assumed)})
		}
		m, err := Measure(readings)
		require.NoError(t, err)
		// A picosecond is what periods are rounded to.
		assert.InDelta(t, c.slope, m.Period.Float(), 0.51e-12, name)
		assert.InDelta(t, c.deviation, m.Sigma.Float(), 0.51e-12, name)
		assert.InDelta(t, c.left, m.Ratio*assumed.Float(), 1e-13*c.left*10, name)
	}
}

// Weighted fits agree with a general statistics library's: gonum's
// stat.LinearRegression through the origin, weights one over the variance.
func TestMeasureAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		period := rapid.Float64Range(0.5, 60).Draw(t, "period")
		var readings []Reading
		var x, y, w []float64
		for range rapid.IntRange(1, 12).Draw(t, "n") {
			turns := rapid.Int64Range(1, 40).Draw(t, "turns")
			late := rapid.Float64Range(-0.3, 0.3).Draw(t, "late")
			sigma := rapid.Float64Range(0.001, 0.5).Draw(t, "sigma")
			r := Reading{Turns: exact.Int(turns), Seconds: exact.FromFloat(period*float64(turns) + late), Variance: exact.FromFloat(sigma * sigma)}
			readings = append(readings, r)
			x, y, w = append(x, float64(turns)), append(y, r.Seconds.Float()), append(w, 1/r.Variance.Float())
		}
		m, err := Measure(readings)
		require.NoError(t, err)
		_, slope := stat.LinearRegression(x, y, w, true)
		assert.InDelta(t, slope, m.Period.Float(), 1e-11)
		assert.GreaterOrEqual(t, m.Sigma.Float(), m.Assumed-1e-12)
	})
}

// One reading by stopwatch, by hand: 20 turns in 412.3 s are 20.615 s a turn, and
// two presses of 0.1 s are root two tenths over 20 turns, 7.07 ms.
func TestOneReadingByHand(t *testing.T) {
	r, err := ParseReading("20 turns in 412.3 s", Assume{})
	require.NoError(t, err)
	m, err := Measure([]Reading{r})
	require.NoError(t, err)
	assert.True(t, m.Period.Equal(exact.New(20615, 1000)))
	assert.InDelta(t, 0.1*math.Sqrt2/20, m.Sigma.Float(), 1e-12)
	assert.Zero(t, m.Ratio)
}

// What a camera makes of a mark: with any period and any instant of starting, the
// frames counted are off by a triangle of variance 1/6 frame squared. A sweep of
// both, not a sample.
func TestFrameQuantisation(t *testing.T) {
	const sweep = 400
	sum, square, far := 0.0, 0.0, 0.0
	for i := range sweep {
		for k := range sweep {
			start := (float64(i) + 0.5) / sweep
			whole := 2446 + (float64(k)+0.5)/sweep // frames in truth
			off := math.Round(start+whole) - math.Round(start) - whole
			sum, square, far = sum+off, square+off*off, max(far, math.Abs(off))
		}
	}
	n := float64(sweep * sweep)
	assert.InDelta(t, 0, sum/n, 1.0/sweep) // halves round up
	assert.Less(t, far, 1.0)
	r, err := ParseReading("2446 frames", Assume{Capture: exact.Int(1)})
	require.NoError(t, err)
	assert.InDelta(t, square/n, r.Variance.Float(), 1e-5)
}

func TestReadingsByPicture(t *testing.T) {
	capture := rate(t, "119.88")
	for text, turns := range map[string]int64{"2446 frames": 1, "3 turns in 7338 frames": 3} {
		r, err := ParseReading(text, Assume{Capture: capture})
		require.NoError(t, err)
		assert.True(t, r.Picture)
		assert.True(t, r.Turns.Equal(exact.Int(turns)))
		assert.True(t, r.Seconds.Equal(exact.Int(2446*turns).Quo(capture)))
	}
}

func TestReadingsThatAreNone(t *testing.T) {
	for text, part := range map[string]string{
		"":                     "write it like",
		"a while":              `"a while" is no reading; write it like "20 turns in 412.3 s"`,
		"twenty turns in 4 s":  "does not begin with a number",
		"20 turns in 0 s":      "more than 0",
		"-3 turns in 40 s":     "more than 0",
		"20 turns in 412.3 mm": "a time",
		"20 s in 412.3 s":      "a number of turns",
		"2446 frames":          "no capture rate",
	} {
		_, err := ParseReading(text, Assume{})
		assert.ErrorContains(t, err, part, text)
	}
}

func TestNoReadingsAndTooMany(t *testing.T) {
	_, err := Measure(nil)
	assert.ErrorContains(t, err, "at least one reading")
	_, err = Measure(make([]Reading, maxReadings+1))
	assert.ErrorContains(t, err, "too many")
}

// Timing as many turns as are asked for does make the seam known to its bound,
// and one turn fewer does not.
func TestTurnsToTimeSuffice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := slow(t, "119.88", "23.976")
		loop, err := c.LoopFrames(rapid.Int64Range(24, 2000).Draw(t, "frames"))
		require.NoError(t, err)
		v := Speed{Period: exact.New(rapid.Int64Range(100, 6000).Draw(t, "period"), 100)}
		p := Product{Symmetry: rapid.Int64Range(1, 12).Draw(t, "k"), Radius: exact.Int(45), Scale: exact.New(rapid.Int64Range(1, 900).Draw(t, "scale"), 10)}
		a := Assume{Capture: c.Capture}
		for _, sigma := range []float64{a.ByStopwatch(), a.ByPicture()} {
			need, ok := p.Seam(loop, v).TurnsToTime(sigma)
			require.True(t, ok)
			known := func(turns int64) float64 {
				v.Sigma = exact.FromFloat(sigma / float64(turns))
				return Coverage * p.Seam(loop, v).Spread.Quo(p.Seam(loop, v).Bound).Float()
			}
			assert.LessOrEqual(t, known(need.Turns), 1+1e-9)
			if need.Turns > 1 {
				assert.Greater(t, known(need.Turns-1), 1.0-1e-9)
			}
		}
	})
}

func FuzzParseReading(f *testing.F) {
	for _, s := range []string{"20 turns in 412.3 s", "2446 frames", "1/3 turn in 6.8 s", "in in in", "20 turns in -1 s"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseReading(text, Assume{Capture: exact.New(120000, 1001)})
		if err != nil {
			return
		}
		m, err := Measure([]Reading{r})
		require.NoError(t, err)
		off := m.Period.Sub(r.Seconds.Quo(r.Turns)).Abs()
		assert.False(t, picosecond.Less(off.Add(off)), "one reading is its own fit")
		_ = m.Speed("s").Faults()
	})
}
