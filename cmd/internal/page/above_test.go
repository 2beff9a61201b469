package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openings are a board with a hole, and a dark surface.
const openings = `
[[scene.holes]]
centre   = ["10 mm", "-250 mm", "60 mm"]
diameter = "95 mm"

[scene.dark]
centre = ["0 mm", "-20 mm", "60 mm"]
width  = "40 mm"
height = "40 mm"
`

// fromLens are the places of all that can be dragged, as seen from where the lens stands.
func fromLens(above *TopView) map[string][2]float64 {
	out := map[string][2]float64{}
	for _, d := range above.Drags {
		out[d.Path] = [2]float64{d.X - above.Stand[0], d.Y - above.Stand[1]}
	}
	return out
}

// The product goes where it is dragged to, and nothing else does.
func TestDraggingTheProductMovesTheProduct(t *testing.T) {
	b := browsed(t)
	text := strings.Replace(b.text, "\n[[cue]]", openings+"\n[[cue]]", 1)
	was := b.planned(text, true)
	require.NotNil(t, was.View, "%v", was.Faults)
	now := b.planned(text, true, m{"path": "above.product", "x": 12.0, "y": 46.0})
	require.NotNil(t, now.View, "%v", now.Faults)
	before, after := fromLens(was.View.Above), fromLens(now.View.Above)
	require.Len(t, after, 7, "two ends, the product, two lamps, a hole and the dark")
	for path, at := range before {
		want := at
		if path == "above.product" {
			want = [2]float64{at[0] + 12, at[1] + 46}
		}
		for axis := range want {
			assert.InDelta(t, want[axis], after[path][axis], 1, "%s: numbers of the file are rounded", path)
		}
	}
	assert.Contains(t, now.Text, `centre   = ["-2 mm", "-296 mm", "60 mm"]`)
	for _, d := range now.View.Above.Drags {
		if d.Kind == "product" {
			assert.Equal(t, "500 mm from the lens, 12 mm to the right", d.Told)
		}
	}
}

func TestBoardsAndTheDarkAreDragged(t *testing.T) {
	b := browsed(t)
	text := strings.Replace(b.text, "\n[[cue]]", openings+"\n[[cue]]", 1)
	a := b.planned(text, true, m{"path": "above.hole[1]", "x": 4.0, "y": -260.0}, m{"path": "above.dark", "x": 1.0, "y": -20.0})
	require.NotNil(t, a.View, "%v", a.Faults)
	assert.Contains(t, a.Text, `centre   = ["4 mm", "-260 mm", "60 mm"]`)
	assert.Contains(t, a.Text, `centre = ["1 mm", "-20 mm", "60 mm"]`)
}

// What the camera takes along is told in every frame, where it is then.
func TestAboveTellsWhereThingsAreInEveryFrame(t *testing.T) {
	b := browsed(t)
	v := b.planned(b.text, false).View
	placed := v.Above.Placed
	assert.EqualValues(t, 1, placed.Every)
	require.Len(t, placed.Way, 145)
	rail, table := v.Axes[0].Pos, v.Axes[1].Pos
	for k, at := range placed.Way {
		assert.InDelta(t, rail[k]-rail[0], at[1]-placed.Way[0][1], 0.02)
		assert.InDelta(t, table[k]-table[0], placed.Table[k], 2.0/placeGrains)
	}
	for _, c := range placed.Carried {
		assert.Len(t, c.At, 145, c.Kind)
	}
}

// A glance tells fewer of the same places, the seam's too.
func TestAGlanceTellsFewerPlaces(t *testing.T) {
	b := browsed(t)
	all, some := b.planned(b.text, false).View.Above.Placed, b.planned(b.text, true).View.Above.Placed
	require.EqualValues(t, 2, some.Every)
	require.Len(t, some.Way, 73)
	for i, at := range some.Way {
		assert.Equal(t, all.Way[2*i], at)
	}
}
