package shake

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/export/report/shakereport"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/survey"
	"seamrail/plot/chart/shakeplot"
)

// survey loads the shot, finds out how the axis swings, and looks at it.
func (o *Options) survey() (shakereport.Data, error) {
	var d shakereport.Data
	s, r, err := o.Shot.Source().Load(o.Streams.In)
	if err != nil {
		return d, err
	}
	i, err := shakenAxis(s, r, o.Shot.Axis)
	if err != nil {
		return d, err
	}
	m, source, err := o.spring(r.Axes[i])
	if err != nil {
		return d, err
	}
	known := r.Axes[i].Shake
	r.Axes[i].Shake = m
	p, err := plan.Build(s, r)
	if err != nil {
		return d, err
	}
	d.Title, d.Rig, d.Source = p.Title, r.Name, source
	if m != known {
		d.Keep = keep(r.Axes[i].Name, m)
	}
	if d.PerUnit, err = o.pixels(s, r, p, r.Axes[i]); err != nil {
		return d, err
	}
	for k := range p.Axes {
		if p.Axes[k].Rig.Name == r.Axes[i].Name {
			d.Survey = survey.Look(survey.Of(p, &p.Axes[k]), m)
		}
	}
	if err := job.Choosable(r); err != nil { // what is there is told, and nothing else can be had
		if o.Output != "" {
			return d, err
		}
		d.Laws, d.Shapers, d.Clean, d.Loops, d.Dwells = nil, nil, nil, nil, nil
	}
	return d, nil
}

// shakenAxis picks the axis that was named, or the first that moves and whose
// swing is known, or the first that goes there and back, or the first that
// moves.
func shakenAxis(s shot.Shot, r rig.Rig, name string) (int, error) {
	rank := func(a rig.Axis) int {
		m, moves := s.Axis(a.Name)
		switch {
		case !moves:
			return 0
		case a.Shake.Spring.Known() && !m.Stays():
			return 3
		}
		if _, goes := m.Does.(move.Ended); goes {
			return 2
		}
		return 1
	}
	best, most := 0, 0
	for i, a := range r.Axes {
		switch {
		case a.Name == name && rank(a) == 0:
			return 0, fmt.Errorf("--axis %q does not move in this shot", name)
		case a.Name == name:
			return i, nil
		case rank(a) > most:
			best, most = i, rank(a)
		}
	}
	if name != "" {
		return 0, fmt.Errorf("--axis %q is not on the rig; it has %s", name, strings.Join(r.Names(), ", "))
	}
	if most == 0 {
		return 0, errors.New("no axis of the rig moves in this shot")
	}
	return best, nil
}

// pixels is the scale of the picture at the product, 0 where nothing says it or
// the axis turns.
func (o *Options) pixels(s shot.Shot, r rig.Rig, p *plan.Plan, a rig.Axis) (float64, error) {
	if o.Pixels != "" {
		q, err := unit.ParseAs(o.Pixels, unit.Number)
		switch {
		case err != nil:
			return 0, fmt.Errorf("--pixels-per-mm: %w", err)
		case q.Value.Sign() <= 0:
			return 0, fmt.Errorf("--pixels-per-mm %s must be above 0", q)
		case a.Kind == rig.Rotary:
			return 0, fmt.Errorf("--pixels-per-mm says nothing of %s, which turns", a.Name)
		}
		return q.Float(), nil
	}
	if a.Kind == rig.Rotary {
		return 0, nil
	}
	return lensview.PixelsPerMM(s, r, trajectory.New(p)), nil
}

// The range of durations that is drawn, in swings of the rig, and how many.
const (
	fewestSwings = 0.3
	maxSwings    = 4
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
	longest := max(maxSwings*s.Spring.Period(), 1.25*leg.Seconds.Float())
	for _, l := range d.Laws {
		if math.IsInf(l.Acc, 0) && l.Law.Name() != s.Move.Law().Name() {
			continue
		}
		out.Curves = append(out.Curves, residuals(s, leg, l.Law, longest))
	}
	name := s.Move.Law().Name()
	out.Shot = &shakeplot.Point{Name: "this shot, " + name, Seconds: leg.Seconds.Float(), Swing: leg.Travel * vibration.Residual(s.Spring, s.Move.Law(), leg.Seconds.Float())}
	out.Lines = swings(s, d)
	return out, nil
}

func residuals(s survey.Subject, leg survey.Leg, l law.Law, longest float64) shakeplot.Curve {
	c := shakeplot.Curve{Name: l.Name()}
	shortest := fewestSwings * s.Spring.Period()
	for i := range durations {
		sec := shortest + (longest-shortest)*float64(i)/(durations-1)
		c.Seconds = append(c.Seconds, sec)
		c.Swing = append(c.Swing, leg.Travel*vibration.Residual(s.Spring, l, sec))
	}
	return c
}

// swings are the move as it is and as each shaper would have it.
func swings(s survey.Subject, d shakereport.Data) []shakeplot.Line {
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
