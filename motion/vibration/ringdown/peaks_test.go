package ringdown

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A worked example of the decrement (Inman, Engineering Vibration,
// section 1.6; the numbers from memory: the formula gives them): neighbouring
// peaks of 9 mm and 1 mm have a decrement of 2.1972 and a damping of 0.33.
func TestInmansDecrement(t *testing.T) {
	m, err := FromPeaks([]Peak{{Height: 9, Time: 0.1}, {Height: 1, Time: 0.4}})
	require.NoError(t, err)
	assert.InDelta(t, 0.33, m.Spring.Damping, 0.005)
	assert.InDelta(t, 2.1972, 2*math.Pi*m.Spring.Damping/math.Sqrt(1-m.Spring.Damping*m.Spring.Damping), 5e-5)
	assert.Zero(t, m.DampingSure, "two peaks do not tell how well it is known")
}

// The reverse (W. T. Thomson and M. D. Dahleh, Theory of Vibration with
// Applications, 5th ed., Prentice Hall 1998, on the logarithmic decrement; the
// numbers from memory: the formula gives them): 10 lb on 30 lb/in with 0.12 lb
// s/in has a natural 34.0 rad/s, a damping of 0.0681, and peaks in the ratio
// 1.54.
func TestThomsonsRatio(t *testing.T) {
	m, err := FromPeaks([]Peak{{Height: 1.54 * 1.54}, {Height: 1.54, Time: 0.18522}, {Height: 1, Time: 0.37044}})
	require.NoError(t, err)
	assert.InDelta(t, 0.0681, m.Spring.Damping, 0.0008)
	assert.InDelta(t, 34.0, 2*math.Pi*m.Spring.Frequency, 0.05)
}

// swing is a free swing's displacement, from rest at 1.
func swing(f, d float64) func(t float64) float64 {
	w := 2 * math.Pi * f
	wd := w * math.Sqrt(1-d*d)
	return func(t float64) float64 {
		return math.Exp(-d*w*t) * (math.Cos(wd*t) + d*w/wd*math.Sin(wd*t))
	}
}

// From rest a free swing turns every half of its damped period.
func TestPeaksOfAFreeSwing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, d := rapid.Float64Range(0.2, 200).Draw(t, "f"), rapid.Float64Range(0.001, 0.6).Draw(t, "d")
		x := swing(f, d)
		half := 0.5 / (f * math.Sqrt(1-d*d))
		every := rapid.SampledFrom([]int{1, 2}).Draw(t, "every")
		var peaks []Peak
		for k := range rapid.IntRange(2, 8).Draw(t, "n") {
			at := half * float64(k*every)
			peaks = append(peaks, Peak{Height: 3 * x(at), Time: 0.7 + at})
		}
		m, err := FromPeaks(peaks)
		require.NoError(t, err)
		assert.InDelta(t, f, m.Spring.Frequency, 1e-8*f)
		assert.InDelta(t, d, m.Spring.Damping, 1e-8)
		assert.LessOrEqual(t, m.FrequencySure, 1e-7*f)
	})
}

// Readings that err by chance come out within what is said of them: of many
// rows about 95 in a hundred within two standard uncertainties, fewer for so
// few peaks (Student's t).
func TestUncertaintyOfPeaks(t *testing.T) {
	const rows, n, f, d = 400, 8, 5.0, 0.04
	x, noise := swing(f, d), newNoise(1)
	within := 0
	for range rows {
		var peaks []Peak
		for k := range n {
			at := float64(k) / (f * math.Sqrt(1-d*d))
			peaks = append(peaks, Peak{Height: x(at) * math.Exp(0.02*noise()), Time: at + 0.002*noise()})
		}
		m, err := FromPeaks(peaks)
		require.NoError(t, err)
		if math.Abs(m.Spring.Frequency-f) < 2*m.FrequencySure && math.Abs(m.Spring.Damping-d) < 2*m.DampingSure {
			within++
		}
	}
	assert.Greater(t, within, rows*75/100)
	assert.Less(t, within, rows*97/100, "they are not padded either")
}

// Three peaks that lie in line are no better known than they were read off. Of the
// slope through three readings those at the ends alone count: u(T) is u/sqrt(2).
// Readings rounded to what was typed come out within two of these.
func TestPeaksAreNoBetterThanTheyWereRead(t *testing.T) {
	const f, d, read = 5.0, 0.03, 0.01
	u := read / math.Sqrt(12)
	inLine := []Peak{{4, 0.1, 0, u}, {2, 0.3, 0, u}, {1, 0.5, 0, u}}
	m, err := FromPeaks(inLine)
	require.NoError(t, err)
	assert.InEpsilon(t, m.Spring.Frequency*u/math.Sqrt2/0.2, m.FrequencySure, 1e-6)
	m, err = FromPeaks(inLine[:2])
	require.NoError(t, err)
	assert.InEpsilon(t, m.Spring.Frequency*u*math.Sqrt2/0.2, m.FrequencySure, 1e-6, "two peaks tell as much of themselves")

	within, rows := 0, 0
	for start := 0.0; start < 0.2; start += 0.0007 {
		var peaks []Peak
		for k := range 3 {
			at := start + float64(k)/(f*math.Sqrt(1-d*d))
			peaks = append(peaks, Peak{math.Exp(-2 * math.Pi * d * float64(k)), math.Round(at/read) * read, 0, u})
		}
		m, err := FromPeaks(peaks)
		require.NoError(t, err)
		rows++
		if math.Abs(m.Spring.Frequency-f) < 2*m.FrequencySure {
			within++
		}
	}
	assert.Greater(t, within, rows*90/100)
}

// newNoise returns normal deviates that are the same each time: the sum of
// twelve uniform ones of a multiplicative generator (S. K. Park and
// K. W. Miller, Comm. ACM 31:1192-1201, 1988, DOI 10.1145/63039.63042).
func newNoise(seed uint64) func() float64 {
	return func() float64 {
		sum := -6.0
		for range 12 {
			seed = seed * 48271 % 2147483647
			sum += float64(seed) / 2147483647
		}
		return sum
	}
}

func TestParsePeak(t *testing.T) {
	p, err := ParsePeak("-4.2 at 310 ms")
	require.NoError(t, err)
	assert.Equal(t, Peak{-4.2, 0.31, 0.1 / math.Sqrt(12), 0.001 / math.Sqrt(12)}, p)
	p, err = ParsePeak("1/4 at 0.10 s")
	require.NoError(t, err)
	assert.Equal(t, Peak{0.25, 0.1, 0, 0.01 / math.Sqrt(12)}, p, "a fraction is exact, and noughts that are typed count")
	for _, bad := range []string{"", "4.2", "4.2 at", "x at 1 s", "4.2 at 3 mm", "4.2 0.3 s"} {
		_, err := ParsePeak(bad)
		assert.ErrorContains(t, err, "peak", bad)
	}
}

func TestPeaksThatSayNothing(t *testing.T) {
	for _, c := range []struct {
		peaks []Peak
		want  string
	}{
		{nil, "from 2 to"},
		{[]Peak{{Height: 1, Time: 0}}, "from 2 to"},
		{[]Peak{{Height: 1, Time: 0}, {Height: 0, Time: 1}}, "a height"},
		{[]Peak{{Height: 1, Time: 0}, {Height: math.NaN(), Time: 1}}, "a height"},
		{[]Peak{{Height: 2, Time: 1}, {Height: 1, Time: 1}}, "must come after"},
		{[]Peak{{Height: 1, Time: 0}, {Height: 2, Time: 1}}, "do not fade"},
		{[]Peak{{Height: 4, Time: 0}, {Height: -2, Time: 1}, {Height: -1, Time: 2}}, "wrong side"},
		{[]Peak{{Height: 8, Time: 0}, {Height: 4, Time: 1}, {Height: 2, Time: 2}, {Height: .5, Time: 4}}, "left out"},
		{[]Peak{{Height: 4, Time: 0}, {Height: 2, Time: 100}}, "frequency"},
	} {
		_, err := FromPeaks(c.peaks)
		assert.ErrorContains(t, err, c.want)
	}
}
