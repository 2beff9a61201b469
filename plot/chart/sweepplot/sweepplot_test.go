package sweepplot

import (
	"bytes"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func example() Data {
	d := Data{Title: "Sweep of the rail", Notes: []string{"a note"}, Marks: []Mark{{5.4, 20, "5.4 Hz"}}}
	for f := 3.0; f < 16; f += 0.1 {
		r := f / 5.4
		h := 1 / math.Hypot(1-r*r, 0.05*r)
		d.Model.Hertz, d.Model.Times = append(d.Model.Hertz, f), append(d.Model.Times, h)
		d.Read.Hertz, d.Read.Times, d.Bound = append(d.Read.Hertz, f), append(d.Read.Times, h*1.02), append(d.Bound, 0.1*h)
	}
	return d
}

func TestDraw(t *testing.T) {
	for _, format := range []string{"png", "svg", "pdf"} {
		var a, b bytes.Buffer
		require.NoError(t, Draw(&a, format, example()))
		require.NoError(t, Draw(&b, format, example()))
		if format != "pdf" {
			assert.True(t, bytes.Equal(a.Bytes(), b.Bytes()), format)
		}
		if format == "svg" {
			for _, text := range []string{"5.4 Hz", "springs that would do so", "read off the record", "a note", ">20<", ">0.2<"} {
				assert.Contains(t, a.String(), text)
			}
		}
	}
	assert.Error(t, Draw(io.Discard, "gif", example()))
	assert.ErrorContains(t, Draw(io.Discard, "png", Data{}), "nothing to draw")
	odd := example()
	odd.Read.Times[3], odd.Bound[4], odd.Marks = 0, 1e9, nil
	assert.NoError(t, Draw(io.Discard, "png", odd), "a load that stands still, and one that is not known")
}
