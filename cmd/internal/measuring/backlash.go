package measuring

import (
	"fmt"

	"seamrail/motion/base/source"
	"seamrail/motion/calibrate"
)

// approaches is how often a place is come to from each side.
const approaches = 3

// backlash finds the play of the axis from a place come to both ways.
func (w *Walk) backlash() (*Found, error) {
	division, err := w.division("What is the smallest division of the gauge? A dial gauge has 0.01 mm; a ruler, or the picture, will do where the play is more.", w.quantityOf(usualGauge), w.dim())
	if err != nil {
		return nil, err
	}
	a := calibrate.Approaches{Division: division}
	at := 0.0
	if w.hand != nil {
		from, to, err := w.stretch(2 * lead)
		if err != nil {
			return nil, err
		}
		if err := w.begin(); err != nil {
			return nil, err
		}
		at = (from + to) / 2
	}
	picture := playPicture
	for i := range approaches {
		for _, side := range []struct {
			key, words string
			lead       float64
			into       *[]float64
		}{{"up", "upward", -lead, &a.Up}, {"down", "downward", lead, &a.Down}} {
			if w.hand != nil {
				if err := w.hand.from(side.lead, at); err != nil {
					return nil, err
				}
			}
			q, err := w.read(side.key, fmt.Sprintf("%d of %d, come to %s. What does the gauge read?", i+1, approaches, side.words), picture, division, w.dim())
			if err != nil {
				return nil, err
			}
			*side.into, picture = append(*side.into, q.Float()), ""
		}
	}
	p, err := a.Play()
	if err != nil {
		return doubtful(err), nil
	}
	return w.played(p), nil
}

// usualGauge is what a dial gauge is read to, in mm; a mark on a rim, in degrees.
const usualGauge = 0.01

func (w *Walk) played(p calibrate.Play) *Found {
	f := &Found{Value: p.Estimate, Unit: w.axis.Unit()}
	u := w.axis.Unit()
	f.tell("play", "%s %s, give or take %.2g (95 %%)", known(p.Value, p.Sigma), u, p.Bound())
	old, stated := source.Value(w.data, w.path("backlash"))
	has := stated && w.axis.Backlash != nil && p.Has(*w.axis.Backlash)
	switch {
	case !p.Told && (has || !stated):
		f.tell("so", "it is not told from nothing: less than %.2g %s. A finer gauge would tell; no line is written", p.Value+p.Bound(), u)
	case !p.Told:
		f.tell("so", "it is not told from nothing, and the %s of the file are more than it can be", old)
		f.line(w.path("backlash"), old, known(p.Value, p.Sigma)+" "+u)
	case has:
		f.tell("so", "the %s of the file lie within that: nothing is to be changed", old)
	default:
		f.line(w.path("backlash"), old, known(p.Value, p.Sigma)+" "+u)
	}
	return f
}
