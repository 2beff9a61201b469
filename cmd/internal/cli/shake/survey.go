package shake

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/export/report/shakereport"
	"seamrail/motion/calm"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/sight"
	"seamrail/motion/trajectory"
	"seamrail/motion/unit"
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
			d.Survey = calm.Look(calm.Of(p, &p.Axes[k]), m)
		}
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
	return sight.PixelsPerMM(s, r, trajectory.New(p)), nil
}
