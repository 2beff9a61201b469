package sequence

import (
	"math"
	"slices"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
)

// Cut is where one piece ends and another begins.
type Cut struct {
	From, To int   // pieces of the clip
	Frame    int64 // the clip's frame that the second begins with; 0 where the clip comes round
	Out, In  Side  // the last frame of the one, the first of the other
	Momentum Momentum
	Angle    float64   // degrees from the motion before to that after; 0 where one is still
	Pace     float64   // speed after over speed before; 0 where one is still
	Seen     bool      // the motion is that of the picture; else that of the axes
	Lacks    []string  // what it would take to see it
	Axes     []AxisCut // the motion of the axes, where it is not Seen
	// Otherwise is set where the rig stands otherwise after the cut, so that what
	// its axes do says nothing of the picture.
	Otherwise bool
	// Placed is set where the product is in both pictures. Jump is then how far it
	// jumps, in picture widths, and Grows how much larger it comes back.
	Placed      bool
	Jump, Grows float64
}

// Side is one frame beside a cut.
type Side struct {
	Frame    int64         // of the shot's loop, on the timeline
	Captured int64         // of the shot's loop
	Flow     *picture.Flow // nil where it is not known
	Axes     []AxisSpeed
}

// AxisSpeed is how fast an axis goes.
type AxisSpeed struct {
	Axis  string
	Unit  string  // mm or deg
	Speed float64 // units per on-screen second
}

// AxisCut is what one axis does across a cut.
type AxisCut struct {
	Axis, Unit string
	Out, In    float64 // units per on-screen second
	Momentum   Momentum
}

// cut looks at every cut. The error is what a scene is wrong with.
func (c *Clip) cut() error {
	n := len(c.Pieces)
	out, in := make([]Side, n), make([]Side, n)
	lacks := make([][]string, n)
	for i, p := range c.Pieces {
		sides, missing, err := p.sides(p.Last(), p.From)
		if err != nil {
			return err
		}
		out[i], in[i], lacks[i] = sides[0], sides[1], missing
	}
	for i := range c.Pieces {
		j := (i + 1) % n
		cut := Cut{From: i, To: j, Out: out[i], In: in[j]}
		if j > 0 {
			cut.Frame = c.Pieces[j].Start
		}
		cut.Lacks = slices.Compact(slices.Sorted(slices.Values(slices.Concat(lacks[i], lacks[j]))))
		cut.Otherwise = c.Films[c.Pieces[i].Film].Setup.Rig != c.Films[c.Pieces[j].Film].Setup.Rig
		cut.judge()
		if c.goesOn(c.Pieces[i], c.Pieces[j]) {
			cut.Momentum = Continuous
		}
		c.Cuts = append(c.Cuts, cut)
	}
	return nil
}

// goesOn tells whether a piece begins with the frame after that which another
// ends with, so that nothing is cut. The end of a loop that is itself cut back
// to its beginning does not count.
func (c *Clip) goesOn(a, b Piece) bool {
	if a.Film != b.Film {
		return false
	}
	next := a.Last() + 1
	wraps := next%a.loop() == 0
	return next%a.loop() == b.From && !(wraps && a.cutBack())
}

// cutBack tells whether the shot's own loop ends in a cut.
func (p Piece) cutBack() bool {
	if p.Trajectory.RoundFrames() > p.Trajectory.Captured() {
		return true
	}
	for i := range p.Trajectory.AxisCount() {
		if p.Trajectory.Cut(i).Jump != 0 {
			return true
		}
	}
	return false
}

// sides looks at some frames of a shot.
func (p Piece) sides(frames ...int64) ([]Side, []string, error) {
	var out []Side
	seconds := make([]float64, len(frames))
	for i, f := range frames {
		seconds[i] = p.seconds(f)
		out = append(out, Side{Frame: f % p.loop(), Captured: p.captured(f), Axes: p.axes(seconds[i])})
	}
	flows, missing, err := p.flows(seconds)
	for i := range flows {
		out[i].Flow = &flows[i]
	}
	return out, missing, err
}

// axes is how fast every axis and every stand goes.
func (p Piece) axes(sec float64) []AxisSpeed {
	var out []AxisSpeed
	m := lensview.Motion(p.Trajectory)
	for i := range m.AxisCount() {
		a := m.Axis(i)
		out = append(out, AxisSpeed{a.Name, a.Unit(), m.State(i, sec).Vel * p.Shot.Clock.Retime.Float()})
	}
	return out
}

// flows is how the picture moves, or what it would take to tell.
func (p Piece) flows(seconds []float64) ([]picture.Flow, []string, error) {
	scene, ok := lensview.Scene(p.Shot, p.Trajectory.Rig())
	if !ok {
		return nil, []string{"camera and scene"}, nil
	}
	f, err := picture.FlowsAt(lensview.Motion(p.Trajectory), scene, seconds)
	if err != nil {
		return nil, nil, lensview.Located(err, p.Shot)
	}
	missing := append(f.Missing, f.LeftOut...)
	if len(missing) > 0 {
		return nil, missing, nil
	}
	if slices.ContainsFunc(f.At, func(x picture.Flow) bool { return math.IsNaN(x.Speed() + x.X + x.Y + x.Size) }) {
		return nil, []string{"a focus within reach of the lens"}, nil
	}
	return f.At, nil, nil
}

// judge tells what the motion does, by the picture where both sides have one.
func (c *Cut) judge() {
	a, b := c.Out.Flow, c.In.Flow
	if a != nil && b != nil {
		c.Seen = true
		c.Momentum, c.Angle, c.Pace = judged(vector(*a), vector(*b), stillPicture)
		if c.Placed = a.Followed != picture.Middle && b.Followed != picture.Middle; c.Placed {
			c.Jump, c.Grows = math.Hypot(b.X-a.X, b.Y-a.Y), b.Size/a.Size
		}
		return
	}
	for _, x := range c.Out.Axes {
		i := slices.IndexFunc(c.In.Axes, func(y AxisSpeed) bool { return y.Axis == x.Axis && y.Unit == x.Unit })
		if i < 0 {
			continue
		}
		one := AxisCut{Axis: x.Axis, Unit: x.Unit, Out: x.Speed, In: c.In.Axes[i].Speed}
		one.Momentum, _, _ = judged([]float64{one.Out}, []float64{one.In}, stillAxis)
		c.Axes = append(c.Axes, one)
		if !c.Otherwise {
			c.Momentum = max(c.Momentum, one.Momentum)
		}
	}
}

func vector(f picture.Flow) []float64 { return []float64{f.Right, f.Up, f.Toward} }
