package sequencereport

import (
	"fmt"
	"math"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/picture"
	"seamrail/motion/edit/sequence"
)

// grade is how a cut is told: what breaks off or goes back is marked, not
// forbidden; a cut may well want it.
type grade struct {
	tone report.Tone
	mark string
}

var grades = map[sequence.Momentum]grade{
	sequence.Unknown:    {report.Dim, "?"},
	sequence.Continuous: {report.Good, ""}, sequence.Rests: {report.Good, ""}, sequence.Carries: {report.Good, ""},
	sequence.Faster: {report.Fair, "~"}, sequence.Slower: {report.Fair, "~"},
	sequence.SetsOff: {report.Fair, "~"}, sequence.Stops: {report.Fair, "~"},
	sequence.Turns: {report.Poor, "x"}, sequence.Reverses: {report.Poor, "x"},
}

// passage tells in a line what the motion does across a cut.
func (p *page) passage(c sequence.Cut) {
	g, at := grades[c.Momentum], p.c.Label(c.Frame)+"  "
	if c.To == 0 {
		at = "the loop: "
	}
	p.Add(report.Field{Label: fmt.Sprintf("%d to %d", c.From+1, c.To+1), Text: at + momentumWords(c), Tone: g.tone, Mark: g.mark})
}

// cut tells it with the motion before and after.
func (p *page) cut(c sequence.Cut) {
	p.passage(c)
	dim := func(text string) { p.Toned(report.Dim, "", text) }
	switch {
	case c.Momentum == sequence.Continuous:
	case c.Seen:
		dim(fmt.Sprintf("out at frame %d: %s", c.Out.Frame, flowWords(*c.Out.Flow)))
		dim(fmt.Sprintf("in at frame %d: %s", c.In.Frame, flowWords(*c.In.Flow)))
		dim(placeWords(c))
	default:
		for _, a := range c.Axes {
			words := a.Axis
			if !c.Otherwise {
				words += " " + a.Momentum.String()
			}
			dim(fmt.Sprintf("%s: out %s, in %s an on-screen second", words, speedText(a.Out, a.Unit), speedText(a.In, a.Unit)))
		}
		dim("to see it in the picture: " + strings.Join(c.Lacks, "; "))
	}
}

func momentumWords(c sequence.Cut) string {
	switch c.Momentum {
	case sequence.Continuous:
		return "goes on: the next frame of the same shot, so nothing is cut"
	case sequence.Unknown:
		if c.Otherwise && !c.Seen {
			return "not known what the motion does: the rig stands otherwise after it"
		}
		return "not known what the motion does"
	case sequence.Rests:
		return "rests: still on both sides"
	case sequence.SetsOff:
		return "sets off: still before, moving after"
	case sequence.Stops:
		return "stops: moving before, still after"
	}
	words := c.Momentum.String()
	if !c.Seen {
		return words
	}
	words += ": "
	if c.Angle >= 1 {
		words += fmt.Sprintf("%.0f degrees from the way it went, ", c.Angle)
	}
	if pace := short(c.Pace); pace != "1" {
		return words + pace + " times as fast"
	}
	return words + "as fast as before"
}

// loopWords says how the clip comes round.
func loopWords(c sequence.Cut) string {
	switch {
	case c.Momentum == sequence.Continuous:
		return "closes: its last frame leads into its first as one shot"
	case c.Seen:
		return fmt.Sprintf("a cut: the motion %s, and %s", c.Momentum, placeWords(c))
	case c.Momentum == sequence.Unknown:
		return "a cut; what the motion does is not known"
	}
	return fmt.Sprintf("a cut: the motion %s", c.Momentum)
}

// flowWords tells the flow of a picture in three parts.
func flowWords(f picture.Flow) string {
	var parts []string
	for _, x := range []struct {
		v         float64
		plus, neg string
	}{{f.Right, "right", "left"}, {f.Up, "up", "down"}, {f.Toward, "growing", "shrinking"}} {
		if math.Abs(x.v) < faint {
			continue
		}
		name := x.plus
		if x.v < 0 {
			name = x.neg
		}
		parts = append(parts, name+" "+short(math.Abs(x.v)))
	}
	if len(parts) == 0 {
		return "still"
	}
	return strings.Join(parts, ", ") + " widths/s"
}

// faint is a share of the picture's width, or a speed in widths a second, that
// is not worth a word: a pixel of 2000, or twenty frames for one.
const faint = 0.0005

// placeWords tells where what the eye follows is after the cut.
func placeWords(c sequence.Cut) string {
	if !c.Placed {
		return "the product is not in both pictures"
	}
	words := "the product stays where it was"
	if c.Jump >= faint {
		words = fmt.Sprintf("the product jumps %s picture widths", short(c.Jump))
	}
	if math.Abs(c.Grows-1) >= faint {
		words += fmt.Sprintf(", %s times as large", short(c.Grows))
	}
	return words
}

// short prints three digits, as a ruler or an eye is good for.
func short(v float64) string {
	text := fmt.Sprintf("%.3g", v)
	if strings.Contains(text, "e") {
		return fmt.Sprintf("%.0f", v)
	}
	return text
}

func speedText(v float64, axisUnit string) string {
	dim := unit.Length
	if axisUnit == "deg" {
		dim = unit.Angle
	}
	const grain = 1000
	return unit.Format(math.Round(v*grain)/grain, dim)
}
