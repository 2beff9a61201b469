package sheet

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"math"
	"strconv"
	"strings"

	"seamrail/plot/internal/look"
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
	t.use(style{size * t.zoom / point, s["font-weight"] == "bold", ink})
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
		return look.Ink, fmt.Errorf("a figure has the colour %q, which cannot be set", text)
	}
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}, nil
}

func (t tracing) path(d string, s map[string]string) error {
	filled := s["fill"] != "none"
	if filled {
		ink, err := colour(s["fill"])
		if err != nil {
			return err
		}
		t.pdf.SetFillColor(int(ink.R), int(ink.G), int(ink.B))
	} else if err := t.pen(s); err != nil {
		return err
	}
	if err := t.outline(d); err != nil {
		return err
	}
	if filled {
		t.pdf.DrawPath("f")
		return nil
	}
	t.pdf.DrawPath("D")
	t.pdf.SetDashPattern(nil, 0)
	return nil
}

// pen takes the ink, width and dashes of a line.
func (t tracing) pen(s map[string]string) error {
	ink, err := colour(s["stroke"])
	if err != nil {
		return err
	}
	t.pdf.SetDrawColor(int(ink.R), int(ink.G), int(ink.B))
	width := 1.0
	if text := s["stroke-width"]; text != "" {
		if width, err = strconv.ParseFloat(text, 64); err != nil {
			return err
		}
	}
	t.pdf.SetLineWidth(width * t.zoom)
	var dashes []float64
	if text := s["stroke-dasharray"]; text != "" {
		if dashes, err = numbers(text); err != nil {
			return err
		}
	}
	for k := range dashes {
		dashes[k] *= t.zoom
	}
	t.pdf.SetDashPattern(dashes, 0)
	return nil
}

func numbers(text string) ([]float64, error) {
	var out []float64
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
		v, err := strconv.ParseFloat(part, 64)
		if err != nil {
			return nil, fmt.Errorf("a figure has %q for a number", part)
		}
		out = append(out, v)
	}
	return out, nil
}

// commands are how many numbers each command of a path has.
var commands = map[byte]int{'M': 2, 'L': 2, 'A': 7, 'Z': 0}

// outline lays a path.
func (t tracing) outline(d string) error {
	x, y := 0.0, 0.0
	for d != "" {
		n, known := commands[d[0]]
		end := strings.IndexAny(d[1:], "MLAZ") + 1
		if end == 0 {
			end = len(d)
		}
		v, err := numbers(d[1:end])
		if err != nil || !known || len(v) != n {
			return fmt.Errorf("a figure has %q in a path, which cannot be set", d[:end])
		}
		switch d[0] {
		case 'M':
			t.pdf.MoveTo(t.at(v[0], v[1]))
		case 'L':
			t.pdf.LineTo(t.at(v[0], v[1]))
		case 'A':
			t.arc(x, y, v)
		case 'Z':
			t.pdf.ClosePath()
		}
		if n > 0 {
			x, y = v[n-2], v[n-1]
		}
		d = d[end:]
	}
	return nil
}

// arcStep is how far along an arc the chords go that stand for it, in radians: a
// circle of 20 mm then strays from round by 0.003 mm.
const arcStep = math.Pi / 90

// arc goes from x, y along an arc of a circle: radii, turn, large, sweep and end,
// as SVG has them. Its middle is found as in SVG 1.1, F.6.5 (from memory), where
// both radii are one.
func (t tracing) arc(x, y float64, v []float64) {
	r, large, sweep, ex, ey := v[0], v[3] != 0, v[4] != 0, v[5], v[6]
	dx, dy := ex-x, ey-y
	chord := math.Hypot(dx, dy)
	if chord == 0 || r == 0 {
		return
	}
	r = max(r, chord/2)
	off := math.Sqrt(max(0, r*r-chord*chord/4)) / chord
	if large == sweep {
		off = -off
	}
	cx, cy := (x+ex)/2-off*dy, (y+ey)/2+off*dx
	from, to := math.Atan2(y-cy, x-cx), math.Atan2(ey-cy, ex-cx)
	switch {
	case sweep && to < from:
		to += 2 * math.Pi
	case !sweep && to > from:
		to -= 2 * math.Pi
	}
	n := int(math.Ceil(math.Abs(to-from) / arcStep))
	for k := 1; k <= n; k++ {
		a := from + (to-from)*float64(k)/float64(n)
		t.pdf.LineTo(t.at(cx+r*math.Cos(a), cy+r*math.Sin(a)))
	}
}
