package shot

import (
	"strconv"

	"seamrail/motion/scene"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/picture"
	"seamrail/motion/spec/rig"
	"seamrail/motion/track"
)

// seen is what the camera and the scene say of a product on a display stand; 0
// is what they do not say.
type seen struct {
	symmetry      int64
	radius, scale exact.Rat // mm, px/mm
	unsure        bool      // faults elsewhere keep it from being known
}

// seenDigits is how many digits of a length or a scale are kept: lenses and
// products are described to three or four.
const seenDigits = 6

func (s Shot) seen(unsure bool) seen {
	if s.Scene == nil || unsure {
		return seen{unsure: s.Scene != nil}
	}
	var out seen
	p := s.Scene.Product
	if p.Alike > 0 || p.Shape != scene.NoShape {
		out.symmetry = int64(p.Symmetry())
	}
	if o, ok := p.Outline(); ok {
		out.radius = tidy(o.Reach())
	}
	if scale, ok := picture.Scale(still{s}, *s.Scene); ok {
		out.scale = tidy(scale)
	}
	return out
}

// tidy is a number to seenDigits digits; 0 for what no file could hold.
func tidy(v float64) exact.Rat {
	r, err := exact.Parse(strconv.FormatFloat(rounded(v), 'f', -1, 64))
	if err != nil {
		return exact.Rat{}
	}
	return r
}

func rounded(v float64) float64 {
	out, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', seenDigits, 64), 64)
	return out
}

// as takes a value from the camera and the scene where they know it. A shot that
// states another is told so.
func (b standReader) as(stated exact.Rat, t source.Text, key string, dim unit.Dimension, seen exact.Rat, why string) exact.Rat {
	// Rulers and lens marks agree to a part in fifty.
	const apart = 0.02
	switch {
	case b.seen.unsure && !t.Set:
		return exact.Int(1) // so that nothing else complains of it
	case seen.Sign() <= 0:
		return stated
	case !t.Set:
		b.Default(b.path+key, unit.Format(seen.Float(), dim), why)
	case stated.Sub(seen).Abs().Float() > apart*seen.Float():
		b.Wrong(t, b.path+key, "must be "+unit.Format(seen.Float(), dim)+", "+why, "leave it out")
	}
	return seen
}

// still is the shot as it stands in frame 0, for what does not depend on a rig.
type still struct{ shot Shot }

func (m still) Clock() clock.Clock                              { return m.shot.Clock }
func (m still) Captured() int64                                 { return m.shot.Loop.Captured }
func (m still) FrameSeconds(k int64) exact.Rat                  { return m.shot.Clock.FrameTime(k) }
func (m still) Period() exact.Rat                               { return m.shot.Loop.Real() }
func (m still) AxisCount() int                                  { return len(m.shot.Axes) }
func (m still) RampFrames() (up, out int64)                     { return 0, 0 }
func (m still) Before(i int, _ float64) track.State             { return m.State(i, 0) }
func (m still) TakeState(i int, _ int64, _ float64) track.State { return m.State(i, 0) }

// Axis is all of an axis that a picture asks of.
func (m still) Axis(i int) rig.Axis {
	a := m.shot.Axes[i]
	out := rig.Axis{Name: a.Name, StepsPerUnit: exact.Int(1)}
	if a.CheckKind(true) == nil {
		out.Kind = rig.Rotary
	}
	return out
}

// State is where an axis stands in frame 0, wherever it is asked for. An axis
// whose move cannot be is at 0: the plan will say why.
func (m still) State(i int, _ float64) track.State {
	t, err := m.shot.Axes[i].Track(m.shot.Loop.Real())
	if err != nil {
		return track.State{}
	}
	return track.State{Pos: t.At(0).Pos}
}
