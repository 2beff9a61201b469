package textpage

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func text(t require.TestingT, p *Page) string {
	var b bytes.Buffer
	_, err := p.WriteTo(&b)
	require.NoError(t, err)
	return b.String()
}

func TestPage(t *testing.T) {
	var p Page
	p.Line("Title  ")
	p.Section("PART")
	p.Field("label", "text")
	p.Raw("", "more")
	p.Bullet(Green, "+", "a point")
	assert.Equal(t, "Title\n\nPART\n  label         text\n                more\n  + a point\n", text(t, &p))
}

func TestColourIsTakenOffAgain(t *testing.T) {
	p := Page{Colour: true}
	p.Inked(Red, "label", "text")
	out := text(t, &p)
	assert.Contains(t, out, "\x1b[31mtext\x1b[0m")
	assert.Equal(t, strings.Count(out, "\x1b["), 2*strings.Count(out, "\x1b[0m"))
	assert.Equal(t, "", p.Paint(Red, ""), "nothing has no colour")
}

// Folded text keeps its words and its width, whatever they are.
func TestFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zµ±]{1,14}`), 1, 40).Draw(t, "words")
		width := rapid.IntRange(14, 80).Draw(t, "width")
		lines := Fold(strings.Join(words, " "), width)
		assert.Equal(t, words, strings.Fields(strings.Join(lines, " ")))
		for i, line := range lines {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), width)
			if i > 0 {
				first := strings.Fields(line)[0]
				assert.Greater(t, utf8.RuneCountInString(lines[i-1])+1+utf8.RuneCountInString(first), width, "it would have fitted above")
			}
		}
	})
}

func TestPad(t *testing.T) {
	assert.Equal(t, "±  ", Pad("±", 3))
	assert.Equal(t, "  ±", PadLeft("±", 3))
	assert.Equal(t, "long", Pad("long", 2))
	assert.Empty(t, Spaces(-1))
}

func TestWords(t *testing.T) {
	assert.Equal(t, "1 take", Counted(1, "take"))
	assert.Equal(t, "0 takes, 2 frames", Counted(0, "take")+", "+Counted(int64(2), "frame"))
	assert.Equal(t, "It closes.", Sentence("it closes"))
}
