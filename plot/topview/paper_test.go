package topview

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ISO 216: sides as 1 to the root of 2, whole mm, and each sheet half of the
// one before it.
func TestPapersAreOfISO216(t *testing.T) {
	for _, p := range Papers {
		assert.InDelta(t, math.Sqrt2, p.Height/p.Width, 0.005, p.Name)
	}
	a4, err := FindPaper("a4")
	require.NoError(t, err)
	a3, err := FindPaper("A3")
	require.NoError(t, err)
	assert.Equal(t, a4.Height, a3.Width)
	assert.Equal(t, math.Floor(a3.Height/2), a4.Width)
	w, h := a4.sheet()
	assert.InDelta(t, 210.0/25.4*72, float64(w), 1e-9, "points are of 1/72 inch")
	assert.InDelta(t, 297.0/25.4*72, float64(h), 1e-9)
	_, err = FindPaper("foolscap")
	assert.EqualError(t, err, `paper "foolscap" is not known; use one of A4, A3`)
}

// The scales that ISO 5455:1979 recommends, as far as it lists them.
func TestScalesAreOfISO5455(t *testing.T) {
	var texts []string
	for _, s := range scales() {
		texts = append(texts, s.String())
	}
	for _, want := range []string{"50:1", "20:1", "10:1", "5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50",
		"1:100", "1:200", "1:500", "1:1000", "1:2000", "1:5000", "1:10000"} {
		assert.Contains(t, texts, want)
	}
	for i, s := range scales() {
		if i > 0 {
			assert.Less(t, s, scales()[i-1])
		}
		back, err := ParseScale(s.String())
		require.NoError(t, err)
		assert.Equal(t, s, back)
	}
	for _, bad := range []string{"", "1:3", "5", "0:1", "1:0", "-1:2", "1:2:3", "1:2 or so", "NaN:1", "half"} {
		_, err := ParseScale(bad)
		assert.ErrorContains(t, err, "is not one that drawings use", bad)
	}
}

// The bar is made of round steps, at most 100 mm on paper and at least 40.
func TestBarFitsARuler(t *testing.T) {
	for _, s := range scales() {
		onPaper := barStep(s, barPaper) * barSteps * float64(s)
		assert.LessOrEqual(t, onPaper, barPaper*(1+barSlack), s)
		assert.GreaterOrEqual(t, onPaper, barPaper*0.4, s)
		tens := math.Pow(10, math.Floor(math.Log10(barStep(s, barPaper))+1e-9))
		assert.InDelta(t, 0, math.Mod(math.Round(barStep(s, barPaper)/tens*1000)/1000, 1), 1e-9, s)
	}
}

// The scale is the largest that fits: the scene is within the drawing, and at
// the next larger scale it is not, on the paper upright or across.
func TestLargestScaleThatFits(t *testing.T) {
	tr := travelled(t, 60)
	rapid.Check(t, func(rt *rapid.T) {
		s := lantern(rapid.Float64Range(-180, 180).Draw(rt, "heading"))
		s.Lamps[0].Distance.Value = rapid.Float64Range(100, 9000).Draw(rt, "lamp")
		s.Lamps[0].Bearing = rapid.Float64Range(-180, 180).Draw(rt, "bearing")
		d := seen(rt, tr, s)
		paper := rapid.SampledFrom(Papers).Draw(rt, "paper")
		l, err := newLayout(d, paper, 0)
		require.NoError(rt, err)
		size := extent(d.Above)
		a, b := l.at(size.Min), l.at(size.Max)
		assert.True(rt, l.area.holds(box{a.X, a.Y, b.X, b.Y}))
		for i, scale := range scales() {
			if scale != l.scale || i == 0 {
				continue
			}
			larger := scales()[i-1]
			for _, way := range []Paper{paper, paper.across()} {
				assert.False(rt, laid(d, way).fits(size, larger), "%s would do", larger)
			}
			_, err := newLayout(d, paper, larger)
			assert.ErrorContains(rt, err, "it does at "+l.scale.String())
		}
	})
}
