package sheet_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/pull"
	"seamrail/motion/scene"
	"seamrail/plot/sheet"
)

// looped is a plan of 48 frames at 24 a second.
func looped(t *testing.T) *plan.Plan {
	c, err := clock.New(exact.Int(24), exact.Int(24), exact.Rat{})
	require.NoError(t, err)
	l, err := c.LoopFrames(48)
	require.NoError(t, err)
	return &plan.Plan{Loop: l}
}

// focused is where a lens of 50 mm magnifies m times.
func focused(m float64) float64 { return 50 * (1 + 1/m) }

// From subject to sensor a lens of 50 mm has 225 mm at half of life size and 312.5 mm at a
// quarter, f(2 + m + 1/m); the ring goes with m.
func TestFocusByHand(t *testing.T) {
	lens := scene.Lens{FocalLength: scene.Is(50), Ring: pull.Ring{Degrees: true, Around: 180,
		Ticks: []pull.Tick{{Focus: focused(0.1), At: 0}, {Focus: focused(0.6), At: 100}}}}
	turns := []picture.Pulling{
		{Way: pull.Way{From: 0, To: 0.5, Begins: focused(0.25), Ends: focused(0.5)}},
		{Way: pull.Way{From: 1, To: 2, Begins: focused(0.5), Ends: focused(0.25)}},
	}
	table, ring := sheet.Focus(looped(t), lens, turns)
	assert.Equal(t, [][]string{
		{"0", "0.000", "sets out", "250.00", "312", "1:4.00", "30.00"},
		{"12", "0.500", "arrives", "150.00", "225", "1:2.00", "80.00"},
		{"24", "1.000", "sets out", "150.00", "225", "1:2.00", "80.00"},
	}, table.Rows, "it arrives where it sets out again")
	var at []float64
	for _, k := range ring.Marks {
		at = append(at, k.MM)
	}
	// 100 degrees of 180 mm are 50 mm, and 6 mm are left at either end.
	assert.InDeltaSlice(t, []float64{6, 21, 46, 56}, at, 1e-9)
	assert.InDelta(t, 62, ring.Length, 1e-9)
	assert.True(t, ring.Marks[1].Pull && ring.Marks[2].Pull && !ring.Marks[0].Pull)

	// With rings behind it that add a tenth, the lens itself is focused farther.
	lens.Extension = scene.Is(5)
	table, _ = sheet.Focus(looped(t), lens, turns)
	assert.Equal(t, []string{"0", "0.000", "sets out", "250.00", "441", "1:4.00", "10.00"}, table.Rows[0], "0.15 by itself")
	lens.Extension = scene.Is(15)
	table, ring = sheet.Focus(looped(t), lens, turns)
	assert.Equal(t, []string{"beyond", "1:4.00", ""}, table.Rows[0][4:])
	assert.Zero(t, ring.Length, "a mark is off the scale")

	// Without its length, or with none of a scale, there is a table alone.
	lens.Extension, lens.Ring.Around = scene.Number{}, 0
	_, ring = sheet.Focus(looped(t), lens, turns)
	assert.Zero(t, ring.Length)
	lens.Ring = pull.Ring{}
	table, ring = sheet.Focus(looped(t), lens, turns)
	assert.Len(t, table.Heads, 6)
	assert.Zero(t, ring.Length)
	table, _ = sheet.Focus(looped(t), lens, nil)
	assert.Empty(t, table.Rows)
}

// A strip that is longer than the page is told by its length, and not drawn short.
func TestAStripIsToScaleOrNotDrawn(t *testing.T) {
	for mm, drawn := range map[float64]bool{190: true, 190.1: false} {
		page := sheet.Page{Title: "Pulled", NotAbove: "no", Groups: []sheet.Group{{Name: "Lens"}}, Ring: sheet.Ring{Length: mm, Marks: []sheet.RingMark{{MM: 6, Label: "<450>", Pull: true}}}}
		var html, pdf bytes.Buffer
		require.NoError(t, sheet.HTML(&html, page))
		require.NoError(t, sheet.Write(&pdf, []sheet.Page{page}))
		if drawn {
			assert.Contains(t, html.String(), `width="190.00mm"`)
			assert.Contains(t, html.String(), "&lt;450&gt;")
		} else {
			assert.NotContains(t, html.String(), `width="190.10mm"`)
			assert.Contains(t, html.String(), "The tape is 190 mm long, more than a page is wide")
		}
	}
}
