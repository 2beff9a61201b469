package groupreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/groupreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/passes"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/sample"
)

func filmed(take int, pass string, stood, took float64) passes.Filmed {
	return passes.Filmed{
		Take: take, Pass: pass, Plan: "a", Rounds: 3, Planned: 10, Took: took, OutBy: 0.002, Keep: take == 1,
		Start: passes.Start{Capture: exact.Int(50), Frames: 100, Axes: []passes.Place{
			{Axis: "rail", Unit: "mm", Planned: 40, Stood: &stood, From: "above", Low: 40, High: 100}, {Axis: "tilt", Unit: "deg", Stood: &stood},
		}},
		Off: []selects.Off{{Axis: "rail", Unit: "mm", Value: -0.01}, {Axis: "tilt", Unit: "deg"}},
	}
}

func text(t *testing.T, d groupreport.Data) string {
	var b strings.Builder
	require.NoError(t, report.Text(&b, d.Report(), false))
	return b.String()
}

func TestGolden(t *testing.T) {
	s := passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100}
	d := groupreport.Data{Name: "plates", Group: passes.Of([]passes.Filmed{
		filmed(1, "light", 40, 10), filmed(2, "clean plate", 40.01, 9.9995), filmed(3, "light", 40, 10),
	}, s)}
	sample.Golden(t, "group.txt", text(t, d))
	var doc strings.Builder
	require.NoError(t, report.JSON(&doc, d.Facts()))
	sample.Golden(t, "group.json", doc.String())
}

// What is said where not all is known, and where they do not match.
func TestWhatIsNotKnown(t *testing.T) {
	one, other := filmed(1, "a", 40, 10), filmed(2, "b", 40, 0)
	d := groupreport.Data{Name: "x", Virtual: true, Group: passes.Of([]passes.Filmed{one}, passes.Scale{})}
	assert.Contains(t, text(t, d), "ONE PASS")
	assert.Contains(t, text(t, d), "nothing was filmed")
	assert.NotContains(t, text(t, d), "NOT SEEN")
	other.Off, other.Start.Axes = nil, []passes.Place{{Axis: "rail", From: "above"}, {Axis: "tilt"}}
	d.Group, d.NoScale = passes.Of([]passes.Filmed{one, other}, passes.Scale{}), "the shot has changed since"
	got := text(t, d)
	for _, want := range []string{"ALIKE  These passes were filmed alike: the shot has changed since", "rail not reported; tilt not reported", "not measured of both", "not measured\n"} {
		assert.Contains(t, strings.ReplaceAll(got, "  out by", ""), strings.TrimSuffix(want, "\n"))
	}
	other.Plan = "b"
	d.Group = passes.Of([]passes.Filmed{one, other}, passes.Scale{})
	assert.Contains(t, text(t, d), "NO MATCH")
}

// Where to lay a pass by the sync marks: by its first frame, or by its mark.
func TestLaidByTheirMarks(t *testing.T) {
	s := passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100}
	zero := func(f passes.Filmed, seen bool, mark int64, from float64) passes.Filmed {
		f.Zero = &passes.Zero{Seen: seen, Mark: mark, From: from, Out: 1.2}
		return f
	}
	for _, c := range []struct {
		seen bool
		mark int64
		want string
	}{
		{true, 98, "lay it its first frame on that of take 1, and then 24 frames later (23.60, give or take 2.40); the part of a frame that is left is 0.80 px where it moves fastest"},
		{true, 145, "and then 23 frames sooner (23.40, give"},
		{true, 122, "and then as it is (0.40, give"},
		{false, 0, "the first frame of its sync mark on that of take 1, and then 1 frame later (0.60, give or take 2.40);"},
		{false, 0, "where the marks are seen is not told of both: seamrail takes --take 2 --mark-seen"},
	} {
		d := groupreport.Data{Group: passes.Of([]passes.Filmed{zero(filmed(1, "a", 40, 10), true, 121, 316.8), zero(filmed(2, "b", 40, 10), c.seen, c.mark, 316.2)}, s)}
		got := strings.Join(strings.Fields(text(t, d)), " ")
		assert.Contains(t, got, c.want)
		assert.Contains(t, got, "sync marks do not tell that half")
	}
}

// Frame by frame nothing is said of starts, times and clocks.
func TestFrameByFrame(t *testing.T) {
	still := func(take int, pass string, from int64) passes.Filmed {
		f := filmed(take, pass, 40, 10)
		f.Stills = &passes.Stills{From: from, Exposed: 24, Of: 24}
		return f
	}
	d := groupreport.Data{Group: passes.Of([]passes.Filmed{still(1, "a", 0), still(2, "b", 7)}, passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100})}
	got := text(t, d)
	for _, want := range []string{"MATCH  These passes match within 0.40 px on the near face, by all places", "7 to 23", "in its frames rail 0.020 mm apart at most", "It begins with frame 7", "an exposure of its own"} {
		assert.Contains(t, got, want)
	}
	for _, none := range []string{"half a frame", "ppm", "give or take", "start  "} {
		assert.NotContains(t, got, none)
	}
}

// Passes match or differ only where what the figure may be out by reaches over neither side
// of the bound.
func TestBothSidesOfTheBound(t *testing.T) {
	for _, c := range []struct {
		took, outBy float64 // s: of the second, and of both
		stamp, fact string
	}{
		{10, 0.0004, "MATCH These passes match within 0.40 px on the near face, give or take 0.08 px,", "matches"},
		{10, 0.0006, "NOT KNOWN WELL ENOUGH These passes are apart by 0.40 px on the near face, give or take 0.12 px,", "not-sure"},
		{10.0012, 0.00015, "NOT KNOWN WELL ENOUGH These passes are apart by 0.52 px on the near face, give or take 0.03 px,", "not-sure"},
		{10.0012, 0.00005, "DIFFER These passes may be apart by 0.52 px on the near face, give or take 0.01 px, by all that was reported and timed.", "differ"},
	} {
		one, other := filmed(1, "a", 40, 10), filmed(2, "b", 40, c.took)
		one.OutBy, other.OutBy = c.outBy, c.outBy
		d := groupreport.Data{Group: passes.Of([]passes.Filmed{one, other}, passes.Scale{PerUnit: map[string]float64{"rail": 20}, PerSecond: 100})}
		assert.Contains(t, strings.Join(strings.Fields(text(t, d)), " "), c.stamp)
		facts := d.Facts().(groupreport.Document)
		assert.Equal(t, c.fact, facts.Answer)
		assert.Equal(t, 0.5, facts.Unseen)
	}
	d := groupreport.Data{Group: passes.Of([]passes.Filmed{filmed(1, "a", 40, 10), filmed(2, "b", 40, 0)}, passes.Scale{})}
	assert.Equal(t, "not-known", d.Facts().(groupreport.Document).Answer)
}

// Frame by frame places alone part passes that match from those that differ.
func TestFrameByFrameHasTheSameBound(t *testing.T) {
	for scale, want := range map[float64]string{24: "MATCH These passes match within 0.48 px on the near face, by all", 26: "DIFFER These passes may be apart by 0.52 px on the near face, by all"} {
		one, other := filmed(1, "a", 40, 10), filmed(2, "b", 40, 10)
		one.Stills, other.Stills = &passes.Stills{Exposed: 24, Of: 24}, &passes.Stills{Exposed: 24, Of: 24}
		d := groupreport.Data{Group: passes.Of([]passes.Filmed{one, other}, passes.Scale{PerUnit: map[string]float64{"rail": scale}, PerSecond: 100})}
		assert.Contains(t, strings.Join(strings.Fields(text(t, d)), " "), want)
	}
}
