package sheet

import (
	"fmt"
	"slices"
	"strconv"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
	"seamrail/motion/fade"
	"seamrail/motion/plan"
	"seamrail/motion/scene"
)

// dimmed is a lamp that changes, and its level over the loop.
type dimmed struct {
	scene.Lamp
	course *fade.Course
}

// changing are the lamps of a scene that change over the loop of a plan.
func changing(p *plan.Plan, s scene.Scene) []dimmed {
	var out []dimmed
	for _, l := range s.Lamps {
		if l.Fade == nil {
			continue
		}
		if c, err := l.Fade.Over(p.Loop.Real()); err == nil { // else no picture was made of it
			out = append(out, dimmed{l, c})
		}
	}
	return out
}

// dimmers is what to set for each lamp that changes, a row every so many timeline frames
// and where a fade begins or ends.
func dimmers(p *plan.Plan, s scene.Scene, step int64) Table {
	lamps := changing(p, s)
	if len(lamps) == 0 {
		return Table{}
	}
	out := Table{Name: "Dimmers over the loop", Heads: []string{"frame", "real s"}}
	loop := p.Loop.Real().Float()
	perFrame := loop / float64(p.Loop.Screen)
	var at []float64
	for k := int64(0); k <= p.Loop.Screen; k += step {
		at = append(at, float64(k)*perFrame)
	}
	for _, l := range lamps {
		out.Heads = append(out.Heads, l.Name+", dial %", "of 255")
		if ways := l.course.Ways(); len(ways) <= maxMoves {
			for _, w := range ways {
				at = append(at, w.From, inLoop(w.To, loop))
			}
		}
		out.Notes = append(out.Notes, l.note())
	}
	slices.Sort(at)
	at = slices.CompactFunc(at, func(b, a float64) bool { return b-a < sameMark*perFrame })
	for _, sec := range at {
		row := []string{frameAt(sec/perFrame, p.Loop.Screen), fmt.Sprintf("%.3f", sec)}
		for _, l := range lamps {
			row = append(row, l.set(sec, loop)...)
		}
		out.Rows = append(out.Rows, row)
	}
	out.Rows = unrested(out.Rows)
	return out
}

// set is what to set at sec: the dial, and the same of 255.
func (l dimmed) set(sec, loop float64) []string {
	level, _ := l.course.At(sec)
	if sec >= loop*(1-1e-9) {
		level, _ = l.course.Before(loop)
	}
	dial := l.Curve.Dial(level)
	slot, _ := fade.Slots(dial)
	return []string{strconv.FormatFloat(100*dial, 'f', 1, 64), strconv.Itoa(slot)}
}

// unrested leaves out rows in the middle of a rest of all lamps.
func unrested(rows [][]string) [][]string {
	same := func(a, b []string) bool { return slices.Equal(a[2:], b[2:]) }
	var out [][]string
	for i, r := range rows {
		if i > 0 && i+1 < len(rows) && same(rows[i-1], r) && same(r, rows[i+1]) {
			continue
		}
		out = append(out, r)
	}
	return out
}

// sameMark, in timeline frames, is how near two marks are that are one.
const sameMark = 0.05

// inLoop brings the end of a fade that goes on behind the seam into the loop.
func inLoop(sec, loop float64) float64 {
	if sec > loop {
		return sec - loop
	}
	return sec
}

// frameAt is a timeline frame, whole or not.
func frameAt(frame float64, loop int64) string {
	if frame > float64(loop)-sameMark {
		return "seam"
	}
	return exact.FromFloat(frame).Decimal(1)
}

// note says how a lamp goes and what its dial was taken to be.
func (l dimmed) note() string {
	text := l.Name + ": " + l.Fade.Words() + ". Dimmer taken to be " + l.Curve.Words() + "."
	if l.Hand != "" {
		text += " By the " + cue.Called(l.Hand) + "."
	}
	return text
}
