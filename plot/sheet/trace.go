package sheet

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"strconv"
	"strings"

	"seamrail/plot/internal/style"
)

// The figures of this program come as SVG. tracing draws one into the PDF, so
// that it is as sharp as the type about it. It knows what those figures are made
// of, and no more of SVG: paths of straight lines and arcs of circles, and texts
// that lie level, in one picture whose y goes upwards.
type tracing struct {
	*press
	x, y float64 // mm: where the picture's top left corner lies
	high float64 // of the picture, points
	zoom float64 // mm of the page a point of the picture
}

// drawing is an SVG as those figures have it.
type drawing struct {
	ViewBox string `xml:"viewBox,attr"`
	Group   struct {
		Marks []mark `xml:",any"`
	} `xml:"g"`
}

// mark is a path or a text.
type mark struct {
	XMLName xml.Name
	D       string  `xml:"d,attr"`
	X       float64 `xml:"x,attr"`
	Y       float64 `xml:"y,attr"` // of a text: downwards from the picture's foot
	Style   string  `xml:"style,attr"`
	Text    string  `xml:",chardata"`
}

// trace draws an SVG with its top left corner at x, y, in mm, each of its points
// zoom mm large. It returns an error for what it does not know.
func (p *press) trace(svg []byte, x, y, zoom float64) error {
	var d drawing
	if err := xml.Unmarshal(svg, &d); err != nil {
		return fmt.Errorf("a figure cannot be read: %w", err)
	}
	box := strings.Fields(d.ViewBox)
	if len(box) != 4 {
		return fmt.Errorf("a figure has no size: %q", d.ViewBox)
	}
	high, err := strconv.ParseFloat(box[3], 64)
	if err != nil {
		return err
	}
	t := tracing{p, x, y, high, zoom}
	for _, m := range d.Group.Marks {
		if err := t.mark(m); err != nil {
			return err
		}
	}
	return nil
}

func (t tracing) mark(m mark) error {
	s := styles(m.Style)
	switch m.XMLName.Local {
	case "text":
		return t.text(m, s)
	case "path":
		return t.path(m.D, s)
	}
	return fmt.Errorf("a figure has a %s, which cannot be set", m.XMLName.Local)
}

// at is where a point of the picture lies on the page, in mm.
func (t tracing) at(x, y float64) (right, down float64) {
	return t.x + x*t.zoom, t.y + (t.high-y)*t.zoom
}

// styles are what a style attribute says.
func styles(text string) map[string]string {
	out := map[string]string{}
	for _, part := range strings.Split(text, ";") {
		if name, value, ok := strings.Cut(part, ":"); ok {
			out[strings.TrimSpace(name)] = strings.TrimSpace(value)
		}
	}
	return out
}

func (t tracing) text(m mark, s map[string]string) error {
	size, err := strconv.ParseFloat(strings.TrimSuffix(s["font-size"], "px"), 64)
	if err != nil {
		return fmt.Errorf("a text of a figure has no size: %w", err)
	}
	ink, err := colour(s["fill"])
	if err != nil {
		return err
	}
	t.use(lettering{size * t.zoom / point, s["font-weight"] == "bold", ink})
	x, y := t.at(m.X, -m.Y)
	t.pdf.Text(x, y, m.Text)
	return nil
}

// colour reads #RRGGBB; "" is black, as in SVG.
func colour(text string) (color.NRGBA, error) {
	if text == "" {
		return color.NRGBA{A: 255}, nil
	}
	v, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 24)
	if err != nil || len(text) != 7 {
		return style.Ink, fmt.Errorf("a figure has the colour %q, which cannot be set", text)
	}
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}, nil
}
