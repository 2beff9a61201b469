package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

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
// as SVG has them. Its middle is found as in SVG 1.1, F.6.5, where both radii are
// one.
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
