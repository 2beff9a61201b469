package look

import (
	"bytes"
	"io"
)

// families are typefaces as wide as the one the layout is measured in, in
// order of preference, so that a viewer without the first still keeps every
// label in its place.
const families = "font-family:'Liberation Sans',Arimo,Arial,Helvetica,sans-serif;"

// writeSVG writes drawn, naming the substitutes of its typeface.
func writeSVG(w io.Writer, drawn io.WriterTo) (int64, error) {
	var b bytes.Buffer
	if _, err := drawn.WriteTo(&b); err != nil {
		return 0, err
	}
	out := bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans;"), []byte(families))
	n, err := w.Write(out)
	return int64(n), err
}
