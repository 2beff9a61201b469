package ringdown

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// knocked is what a phone on the carriage would write: rest, a knock, the free
// swing in one of three columns, gravity in another, noise in all, at times
// that are not quite even.
type knocked struct {
	f, d, noise, rate, lasts float64
	second                   float64 // s after the first knock; 0 for none
}

func (k knocked) record() Record {
	r := Record{Names: []string{"x", "y", "z"}, Series: make([][]float64, 3)}
	x, n := swing(k.f, k.d), newNoise(7)
	for i := range int(k.lasts * k.rate) {
		t := (float64(i) + 0.1*n()) / k.rate
		v := 0.0
		for _, at := range []float64{0.5, 0.5 + k.second} {
			if t >= at && (at == 0.5 || k.second > 0) {
				v += x(t - at)
			}
		}
		r.Times = append(r.Times, t)
		r.Series[0] = append(r.Series[0], 0.1*v+k.noise*n())
		r.Series[1] = append(r.Series[1], 2*v+k.noise*n())
		r.Series[2] = append(r.Series[2], 9.81+k.noise*n())
	}
	return r
}

func TestRecordOfAKnownSwing(t *testing.T) {
	for _, k := range []knocked{
		{f: 5, d: 0.03, rate: 100, lasts: 6},
		{f: 5, d: 0.03, noise: 0.02, rate: 100, lasts: 6},
		{f: 11.3, d: 0.08, noise: 0.02, rate: 200, lasts: 4},
		{f: 2.2, d: 0.01, noise: 0.01, rate: 60, lasts: 5}, // ends while it rings
		{f: 38, d: 0.02, noise: 0.01, rate: 400, lasts: 3},
		{f: 5, d: 0.03, noise: 0.005, rate: 100, lasts: 8, second: 3}, // two knocks
	} {
		r := k.record()
		require.Equal(t, 1, r.Liveliest())
		m, err := FromRecord(r, 1)
		require.NoError(t, err, "%+v", k)
		// Four standard uncertainties, and what a knock leaves of its own start.
		assert.InDelta(t, k.f, m.Spring.Frequency, 4*m.FrequencySure+1e-7*k.f, "%+v", k)
		assert.InDelta(t, k.d, m.Spring.Damping, 4*m.DampingSure+1e-7, "%+v", k)
		assert.Greater(t, m.Explained, 0.97)
		assert.Less(t, m.FrequencySure, 0.01*k.f)
		if k.noise > 0 {
			assert.Positive(t, m.DampingSure)
		}
	}
}

// A swing of 70 Hz sampled a hundred times a second looks like one of 30.
func TestASwingInDisguiseIsRefused(t *testing.T) {
	_, err := FromRecord(knocked{f: 70, d: 0.01, rate: 100, lasts: 2}.record(), 1)
	assert.ErrorContains(t, err, "samples a swing")
}

// A CSV as phones write it, in each of their habits.
func written(r Record, head, comma string, decimal string, perSecond float64) string {
	var b strings.Builder
	b.WriteString("\ufeffrecorded on the bench\r\n" + head + "\r\n")
	for i := range r.Times {
		cells := []string{fmt.Sprintf("%.3f", r.Times[i]*perSecond+1000)}
		for _, s := range r.Series {
			cells = append(cells, fmt.Sprintf("%.5f", s[i]))
		}
		b.WriteString(strings.ReplaceAll(strings.Join(cells, comma), ".", decimal) + "\r\n")
	}
	return b.String()
}

func TestParseRecord(t *testing.T) {
	k := knocked{f: 6, d: 0.04, noise: 0.01, rate: 100, lasts: 4}
	want, err := FromRecord(k.record(), 1)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"commas, seconds":               written(k.record(), `"Time (s)","X (m/s^2)","Y","Z"`, ",", ".", 1),
		"semicolons and decimal commas": written(k.record(), "time;x;y;z", ";", ",", 1),
		"tabs, milliseconds":            written(k.record(), "time_ms\tx\ty\tz", "\t", ".", 1e3),
		"nanoseconds by their steps":    written(k.record(), "timestamp,x,y,z", ",", ".", 1e9),
		"no head":                       written(k.record(), "", ",", ".", 1),
	} {
		r, err := ParseRecord(text)
		require.NoError(t, err, name)
		require.Len(t, r.Series, 3, name)
		assert.Zero(t, r.Times[0])
		m, err := FromRecord(r, r.Liveliest())
		require.NoError(t, err, name)
		assert.InDelta(t, want.Spring.Frequency, m.Spring.Frequency, 0.01, name)
		assert.InDelta(t, want.Spring.Damping, m.Spring.Damping, 0.003, name)
	}
}

// Rows that are broken off, repeated or full of words do no harm.
func TestParseRecordLeavesOutWhatIsNoRow(t *testing.T) {
	text := "t,a\n"
	for i := range 40 {
		text += fmt.Sprintf("%g,%d\n", float64(i)/100, i%7)
	}
	clean, err := ParseRecord(text)
	require.NoError(t, err)
	dirty := strings.Replace(text, "0.1,3\n", "0.1,3\n0.1,3\n\nlost\n0.105\n,,\nNaN,1\n0.02,5\n", 1)
	got, err := ParseRecord(dirty)
	require.NoError(t, err)
	assert.Equal(t, clean, got)
}

func TestRecordsThatSayNothing(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "0 rows"},
		{"t,a\n1,2\n2,3\n", "2 rows"},
		{strings.Repeat("x,y\n", 100), "0 rows"},
	} {
		_, err := ParseRecord(c.text)
		assert.ErrorContains(t, err, c.want)
	}
	slow := "t,a\n"
	for i := range 40 {
		slow += fmt.Sprintf("%g,%d\n", float64(i)*1e12, i%2)
	}
	_, err := ParseRecord(slow)
	assert.ErrorContains(t, err, "no time")

	flat := Record{Series: [][]float64{nil}}
	noise := Record{Series: [][]float64{nil}}
	for i := range 400 {
		flat.Times, noise.Times = append(flat.Times, float64(i)/100), append(noise.Times, float64(i)/100)
		flat.Series[0] = append(flat.Series[0], 9.81)
	}
	_, err = FromRecord(flat, 0)
	assert.ErrorContains(t, err, "no knock")
	for seed := range uint64(100) {
		n := newNoise(seed + 1)
		noise.Series[0] = nil
		for range noise.Times {
			noise.Series[0] = append(noise.Series[0], n())
		}
		m, err := FromRecord(noise, 0)
		assert.Error(t, err, "%+v", m)
		assert.Error(t, err, "noise is no swing, seed %d", seed+1)
	}
	_, err = FromRecord(noise, 1)
	assert.ErrorContains(t, err, "no column 2")
}

// Whatever the text, there is a spring within bounds or an error.
func FuzzRecord(f *testing.F) {
	k := knocked{f: 6, d: 0.04, noise: 0.01, rate: 40, lasts: 2}
	f.Add(written(k.record(), "time,x,y,z", ",", ".", 1))
	f.Add("t;a\n0,1;2\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseRecord(text)
		if err != nil {
			return
		}
		m, err := FromRecord(r, r.Liveliest())
		if err != nil {
			return
		}
		require.NoError(t, m.Spring.Check())
		require.False(t, math.IsNaN(m.FrequencySure) || math.IsNaN(m.DampingSure))
	})
}

func BenchmarkFromRecord(b *testing.B) {
	r := knocked{f: 5, d: 0.03, noise: 0.02, rate: 200, lasts: 10}.record()
	for b.Loop() {
		if _, err := FromRecord(r, 1); err != nil {
			b.Fatal(err)
		}
	}
}
