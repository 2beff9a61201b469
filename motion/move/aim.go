package move

import (
	"cmp"
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// AimKeys are the keys of an aim.
type AimKeys struct {
	Follow source.Text  `toml:"follow" jsonschema:"example=rail" jsonschema_description:"aim: the axis that carries the lens."`
	As     source.Text  `toml:"as" jsonschema:"enum=pan,enum=tilt,enum=focus" jsonschema_description:"aim: what it does, pan to the left and tilt up being positive."`
	Point  source.Texts `toml:"point" jsonschema_description:"aim, arc: what stays centred or sharp: the place of the axis at which it is straight ahead, how far away it then is, and how far above the lens."`
	Focal  source.Text  `toml:"focal" jsonschema:"example=60 mm" jsonschema_description:"aim, focus: the focal length."`
	Marks  []RawMark    `toml:"marks" jsonschema:"minItems=2,maxItems=2" jsonschema_description:"aim, focus: two places of the axis, each found sharp at a distance from the lens."`
}

// RawMark is one mark of a focus axis.
type RawMark struct {
	Place    source.Place `toml:"-"`
	Distance source.Text  `toml:"distance" jsonschema:"required,example=400 mm" jsonschema_description:"From the lens to what was sharp."`
	Pos      source.Text  `toml:"pos" jsonschema:"required,example=12 deg" jsonschema_description:"Where the axis stood."`
}

// What an axis that aims does.
const (
	pan   = "pan"
	tilt  = "tilt"
	focus = "focus"
)

// Name is the name of the move.
func (AimKeys) Name() string { return "aim" }

// Told tells it from what it follows.
func (k AimKeys) Told() bool { return k.Follow.Set }

// Read reads what is followed, and the point.
func (k AimKeys) Read(r *Reader) Move {
	m := Aim{Follow: k.Follow.Text}
	if !k.Follow.Set {
		r.Missing(r.At, r.Path+"follow", `"rail"`)
	} else if m.Follow == r.Axis {
		r.Wrong(k.Follow, r.Path+"follow", "must be another axis", "the one that carries the lens")
	}
	if !k.As.Set {
		r.Missing(r.At, r.Path+"as", fmt.Sprintf("%q; there are %s, %s and %s", pan, pan, tilt, focus))
	} else {
		m.As, _ = r.Choice(k.As, r.Path+"as", pan, tilt, focus)
	}
	m.Point = r.point(k.Point)
	if m.As == focus {
		k.focus(r, &m)
		return m
	}
	for _, one := range []struct {
		key string
		set bool
		at  source.Place
	}{{"focal", k.Focal.Set, k.Focal.Place()}, {"marks", k.Marks != nil, r.At}} {
		if one.set && m.As != "" {
			r.Add(one.at, r.Path+one.key, "", "has no meaning for a "+m.As, `it is for as = "focus"`)
		}
	}
	return m
}

// focus reads the lens of an axis that focuses.
func (k AimKeys) focus(r *Reader, m *Aim) {
	if !k.Focal.Set {
		r.Missing(r.At, r.Path+"focal", `"60 mm"`)
	} else if q, ok := r.Quantity(k.Focal, r.Path+"focal", unit.Length); ok {
		m.Focal = q
		if q.Value.Sign() <= 0 {
			r.Wrong(k.Focal, r.Path+"focal", "must be above 0 mm", "")
		}
	}
	if len(k.Marks) != len(m.Marks) {
		r.Add(r.At, r.Path+"marks", fmt.Sprintf("(%d of them)", len(k.Marks)), "must be two",
			`such as marks = [{ distance = "300 mm", pos = "80 deg" }, { distance = "500 mm", pos = "35 deg" }]`)
		return
	}
	for i := range k.Marks {
		m.Marks[i] = k.mark(r, i, m.Focal)
	}
	if a, b := m.Marks[0], m.Marks[1]; a.Distance.Value.Equal(b.Distance.Value) {
		r.Wrong(k.Marks[1].Distance, r.Path+"marks[2].distance", "must be another than that of the first mark", "")
	} else if a.Pos.Dim == b.Pos.Dim && a.Pos.Value.Equal(b.Pos.Value) {
		r.Wrong(k.Marks[1].Pos, r.Path+"marks[2].pos", "must be another than that of the first mark", "")
	}
	k.nearest(r, *m)
}

func (k AimKeys) mark(r *Reader, i int, focal unit.Quantity) Mark {
	raw, path := k.Marks[i], fmt.Sprintf("%smarks[%d].", r.Path, i+1)
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
func (k AimKeys) nearest(r *Reader, m Aim) {
	s := m.Point.Sight()
	if d := s.Distance(s.Along)[0]; d > 0 && d <= m.Focal.Float() {
		r.Add(k.Point.Place(), r.Path+"point", "", fmt.Sprintf("comes as near as %s, and must stay beyond the focal length", unit.Format(d, unit.Length)), "")
	}
}

// Example is a pan.
func (AimKeys) Example() string {
	return "follow = \"rail\"\nas = \"pan\"\npoint = [\"80 mm\", \"400 mm\"]\n"
}

// Aim keeps a point centred or sharp while another axis carries the lens.
type Aim struct {
	Follow string // the axis that carries the lens
	As     string // what it does: pan, tilt or focus
	Point  Point
	Focal  unit.Quantity // mm; focus only
	Marks  [2]Mark       // focus only
}

// Mark is a place of a focus axis that was found sharp at a distance, in mm
// from the lens.
type Mark struct{ Distance, Pos unit.Quantity }

// What it can do.
var _ Follower = Aim{}

// Kind is the name of the move.
func (Aim) Kind() string { return AimKeys{}.Name() }

// Track fails: see Aimed.
func (m Aim) Track(exact.Rat) (*track.Track, error) {
	return nil, fmt.Errorf("it aims, and moves only as %s does", m.Follow)
}

// Carriage is the axis that carries the lens.
func (m Aim) Carriage() string { return m.Follow }

// Part is what it does.
func (m Aim) Part() string { return m.As }

// Aimed returns the track that follows a carriage.
func (m Aim) Aimed(carriage *track.Track) (*track.Track, error) {
	s := m.Point.Sight()
	if err := s.Check(); err != nil {
		return nil, err
	}
	switch m.As {
	case pan:
		return track.Aim(carriage, s.Pan)
	case tilt:
		return track.Aim(carriage, s.Tilt)
	}
	mark := func(k Mark) track.Mark { return track.Mark{Distance: k.Distance.Float(), Place: k.Pos.Float()} }
	ring := track.RingThrough(m.Focal.Float(), mark(m.Marks[0]), mark(m.Marks[1]))
	return track.Aim(carriage, func(x float64) track.Jet { return ring.Place(s, x) })
}

// Words tells what stays centred or sharp.
func (m Aim) Words(clock.Clock) string {
	what := "keeps the point centred"
	if m.As == focus {
		what = fmt.Sprintf("keeps the point sharp with a lens of %s", m.Focal)
	}
	return fmt.Sprintf("%s from the %s: straight ahead at %s, %s away, %s up", what, plain.Line(m.Follow), m.Point[0], m.Point[1], m.Point[2])
}

// Suits wants a rotary axis for what turns the lens, and marks that the axis has.
func (m Aim) Suits(rotary bool) *fault.Fault {
	switch {
	case m.As == focus:
		return suit(rotary, position{"marks[1].pos", m.Marks[0].Pos}, position{"marks[2].pos", m.Marks[1].Pos})
	case !rotary:
		return &fault.Fault{Quantity: "as", Value: `"` + m.As + `"`, Bound: "must be on a rotary axis, and this one is linear"}
	}
	return nil
}

// Spots is where the carriage has the point straight ahead, and of a focus also where it
// was found sharp.
func (m Aim) Spots() []Spot {
	out := []Spot{m.Point.ahead(m.Follow)}
	if m.As == focus {
		for i, k := range m.Marks {
			out = append(out, numbered("mark", i+1, "pos", "it is sharp at "+k.Distance.String(), k.Pos))
		}
	}
	return out
}

// Grips has none.
func (Aim) Grips(Stage) []Grip { return nil }

// Plain says what it does.
func (AimKeys) Plain() string { return "Keeps a point in view" }

// Suited wants an axis beside it that carries the lens.
func (AimKeys) Suited(p Past) bool { return p.Driven && len(p.Carriages) > 0 }

// Apart has the point: it is a place of the carriage.
func (AimKeys) Apart() []string { return []string{"point"} }

// Becomes follows what carries the lens, and looks at where the product stands.
func (AimKeys) Becomes(p Past) []source.Row {
	var out []source.Row
	for _, c := range p.Carriages {
		row := func(as string) source.Row {
			return source.Row{{Key: "follow", Value: c.Name}, {Key: "as", Value: as}, {Key: "point", Value: []string{
				unit.Format(math.Round(c.Start), unit.Length), unit.Format(math.Round(p.Away), unit.Length)}}}
		}
		if p.Rotary {
			out = append(out, row(pan), row(tilt))
		}
		out = append(out, append(row(focus), p.focuses()...))
	}
	return out
}

// Beside is what a choice of what it does takes besides, a focus alone.
func (AimKeys) Beside(key, value string, p Past) (row source.Row, gone []string, ok bool) {
	switch {
	case key != "as":
		return nil, nil, false
	case value == focus:
		return p.focuses(), nil, true
	}
	return nil, []string{"focal", "marks"}, true
}

const (
	// usualFocal, mm, is that of a lens of which nothing is said.
	usualFocal = 50.0
	// sharpest, mm, is more than is left of a focal length at the nearest mark.
	sharpest = 10.0
)

// focuses is a lens and two marks of it within the travel.
func (p Past) focuses() source.Row {
	focal := cmp.Or(p.Focal, usualFocal)
	low, high := p.Start, p.Start+firstWay
	if !p.Endless {
		low, high = p.Min+(p.Max-p.Min)/4, p.Max-(p.Max-p.Min)/4
	}
	mark := func(distance, pos float64) source.Row {
		return source.Row{{Key: "distance", Value: unit.Format(math.Round(distance), unit.Length)}, {Key: "pos", Value: Place(pos, DragGrain, p.Dim())}}
	}
	near := math.Max(p.Away/2, 2*focal+sharpest)
	return source.Row{{Key: "focal", Value: unit.Format(focal, unit.Length)}, {Key: "marks", Value: []source.Row{mark(near, high), mark(4*near, low)}}}
}
