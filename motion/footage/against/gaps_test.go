package against

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
)

// spoilt is a take of which frames were lost, and others are there twice in place of the next or
// besides it.
func spoilt(c footage.Course, lost, held, twice []int) footage.Course {
	out := footage.Course{About: c.About}
	for i, f := range c.Frames {
		switch {
		case slices.Contains(lost, i):
			continue
		case slices.Contains(held, i-1):
			f = out.Frames[len(out.Frames)-1]
		}
		out.Frames = append(out.Frames, f)
		if slices.Contains(twice, i) {
			out.Frames = append(out.Frames, f)
		}
	}
	return out
}

// A frame that the recording lacks or has twice is told as that, where it is, and frame 0 is where
// it is in the recording; the rig is not blamed.
func TestFramesThatAreMissingAreNoFaultOfTheRig(t *testing.T) {
	p, k := fern()
	whole := k.film(p)
	for name, c := range map[string]struct {
		lost, held, twice []int
		gaps              []Gap
		says              []string
		sure              bool
	}{
		"one lost":                 {lost: []int{62}, gaps: []Gap{{Frame: 62, Missing: 1}}, says: []string{"one frame is missing after 61; with it in its place the rest is the plan"}, sure: true},
		"one of two counted":       {lost: []int{62, 63}, gaps: []Gap{{Frame: 62, Missing: 1}}, says: []string{"2 frames are missing after 61"}, sure: true},
		"two are counted for one":  {lost: []int{200}, gaps: []Gap{{Frame: 200, Missing: 2}}, says: []string{"one frame is missing after 199"}, sure: true},
		"one there twice":          {twice: []int{62}, gaps: []Gap{{Frame: 63, Twice: 1}}, says: []string{"frame 63 is the one before once more"}, sure: true},
		"one held for the next":    {held: []int{62}, lost: []int{200}, gaps: []Gap{{Frame: 63, Twice: 1}, {Frame: 200, Missing: 1}}, says: []string{"frame 63 is the one before once more, in place of one that is missing", "missing after 199"}, sure: true},
		"in several places":        {lost: []int{60, 80, 90, 200, 210, 340}, gaps: []Gap{{Frame: 60, Missing: 1}, {Frame: 79, Missing: 1}, {Frame: 88, Missing: 1}, {Frame: 197, Missing: 1}, {Frame: 206, Missing: 1}, {Frame: 335, Missing: 1}}, says: []string{"and so on, in 6 places", "the rest is the plan"}, sure: true},
		"after all moves":          {lost: []int{62, 480}, gaps: []Gap{{Frame: 62, Missing: 1}, {Frame: 479, Missing: 1}}, says: []string{"missing after 478, or another number"}},
		"one that is none besides": {lost: []int{62}, gaps: []Gap{{Frame: 62, Missing: 1}, {Frame: 220, Missing: 1}}, says: []string{"one frame is missing after 61; with it"}, sure: true},
	} {
		t.Run(name, func(t *testing.T) {
			cut := spoilt(whole, c.lost, c.held, c.twice)
			r, err := Lay(cut, p, c.gaps...)
			require.NoError(t, err)
			assert.Equal(t, Differs, r.Verdict.Kind, show(r))
			assert.True(t, r.Verdict.Mended, show(r))
			require.NotEmpty(t, r.Verdict.Causes)
			assert.Equal(t, Gaps, r.Verdict.Causes[0].Cause)
			assert.Greater(t, r.Verdict.Causes[0].Px, 20.0)
			for _, s := range c.says {
				assert.Contains(t, r.Verdict.Text, s)
			}
			assert.InDelta(t, k.zero, r.Frame0.Value, 0.02)
			for _, g := range r.Gaps {
				assert.True(t, g.Sure || !c.sure, "%+v", g)
			}
			if name == "one lost" {
				without, err := Lay(cut, p)
				require.NoError(t, err)
				assert.Equal(t, Differs, without.Verdict.Kind)
				assert.False(t, without.Verdict.Mended)
			}
		})
	}
}

// Gaps that are none change nothing: neither of a take that is its plan, nor of one that lost steps.
func TestGapsThatAreNone(t *testing.T) {
	p, k := fern()
	none := []Gap{{Frame: 70, Missing: 1}, {Frame: 200, Twice: 1}, {Frame: -3, Missing: 1}, {Frame: 9000, Missing: 1}, {Frame: 50}}
	r, err := Lay(k.film(p), p, none...)
	require.NoError(t, err)
	assert.Equal(t, IsPlan, r.Verdict.Kind, show(r))
	assert.Empty(t, r.Gaps)
	k.axis = func(_ int, j, x float64) float64 { return x - 0.5*step(j >= 40) }
	r, err = Lay(k.film(p), p, Gap{Frame: 71, Missing: 1})
	require.NoError(t, err)
	assert.Equal(t, LostSteps, r.Verdict.Causes[0].Cause, show(r))
	assert.False(t, r.Verdict.Mended)
}

// A take that lacks frames and is not its plan either is told as both.
func TestFramesAreMissingOfAnotherTake(t *testing.T) {
	p, k := fern()
	k.axis = func(_ int, j, x float64) float64 { return x - 0.5*step(j >= 216) }
	c := spoilt(k.film(p), []int{62}, nil, nil)
	r, err := Lay(c, p, Gap{Frame: 62, Missing: 1})
	require.NoError(t, err)
	assert.Equal(t, Differs, r.Verdict.Kind, show(r))
	assert.Equal(t, LostSteps, r.Verdict.Causes[0].Cause, show(r))
	assert.Contains(t, r.Verdict.Text, "besides the recording is not whole: one frame is missing after 61")
	assert.InDelta(t, k.zero+216-1, r.Verdict.From, 2, "as the recording counts")
	assert.False(t, r.Verdict.Mended)
}

// More gaps than can be weighed are put in their place as they are told; a take that is no plan then
// is not known.
func TestManyFramesAreMissing(t *testing.T) {
	p, k := fern()
	whole := k.film(p)
	for _, right := range []bool{true, false} {
		var lost []int
		var gaps []Gap
		for i := 40; i < 460; i += 11 {
			gaps = append(gaps, Gap{Frame: i - len(lost), Missing: 1 + int(step(!right && i%2 == 0))})
			lost = append(lost, i)
		}
		require.Greater(t, len(gaps), mostGaps)
		r, err := Lay(spoilt(whole, lost, nil, nil), p, gaps...)
		require.NoError(t, err)
		assert.Equal(t, right, r.Verdict.Mended, show(r))
		if right {
			assert.Contains(t, r.Verdict.Text, "and so on, in 39 places")
			assert.InDelta(t, k.zero, r.Frame0.Value, 0.05)
		} else {
			assert.Equal(t, NotKnown, r.Verdict.Kind, show(r))
			assert.Contains(t, r.Verdict.Text, "in 39 places, and up to 24 of them can be told")
		}
	}
}
