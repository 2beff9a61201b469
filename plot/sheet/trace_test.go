package sheet

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// traced is what a PDF makes of the marks of a figure 30 points high, with its
// top left corner 10 mm right of that of the page and 20 mm below.
func traced(t *testing.T, marks string) string {
	t.Helper()
	p := newPress()
	p.pdf.SetCompression(false)
	p.pdf.AddPage()
	require.NoError(t, p.trace([]byte(`<svg viewBox="0 0 40 30"><g>`+marks+`</g></svg>`), 10, 20, point))
	var b bytes.Buffer
	require.NoError(t, p.pdf.Output(&b))
	return b.String()
}

// points are where the operators m and l of a PDF go (ISO 32000-1, 8.5.2), as
// points of the figure.
func points(t *testing.T, pdf string) [][2]float64 {
	t.Helper()
	var out [][2]float64
	for _, m := range regexp.MustCompile(`([\d.-]+) ([\d.-]+) [ml]\b`).FindAllStringSubmatch(pdf, -1) {
		left, foot := 10/25.4*72, 841.89-20/25.4*72-30
		out = append(out, [2]float64{amountOf(t, m[1]) - left, amountOf(t, m[2]) - foot})
	}
	return out
}

// paperSlack is what rounding to the hundredths of a point of a PDF takes.
const paperSlack = 0.011

// A figure lies where it is put, y upwards, each of its points a point.
func TestTraceLines(t *testing.T) {
	pdf := traced(t, `<path d="M0,0L40,0L40,30Z" style="fill:none;stroke:#FF0080;stroke-width:0.5;stroke-dasharray:6,2.5"/>`)
	want := [][2]float64{{0, 0}, {40, 0}, {40, 30}}
	got := points(t, pdf)
	require.Len(t, got, 3)
	for k := range want {
		assert.InDelta(t, want[k][0], got[k][0], paperSlack)
		assert.InDelta(t, want[k][1], got[k][1], paperSlack)
	}
	assert.Contains(t, pdf, "1.000 0.000 0.502 RG")
	assert.Contains(t, pdf, "0.50 w")
	assert.Regexp(t, `\[6\.0+ 2\.50+\] 0`, pdf)
}

// The four arcs of radius 10 from (10, 0) to (0, 10): their middles are (0, 0)
// and (10, 10), they are a quarter or three quarters long, and a sweep of 1 goes
// towards greater angles (SVG 1.1, 8.3.8).
func TestTraceArcs(t *testing.T) {
	for _, c := range []struct {
		large, sweep int
		middle, turn float64
	}{
		{0, 1, 0, 90}, {1, 0, 0, -270}, {0, 0, 10, -90}, {1, 1, 10, 270},
	} {
		d := fmt.Sprintf(`<path d="M10,0A10,10 0 %d %d 0,10" style="fill:none;stroke:#000000"/>`, c.large, c.sweep)
		got := points(t, traced(t, d))
		assert.InDelta(t, 0, got[len(got)-1][0], paperSlack)
		assert.InDelta(t, 10, got[len(got)-1][1], paperSlack)
		turned := 0.0
		for k, at := range got {
			assert.InDelta(t, 10, math.Hypot(at[0]-c.middle, at[1]-c.middle), 2*paperSlack)
			if k > 0 {
				a := math.Atan2(at[1]-c.middle, at[0]-c.middle) - math.Atan2(got[k-1][1]-c.middle, got[k-1][0]-c.middle)
				turned += math.Remainder(a, 2*math.Pi) * 180 / math.Pi
			}
		}
		assert.InDelta(t, c.turn, turned, 0.5, d)
	}
}

func TestTraceTexts(t *testing.T) {
	pdf := traced(t, `<text x="4" y="-6" style="font-weight:bold;font-size:9px;fill:#0072B2">A</text>`)
	assert.Regexp(t, `BT 32\.35 761\.20 Td`, pdf, "4 right of 10 mm; 6 above a foot 30 below 20 mm")
	assert.Contains(t, pdf, " 9.00 Tf")
}

// What it does not know it refuses, so that nothing of a figure is ever missing.
func TestTraceRefuses(t *testing.T) {
	p := newPress()
	p.pdf.AddPage()
	for _, marks := range []string{
		`<circle r="3"/>`, `<path d="M0,0C1,1 2,2 3,3" style="fill:none"/>`, `<path d="M0" style="fill:none"/>`, `<path d="0,0" style=""/>`,
		`<path d="M0,0" style="fill:red"/>`, `<text>A</text>`, `<path d="Mx,y" style=""/>`, `<path`,
		`<path d="M0,0L1,1" style="fill:none;stroke-dasharray:a"/>`, `<path d="M0,0L1,1" style="fill:none;stroke-width:a"/>`,
	} {
		assert.Error(t, p.trace([]byte(`<svg viewBox="0 0 40 30"><g>`+marks+`</g></svg>`), 0, 0, 1), marks)
	}
	assert.Error(t, p.trace([]byte(`<svg><g></g></svg>`), 0, 0, 1))
}
