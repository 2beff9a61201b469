package style

import (
	"bytes"
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"
)

// families are typefaces as wide as the one the layout is measured in, in
// order of preference, so that a viewer without the first still keeps every
// label in its place.
const families = "font-family:'Liberation Sans',Arimo,Arial,Helvetica,sans-serif;"

// writeSVG writes drawn, naming the substitutes of its typeface, and telling
// the viewer how wide each text must come out: with a wider typeface it is then
// squeezed rather than run into its neighbour. The widths are in the order in
// which the texts were drawn.
func writeSVG(w io.Writer, drawn io.WriterTo, widths []vg.Length) (int64, error) {
	var b bytes.Buffer
	if _, err := drawn.WriteTo(&b); err != nil {
		return 0, err
	}
	parts := bytes.Split(b.Bytes(), []byte("<text "))
	var out bytes.Buffer
	out.Write(parts[0])
	for i, part := range parts[1:] {
		out.WriteString("<text ")
		if i < len(widths) && widths[i] > 0 {
			fmt.Fprintf(&out, `textLength="%.2f" lengthAdjust="spacingAndGlyphs" `, widths[i].Points())
		}
		out.Write(bytes.ReplaceAll(part, []byte("font-family:Liberation Sans;"), []byte(families)))
	}
	return out.WriteTo(w)
}
