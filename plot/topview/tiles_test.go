package topview

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// At full size the lantern's scene is cut into sheets of A4 whose insides make
// one drawing that holds it, and no fewer would.
func TestFullSizeOnSeveralSheets(t *testing.T) {
	d := seen(t, travelled(t, 120), walled(-60))
	a3 := Papers[1]
	tiles, ok := newTiling(d, a3, 1)
	require.True(t, ok)
	size := extent(d.Above)
	low, high := tiles.at(size.Min), tiles.at(size.Max)
	assert.True(t, tiles.area.holds(box{low.X, low.Y, high.X, high.Y}))
	assert.InDelta(t, (size.Max.X-size.Min.X)/25.4*72, float64(high.X-low.X), 1e-6, "a millimetre is one")
	w, h := tiles.paper.sheet()
	sw, sh := tiles.sheet.sheet()
	assert.InDelta(t, float64(w), float64(sw-2*edge)*float64(tiles.across), 1e-6)
	assert.InDelta(t, float64(h), float64(sh-2*edge)*float64(tiles.along), 1e-6)
	n := tiles.across * tiles.along
	for fewer := 2; fewer < n; fewer++ {
		for across := 1; across <= fewer; across++ {
			if fewer%across == 0 {
				assert.False(t, laid(d, tiles.sheet.times(across, fewer/across)).fits(size, 1))
			}
		}
	}
	pdf := string(drawn(t, "pdf", d, Options{Paper: a3, Scale: 1}))
	assert.Equal(t, n, strings.Count(pdf, "/Type /Page\n"))
}

func TestTooManySheets(t *testing.T) {
	d := seen(t, travelled(t, 120), walled(0))
	assert.EqualError(t, Draw(io.Discard, "pdf", d, Options{Scale: 5}), "at 5:1 the scene takes more than 24 sheets of A4")
	assert.ErrorContains(t, Draw(io.Discard, "png", d, Options{Scale: 1}), "or as a PDF on several sheets")
}
