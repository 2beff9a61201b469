package shake

import (
	"fmt"
	"math"

	"seamrail/cmd/internal/exit"
	"seamrail/export/report/shakereport"
	"seamrail/motion/calm"
	"seamrail/motion/law"
	"seamrail/plot/shakeplot"
)

// The range of durations that is drawn, in swings of the rig, and how many.
const (
	fewestSwings = 0.3
	mostSwings   = 4
	durations    = 240
)

// shakePicture is what the survey draws.
func shakePicture(d shakereport.Data) (shakeplot.Data, error) {
	s := d.Subject
	leg, ok := s.Leg()
	if !ok || len(d.Laws) == 0 {
		return shakeplot.Data{}, exit.Misused("-o draws laws of a move there and back, or of a turn, and %s does another", s.Axis.Name)
	}
	out := shakeplot.Data{
		Title: "What is left swinging", Unit: s.Axis.Unit(), Period: s.Spring.Period(),
		Notes: []string{
			fmt.Sprintf("%s · %s · %.4g Hz, damping %.3g %%", d.Title, s.Axis.Name, s.Spring.Frequency, 100*s.Spring.Damping),
			d.Surprise,
		},
	}
	if d.PerUnit > 0 {
		out.Pixel = 1 / d.PerUnit
	}
	longest := max(mostSwings*s.Spring.Period(), 1.25*leg.Seconds.Float())
	for _, l := range d.Laws {
		if math.IsInf(l.Acc, 0) && l.Law.Name() != s.Move.Law().Name() {
			continue
		}
		out.Curves = append(out.Curves, residuals(s, leg, l.Law, longest))
	}
	name := s.Move.Law().Name()
	out.Shot = &shakeplot.Point{Name: "this shot, " + name, Seconds: leg.Seconds.Float(), Swing: leg.Travel * s.Spring.Residual(s.Move.Law(), leg.Seconds.Float())}
	out.Lines = swings(s, d)
	return out, nil
}

func residuals(s calm.Subject, leg calm.Leg, l law.Law, longest float64) shakeplot.Curve {
	c := shakeplot.Curve{Name: l.Name()}
	shortest := fewestSwings * s.Spring.Period()
	for i := range durations {
		sec := shortest + (longest-shortest)*float64(i)/(durations-1)
		c.Seconds = append(c.Seconds, sec)
		c.Swing = append(c.Swing, leg.Travel*s.Spring.Residual(l, sec))
	}
	return c
}

// swings are the move as it is and as each shaper would have it.
func swings(s calm.Subject, d shakereport.Data) []shakeplot.Line {
	times := s.Frames()
	screen := make([]float64, len(times))
	for i, t := range times {
		screen[i] = t / s.Loop.Clock.Retime.Float()
	}
	var out []shakeplot.Line
	if len(d.Frames) > 0 {
		out = append(out, shakeplot.Line{Name: "as it is", Screen: screen, Units: d.Frames})
	}
	for _, k := range d.Shapers {
		other := s
		other.Move.Shaped = k.Shaper
		_, r, err := other.Own()
		if err != nil || s.Move.Shaped == k.Shaper {
			continue
		}
		l := shakeplot.Line{Name: "shaped, " + k.Shaper.String(), Screen: screen}
		for _, t := range times {
			l.Units = append(l.Units, r.At(t).Pos)
		}
		out = append(out, l)
	}
	return out
}
