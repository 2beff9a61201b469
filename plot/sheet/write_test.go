package sheet

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
)

func written(t testing.TB, pages ...Page) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, pages))
	return b.String()
}

// pagesIn is how many pages a PDF has (ISO 32000-1, 7.7.3.2: Count in the page
// tree's root).
func pagesIn(t testing.TB, pdf string) string {
	t.Helper()
	m := regexp.MustCompile(`/Count (\d+)`).FindStringSubmatch(pdf)
	require.NotNil(t, m)
	return m[1]
}

func TestShotsHaveOnePageEach(t *testing.T) {
	assert.Equal(t, "1", pagesIn(t, written(t, lantern(t))))
	assert.Equal(t, "1", pagesIn(t, written(t, pageOf(t, lanternMoves))))
	assert.Equal(t, "3", pagesIn(t, written(t, lantern(t), pageOf(t, lanternMoves), lantern(t))))
}

// A4 is 210 by 297 mm (ISO 216): 595.28 by 841.89 points.
func TestThePaperIsA4(t *testing.T) {
	assert.Contains(t, written(t, lantern(t)), "[0 0 595.28 841.89]")
}

// What does not go on one page goes on, no part of it is higher than a page, and
// nothing is left out.
func TestMuchTakesMorePages(t *testing.T) {
	many.Long(t)
	p := lantern(t)
	long := strings.Repeat("and then mind it once more ", 20)
	for k := range 80 {
		p.Fails = append(p.Fails, fmt.Sprintf("Thing %d does not hold, %s.", k, long[:27*(1+k%20)]))
		p.Cautions = append(p.Cautions, fmt.Sprintf("Mind thing %d, %s.", k, long[:27*(1+k%20)]))
		p.Cues.Rows = append(p.Cues.Rows, []string{long[:27*(1+k%20)], "left", "frame 1", "now", "not", "each round"})
		p.Cues.Notes = append(p.Cues.Notes, long)
		p.Positions.Curves = append(p.Positions.Curves, p.Positions.Curves[0])
	}
	d := *p.Above
	for range 80 {
		d.Above.Missing = append(d.Above.Missing, "a lamp, for want of its distance")
	}
	p.Above = &d
	parts, err := partsOf(p)
	require.NoError(t, err)
	press := newPress()
	var said []string
	for _, b := range press.choose(p, parts) {
		assert.LessOrEqual(t, b.height(press), bottom-press.headEnd(p), "a part goes on a page")
		for _, part := range append(b.left, b.right...) {
			switch part := part.(type) {
			case Table:
				for _, r := range part.Rows {
					said = append(said, r...)
				}
				said = append(said, part.Notes...)
			case paragraphs:
				for _, text := range part.texts {
					said = append(said, text.text)
				}
			}
		}
	}
	for _, table := range p.tables() {
		for _, r := range table.Rows {
			assert.Subset(t, said, r)
		}
		assert.Subset(t, said, table.Notes)
	}
	assert.Subset(t, said, p.Cautions)
	assert.Subset(t, said, p.Fails)
	for _, n := range p.Above.Notes() {
		assert.Contains(t, said, n.Words)
	}
	assert.NotEqual(t, "1", pagesIn(t, written(t, p)))
}

// What does not hold comes before all else; where everything holds there is no word
// of it.
func TestWhatDoesNotHoldComesFirst(t *testing.T) {
	p := lantern(t)
	parts, err := partsOf(p)
	require.NoError(t, err)
	assert.Empty(t, parts.fails)
	p.Fails = []string{"Will not look right, focus: it is 40 mm out.", "Not known: whether it flickers."}
	parts, err = partsOf(p)
	require.NoError(t, err)
	one, _ := parts.onePage(newPress(), p)
	for _, bands := range [][]band{one, parts.pages(p)} {
		first, ok := bands[0].left[0].(paragraphs)
		require.True(t, ok)
		assert.Equal(t, failsName, first.name)
		assert.Len(t, first.texts, 2)
	}
}

// crowded is a shot of so many axes, and so many cues and cautions, that its sheet
// takes several pages.
func crowded(t testing.TB, axes, more int) Page {
	p := lantern(t)
	for len(p.Positions.Curves) < axes {
		p.Positions.Curves = append(p.Positions.Curves, p.Positions.Curves[0])
	}
	for k := range more {
		p.Cues.Rows = append(p.Cues.Rows, []string{fmt.Sprint("bead ", k), "left", "frame 1", "now", "not counted", "each round"})
		p.Moves.Rows = append(p.Moves.Rows, p.Moves.Rows[0])
		p.Cautions = append(p.Cautions, fmt.Sprintf("Mind thing %d.", k))
	}
	return p
}

// However large the curves are, no page but the last is half empty: what is left of
// one is less than a part and a gap, or nothing that is left goes there.
func TestNoPageIsLeftHalfEmpty(t *testing.T) {
	for _, axes := range []int{2, 4, 6, 9, 14} {
		for _, more := range []int{8, 20, 50} {
			p := crowded(t, axes, more)
			parts, err := partsOf(p)
			require.NoError(t, err)
			press := newPress()
			press.size = usualSize
			f := folio{press: press, d: p}
			bands := parts.pages(p)
			f.next()
			for len(bands) > 0 {
				k := f.turn(bands)
				page, left := f.page, bottom-f.y
				require.NoError(t, f.set(bands[k]))
				if f.page > page {
					assert.Less(t, left, partHigh+gap, "%d axes, %d more: page %d", axes, more, page)
				}
				bands = append(bands[:k:k], bands[k+1:]...)
			}
		}
	}
}

// Whatever a title is written in, there is a sheet, and it says what it lacks.
func TestLettersThatTheFontLacks(t *testing.T) {
	for title, want := range map[string]string{
		"Laterne \u00fcber \u2014 \u00b5 \u03a9 \u0416 \u03c6\u03b1\u03bd\u03cc\u03c2 \u0444\u043e\u043d\u0430\u0440\u044c e\u0301": "",
		"Lantern \u6f22\u5b57 \U0001F3EE":                     "U+6F22, U+5B57, U+1F3EE",
		"\u0641\u0627\u0646\u0648\u0633":                      "U+0641",
		"\u0e42\u0e04\u0e21 \ufffd \u20dd":                    "U+0E42",
		strings.Repeat("\u706f", 3000) + "\u7b3c\u7c60\u5149": "U+706F, U+7B3C",
	} {
		p := lantern(t)
		p.Title = title
		p.Cues.Rows[0][0] = title
		pdf := written(t, p)
		assert.NotEmpty(t, pdf)
		if want == "" {
			assert.Empty(t, Lacks(p), title)
			continue
		}
		assert.Contains(t, Lacks(p), want)
		var html bytes.Buffer
		require.NoError(t, HTML(&html, p))
		assert.Contains(t, html.String(), title, "a browser has the letters")
	}
	many := ""
	for r := rune(0x4e00); r < 0x4e20; r++ {
		many += string(r)
	}
	assert.Contains(t, LacksText(many), "U+4E07 and 24 more: codes")
}

func TestNothingToWrite(t *testing.T) {
	assert.ErrorContains(t, Write(io.Discard, nil), "no sheet")
	p := lantern(t)
	var html bytes.Buffer
	require.NoError(t, HTML(&html, p))
	sample.Fails(t, html.Len(), func(w io.Writer) error { return HTML(w, p) })
	assert.ErrorIs(t, Write(&sample.Broken{}, []Page{p}), sample.ErrFull)
}

// However long the words, lines keep to their width, and all that was said is
// there as long as it is no more than maxLines.
func TestWrapKeepsToTheWidth(t *testing.T) {
	p := newPress()
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("abc iWM .-")), 0, 120, -1).Draw(rt, "text")
		w := rapid.Float64Range(4, 60).Draw(rt, "w")
		lines := p.wrap(text, w, p.plain())
		require.LessOrEqual(rt, len(lines), maxLines)
		for _, l := range lines {
			assert.LessOrEqual(rt, p.width(strings.TrimSuffix(l, " ..."), p.plain()), w+1e-9)
		}
		if len(lines) < maxLines {
			flat := func(s string) string { return strings.Join(strings.Fields(s), "") }
			assert.Equal(rt, flat(text), flat(strings.Join(lines, "")))
		}
	})
}

// Columns fill the width and no more, however much they ask for.
func TestColumnsFillTheWidth(t *testing.T) {
	p := newPress()
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(rt, "columns")
		cell := rapid.StringOfN(rapid.RuneFrom([]rune("0aW m")), 0, 60, -1)
		table := Table{Heads: rapid.SliceOfN(cell, n, n).Draw(rt, "heads"),
			Rows: [][]string{rapid.SliceOfN(cell, n, n).Draw(rt, "row")}}
		w := rapid.Float64Range(30, inner).Draw(rt, "w")
		sum := 0.0
		for _, c := range table.columns(p, w) {
			assert.Positive(rt, c)
			sum += c
		}
		assert.InDelta(rt, w, sum, 1e-6)
	})
}
