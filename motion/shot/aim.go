package shot

import (
	"fmt"

	"seamrail/motion/exact"
	"seamrail/motion/fault"
	"seamrail/motion/source"
	"seamrail/motion/track"
	"seamrail/motion/unit"
)

// What an axis that aims does.
const (
	Pan   = "pan"
	Tilt  = "tilt"
	Focus = "focus"
)

func (r mover) aim(m *AxisMove) {
	m.Follow = r.raw.Follow.Text
	if !r.raw.Follow.Set {
		r.Missing(r.raw.Place, r.path+"follow", `"rail"`)
	} else if m.Follow == m.Name {
		r.Wrong(r.raw.Follow, r.path+"follow", "must be another axis", "the one that carries the lens")
	}
	if !r.raw.As.Set {
		r.Missing(r.raw.Place, r.path+"as", fmt.Sprintf("%q; there are %s, %s and %s", Pan, Pan, Tilt, Focus))
	} else {
		m.As, _ = r.Choice(r.raw.As, r.path+"as", Pan, Tilt, Focus)
	}
	r.point(m)
	if m.As == Focus {
		r.focus(m)
		return
	}
	for _, k := range []struct {
		key string
		set bool
		at  source.Place
	}{{"focal", r.raw.Focal.Set, r.raw.Focal.Place()}, {"marks", r.raw.Marks != nil, r.raw.Place}} {
		if k.set && m.As != "" {
			r.Add(k.at, r.path+k.key, "", "has no meaning for a "+m.As, `it is for as = "focus"`)
		}
	}
}

// arc is a there-and-back whose ends are headings of a point.
func (r mover) arc(m *AxisMove) {
	r.point(m)
	r.thereAndBack(m)
	for _, end := range []struct {
		key  string
		text source.Text
		q    unit.Quantity
	}{{"from", r.raw.From, m.From}, {"to", r.raw.To, m.To}} {
		if end.text.Set && end.q.Dim != unit.Angle {
			r.Wrong(end.text, r.path+end.key, "must be an angle, the heading of the point from the rail", `such as "-20 deg"`)
		} else if exact.Int(track.Steepest).Less(end.q.Value.Abs()) {
			r.Wrong(end.text, r.path+end.key, fmt.Sprintf("must be from -%d deg to %d deg: a straight rail goes round no further", track.Steepest, track.Steepest), "")
		}
	}
}

// point reads where the thing to look at is.
func (r mover) point(m *AxisMove) {
	const example = `["160 mm", "400 mm"], or ["160 mm", "400 mm", "-30 mm"]`
	for i := range m.Point {
		m.Point[i].Dim = unit.Length
	}
	p := r.raw.Point
	switch {
	case !p.Set:
		r.Missing(r.raw.Place, r.path+"point", example)
		return
	case p.Single || len(p.Items) < 2 || len(p.Items) > 3:
		r.Add(p.Place(), r.path+"point", "", "must have two lengths or three: along the rail, away from it, up from the lens", "such as "+example)
		return
	case len(p.Items) == 2:
		r.Default(r.path+"point[3]", "0 mm", "as high as the lens")
	}
	for i, t := range p.Items {
		if q, ok := r.Quantity(t, fmt.Sprintf("%spoint[%d]", r.path, i+1), unit.Length); ok {
			m.Point[i] = q
		}
	}
	if m.Point[1].Value.Sign() <= 0 {
		r.Wrong(p.Items[1], r.path+"point[2]", "must be above 0 mm", "the lens is to look away from the rail")
	}
}

// focus reads the lens of an axis that focuses.
func (r mover) focus(m *AxisMove) {
	if !r.raw.Focal.Set {
		r.Missing(r.raw.Place, r.path+"focal", `"60 mm"`)
	} else if q, ok := r.Quantity(r.raw.Focal, r.path+"focal", unit.Length); ok {
		m.Focal = q
		if q.Value.Sign() <= 0 {
			r.Wrong(r.raw.Focal, r.path+"focal", "must be above 0 mm", "")
		}
	}
	if len(r.raw.Marks) != len(m.Marks) {
		r.Add(r.raw.Place, r.path+"marks", fmt.Sprintf("(%d of them)", len(r.raw.Marks)), "must be two",
			`such as marks = [{ distance = "300 mm", pos = "80 deg" }, { distance = "500 mm", pos = "35 deg" }]`)
		return
	}
	for i := range r.raw.Marks {
		m.Marks[i] = r.mark(i, m.Focal)
	}
	if a, b := m.Marks[0], m.Marks[1]; a.Distance.Value.Equal(b.Distance.Value) {
		r.Wrong(r.raw.Marks[1].Distance, r.path+"marks[2].distance", "must be another than that of the first mark", "")
	} else if a.Pos.Dim == b.Pos.Dim && a.Pos.Value.Equal(b.Pos.Value) {
		r.Wrong(r.raw.Marks[1].Pos, r.path+"marks[2].pos", "must be another than that of the first mark", "")
	}
	m.nearest(r)
}

func (r mover) mark(i int, focal unit.Quantity) Mark {
	raw, path := r.raw.Marks[i], fmt.Sprintf("%smarks[%d].", r.path, i+1)
	var m Mark
	if !raw.Distance.Set {
		r.Missing(raw.Place, path+"distance", `"400 mm"`)
	} else if q, ok := r.Quantity(raw.Distance, path+"distance", unit.Length); ok {
		m.Distance = q
		if !focal.Value.Less(q.Value) {
			r.Wrong(raw.Distance, path+"distance", "must be more than the focal length", "a lens is sharp at no nearer distance")
		}
	}
	if !raw.Pos.Set {
		r.Missing(raw.Place, path+"pos", `"12 deg"`)
	} else {
		m.Pos, _ = r.Quantity(raw.Pos, path+"pos", unit.Length, unit.Angle)
	}
	return m
}

// nearest wants the point beyond the focal length at its nearest.
func (m AxisMove) nearest(r mover) {
	s := m.Sight()
	if d := s.Distance(s.Along)[0]; d > 0 && d <= m.Focal.Float() {
		r.Add(r.raw.Point.Place(), r.path+"point", "", fmt.Sprintf("comes as near as %s, and must stay beyond the focal length", unit.Format(d, unit.Length)), "")
	}
}

// Sight returns the point of an aim or an arc, in mm.
func (m AxisMove) Sight() track.Sight {
	return track.Sight{Along: m.Point[0].Float(), Away: m.Point[1].Float(), Up: m.Point[2].Float()}
}

// Aimed returns the track of an aim that follows a carriage.
func (m AxisMove) Aimed(carriage *track.Track) (*track.Track, error) {
	s := m.Sight()
	if err := s.Check(); err != nil {
		return nil, err
	}
	switch m.As {
	case Pan:
		return track.Aim(carriage, s.Pan)
	case Tilt:
		return track.Aim(carriage, s.Tilt)
	}
	mark := func(k Mark) track.Mark { return track.Mark{Distance: k.Distance.Float(), Place: k.Pos.Float()} }
	ring := track.RingThrough(m.Focal.Float(), mark(m.Marks[0]), mark(m.Marks[1]))
	return track.Aim(carriage, func(x float64) track.Jet { return ring.Place(s, x) })
}

func (m AxisMove) markPositions() []position {
	if m.As != Focus {
		return nil
	}
	return []position{{"marks[1].pos", m.Marks[0].Pos}, {"marks[2].pos", m.Marks[1].Pos}}
}

// aimKind returns what is wrong with an aim or an arc for an axis that is
// rotary or linear, or nil.
func (m AxisMove) aimKind(rotary bool) *fault.Fault {
	f := fault.Fault{Line: m.Line, Column: m.Column}
	switch {
	case m.Move == Aim && m.As != Focus && !rotary:
		f.Quantity, f.Value, f.Bound = "as", `"`+m.As+`"`, "must be on a rotary axis, and this one is linear"
	case m.Move == Arc && rotary:
		f.Quantity, f.Value, f.Bound = "move", `"arc"`, "must be on a linear axis, the rail, and this one is rotary"
		f.Fit = `a pan beside it with move = "aim" keeps the point centred`
	default:
		return nil
	}
	return &f
}
