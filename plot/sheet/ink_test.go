package sheet

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pdfState is what of a PDF's graphics state a text is painted with.
type pdfState struct{ fill, font string }

// painted are the inks and the type of each text of a PDF that is not compressed, as
// a reader of it has them: q keeps the state, Q takes it back, g and rg are inks of
// what is filled, Tf is type, a page begins anew (ISO 32000-1, 8.4 and 9.3).
func painted(pdf string) []pdfState {
	var out []pdfState
	for _, stream := range regexp.MustCompile(`(?s)stream\n(.*?)endstream`).FindAllStringSubmatch(pdf, -1) {
		if !strings.Contains(stream[1], " Tj") {
			continue
		}
		state := pdfState{fill: "0 g"}
		var kept []pdfState
		for _, op := range operators.FindAllString(stream[1], -1) {
			switch {
			case op == "q":
				kept = append(kept, state)
			case op == "Q":
				state, kept = kept[len(kept)-1], kept[:len(kept)-1]
			case strings.HasSuffix(op, "g"):
				state.fill = op
			case strings.HasSuffix(op, "Tf"):
				state.font = op
			default:
				out = append(out, state)
			}
		}
	}
	return out
}

var operators = regexp.MustCompile(`(?s)\(((\\.)|[^\\)])*\) Tj|[\d.]+ [\d.]+ [\d.]+ rg\b|[\d.]+ g\b|/\S+ [\d.]+ Tf|\b[qQ]\b`)

// Whatever was drawn before it, and on whichever page, a text has an ink that shows.
// Of two shots the second once had white words.
func TestTextShowsOnEveryPage(t *testing.T) {
	p := newPress()
	p.pdf.SetCompression(false)
	page := lantern(t)
	long := page
	for range 3 {
		long.Cautions = append(slices.Clone(long.Cautions), long.Cautions...)
	}
	for _, d := range []Page{page, page, long, pageOf(t, lanternMoves), page} {
		require.NoError(t, p.page(d))
	}
	var b bytes.Buffer
	require.NoError(t, p.pdf.Output(&b))
	states := painted(b.String())
	require.Greater(t, len(states), 500)
	white := 0
	for _, s := range states {
		assert.NotEmpty(t, s.font)
		if strings.HasPrefix(s.fill, "1.000") || s.fill == "1 g" {
			white++
		}
	}
	// The marks of the lens at both ends and of the lamp stand white on a disc.
	assert.Equal(t, 3*4, white)
}
