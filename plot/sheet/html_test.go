package sheet

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/plot/topview"
)

func html(t testing.TB, p Page) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, HTML(&b, p))
	return b.String()
}

// evil is what would break out of text, attribute, style or drawing.
const evil = `</title></svg><script>alert(1)</script><img src=x onerror="a">&"'`

func TestHTMLEscapesEverything(t *testing.T) {
	p := lantern(t)
	p.Title, p.Foot, p.Facts[0], p.Cautions[0] = evil, evil, evil, evil
	p.Groups[0].Rows[0] = Row{evil, evil}
	p.Marks.Heads[2], p.Marks.Notes = evil, []string{evil}
	p.Cues.Rows[0][0], p.Moves.Rows[0][0], p.Lamps.Rows[0][0] = evil, evil, evil
	p.Stills[0].Label, p.StillNotes = evil, []string{evil}
	p.Positions.Curves[0].Name = evil
	d := *p.Above
	d.Ends[0] = evil
	p.Above = &d
	out := html(t, p)
	assert.NotContains(t, out, "<script")
	assert.NotContains(t, out, "<img src=x")
	assert.NotContains(t, out, `onerror="`)
	assert.Contains(t, out, "&lt;script&gt;alert(1)&lt;/script&gt;")
	assert.Equal(t, 2, strings.Count(out, "<svg"))
	assert.Equal(t, 2, strings.Count(out, "</svg>"))
	p.Above, p.NotAbove = nil, evil
	assert.NotContains(t, html(t, p), "<script")
}

// Nothing is fetched: every address is data of its own.
func TestHTMLNeedsNothing(t *testing.T) {
	out := html(t, lantern(t))
	for _, m := range regexp.MustCompile(`(?:src|href)="([^"]*)"|url\(([^)]*)\)|@import`).FindAllStringSubmatch(out, -1) {
		assert.True(t, strings.HasPrefix(m[1], "data:image/png;base64,"), m[0])
	}
	assert.Equal(t, 6, strings.Count(out, `src="data:`))
	assert.Contains(t, out, "default-src 'none'")
	assert.NotContains(t, out, "<script")
}

// Both forms say the same: every text of the page, tables and all, is there, and
// a blank for each that is empty.
func TestHTMLSaysEverything(t *testing.T) {
	p := lantern(t)
	out := html(t, p)
	for _, text := range p.texts() {
		if text != p.NotAbove {
			assert.Contains(t, out, strings.ReplaceAll(strings.ReplaceAll(strings.ReplaceAll(text, "<", "&lt;"), ">", "&gt;"), "'", "&#39;"))
		}
	}
	blanks := p.Takes + len(slate)
	for _, g := range p.Groups {
		for _, r := range g.Rows {
			if r.Value == "" {
				blanks++
			}
		}
	}
	for _, table := range p.tables() {
		for _, r := range table.Rows {
			for _, c := range r {
				if c == "" {
					blanks++
				}
			}
		}
	}
	assert.Equal(t, blanks, strings.Count(out, `class="blank"`))
	assert.Equal(t, p.Takes*len(ticks), strings.Count(out, `type="checkbox"`))
}

// The scene is true to scale: as many mm on the page as its paper has in the
// picture of it.
func TestTheSceneIsTrueToScale(t *testing.T) {
	out := html(t, lantern(t))
	m := regexp.MustCompile(`<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+)"`).FindStringSubmatch(out)
	require.NotNil(t, m)
	v := make([]float64, 7)
	for k := 1; k < 7; k++ {
		v[k] = amountOf(t, m[k])
	}
	assert.InDelta(t, 72/25.4, v[5]/v[1], 1e-4, "points of the picture a mm of the page")
	assert.InDelta(t, 72/25.4, v[6]/v[2], 1e-4)
	// From the lens, 454 mm before the axis, to the product's far side are 499 mm:
	// 100 on paper at 1:5, more than there is, and 50 at 1:10.
	assert.Contains(t, out, ">Scale 1:10<")
}

// The room is no more than the scale needs.
func TestTheSceneIsAsLowAsItsScaleAllows(t *testing.T) {
	p := lantern(t)
	_, high, err := p.above()
	require.NoError(t, err)
	d := *p.Above
	d.Inset = true
	best, err := topview.Largest(d, insetPaper(insetMost))
	require.NoError(t, err)
	kept, err := topview.Largest(d, insetPaper(high))
	require.NoError(t, err)
	assert.Equal(t, best, kept)
	if high > insetLeast+insetStep {
		lower, err := topview.Largest(d, insetPaper(high-insetStep))
		assert.True(t, err != nil || lower < best, fmt.Sprint(lower))
	}
}

func BenchmarkWrite(b *testing.B) {
	p := lantern(b)
	for b.Loop() {
		var out bytes.Buffer
		if err := Write(&out, []Page{p}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHTML(b *testing.B) {
	p := lantern(b)
	for b.Loop() {
		var out bytes.Buffer
		if err := HTML(&out, p); err != nil {
			b.Fatal(err)
		}
	}
}
