package source

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"github.com/stretchr/testify/assert"
)

// The column of every place is what one counts from the start of its line.
func TestPlacesAreThoseOneCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		piece := rapid.SampledFrom([]string{"a", "å", "🎥", "\n", strings.Repeat("é", block), strings.Repeat("x", block-1)})
		text := strings.Join(rapid.SliceOfN(piece, 0, 12).Draw(t, "text"), "")
		places := newPlaces([]byte(text))
		for offset := range len(text) + 1 {
			if offset < len(text) && !utf8.RuneStart(text[offset]) {
				continue
			}
			before := text[:offset]
			line, column := places.of(offset)
			assert.Equal(t, 1+strings.Count(before, "\n"), line)
			assert.Equal(t, 1+utf8.RuneCountInString(before[strings.LastIndexByte(before, '\n')+1:]), column)
		}
	})
}
