package topview

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Paper is a sheet to print on.
type Paper struct {
	Name          string
	Width, Height float64 // mm, upright
}

// Papers are the sheets of ISO 216 that common printers take.
var Papers = []Paper{{"A4", 210, 297}, {"A3", 297, 420}}

// FindPaper returns the paper of that name, in capitals or not.
func FindPaper(name string) (Paper, error) {
	var names []string
	for _, p := range Papers {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
		names = append(names, p.Name)
	}
	return Paper{}, fmt.Errorf("paper %q is not known; use one of %s", name, strings.Join(names, ", "))
}

// across is the paper lying on its side.
func (p Paper) across() Paper { return Paper{p.Name, p.Height, p.Width} }

// way says how the paper lies.
func (p Paper) way() string {
	if p.Width > p.Height {
		return p.Name + " across"
	}
	return p.Name + " upright"
}

// Scale is mm on paper for a mm of the scene.
type Scale float64

// String writes a scale as drawings do: 1:5, 2:1.
func (s Scale) String() string {
	if s < 1 {
		return fmt.Sprintf("1:%.0f", 1/float64(s))
	}
	return fmt.Sprintf("%.0f:1", float64(s))
}

// Length is mm of the scene as points on paper.
func (s Scale) Length(mm float64) vg.Length { return vg.Length(mm*float64(s)) * vg.Millimeter }

// Largest returns the largest scale at which a scene goes on a paper. It returns
// an error where it goes on it at none.
func Largest(d Data, p Paper) (Scale, error) {
	l, err := newLayout(d, p, 0)
	return l.scale, err
}

// ParseScale reads a scale of ISO 5455, as 1:5.
func ParseScale(text string) (Scale, error) {
	for _, s := range scales() {
		if s.String() == strings.ReplaceAll(text, " ", "") {
			return s, nil
		}
	}
	return 0, fmt.Errorf("scale %q is not one that drawings use; say 1:1, 1:2, 1:5, 1:10 and so on", text)
}

// scales are those of ISO 5455, largest first: 1, 2, 5 and their tenfolds.
func scales() []Scale {
	var out []Scale
	for _, power := range []float64{10, 1} {
		for _, m := range []float64{5, 2, 1} {
			out = append(out, Scale(m*power))
		}
	}
	for power := 1.0; power < 1e6; power *= 10 {
		for _, m := range []float64{2, 5, 10} {
			out = append(out, Scale(1/(m*power)))
		}
	}
	return out
}
