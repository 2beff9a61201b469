package syncmark

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/root"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// builder works out a mark.
type builder struct {
	t      *trajectory.Trajectory
	shot   shot.Shot
	said   shot.SyncMark
	mark   *Mark
	faults fault.List
}

// settles is how long a controller has to rest before the motion begins, s: its buffers
// fill meanwhile. It is what programs dwell for, and a count-in may be longer.
var settles = exact.New(1, 2)

// New works out the mark of a planned shot, nil where it has none. The error is a
// fault.List.
func New(p *plan.Plan, t *trajectory.Trajectory, s shot.Shot) (*Mark, error) {
	if s.SyncMark == nil {
		return nil, nil
	}
	said := *s.SyncMark
	b := builder{t: t, shot: s, said: said, mark: &Mark{Length: said.Length, After: said.After, plan: p}}
	b.means()
	b.look()
	b.times()
	if err := b.faults.Err(); err != nil {
		return nil, err
	}
	return b.mark, nil
}

func (b *builder) fault(key, bound, fit string) {
	b.faults = append(b.faults, b.said.Fault(b.shot.File, key, bound, fit))
}

// means finds what makes the mark.
func (b *builder) means() {
	switch b.said.With {
	case shot.MarkTwitch:
		b.mark.By = ByTwitch
		b.twitch()
	case shot.MarkClick:
		b.mark.By = ByClick
	case shot.MarkHand:
		b.mark.By = ByHand
	default:
		b.output()
	}
}

// Beside are the faults of a mark that show where nothing is planned: that its output is
// not the rig's. They hide behind no others.
func Beside(s shot.Shot, r rig.Rig) fault.List {
	m := s.SyncMark
	if m == nil || m.With == "" || len(r.Axes) == 0 || slices.Contains([]string{shot.MarkTwitch, shot.MarkClick, shot.MarkHand}, m.With) {
		return nil
	}
	if _, ok := r.Output(m.With); ok {
		return nil
	}
	fit := "the rig has no output; [output.lamp] in its file would be one"
	if names := r.OutputNames(); len(names) > 0 {
		fit = "it has " + strings.Join(names, ", ")
	}
	return fault.List{m.Fault(s.File, "with", "is not an output of the rig", fit+`; "twitch" needs none`)}
}

// output finds the output of the rig.
func (b *builder) output() {
	o, ok := b.t.Rig().Output(b.said.With)
	if !ok {
		b.faults = append(b.faults, Beside(b.shot, b.t.Rig())...)
		return
	}
	m := b.mark
	m.Output, m.Late = o, micro(o.Late)
	if o.Serves == rig.ServesShutter && b.shot.Scene != nil {
		m.Late = m.Late.Add(micro(b.shot.Scene.Camera.ShutterLag.Or(0)))
	}
	pulse := micro(o.Pulse)
	switch {
	case !m.Length.Less(pulse):
	case b.said.LengthSet:
		b.fault("length", "is shorter than the output needs, "+pulse.Decimal(3)+" s", "")
	default:
		m.Length = pulse
	}
	if o.Serves == rig.ServesLamp {
		b.seenAtAll()
	}
}

// seenAtAll refuses a flash that may fall between two exposures.
func (b *builder) seenAtAll() {
	frame := b.t.FrameSeconds(1)
	if least := frame.Add(frame); b.mark.Length.Less(least) {
		b.fault("length", "is shorter than two captured frames, "+least.Decimal(4)+" s, and may be seen in none", "")
	}
}

// micro is a time in whole microseconds, as the words of a program have it.
func micro(sec float64) exact.Rat {
	const million = 1_000_000
	return exact.New(int64(math.Round(sec*million)), million)
}

// times makes lengths whole grains where the board dwells in those, and what is left
// before the run-up.
func (b *builder) times() {
	m, grain := b.mark, micro(b.t.Rig().Controller.DwellGrain)
	m.Length = grained(m.Length, grain)
	busy := m.Length.Add(m.Goes).Add(m.Goes)
	m.Rest = grained(b.said.Before.Sub(busy), grain)
	if m.Rest.Less(settles) {
		b.fault("before", "leaves too little rest before the run-up", "at least "+busy.Add(settles).Decimal(3)+" s would do")
	}
}

// grained is a time as whole grains, no shorter.
func grained(sec, grain exact.Rat) exact.Rat {
	if grain.Sign() <= 0 {
		return sec
	}
	return sec.Quo(grain).Ceil().Mul(grain)
}

// Twitches, mm or degrees: what is used where the picture does not tell, and what it has
// to show where it does, px: several times what is seen at all.
const (
	usualTwitch = 1.0
	wellSeen    = 5.0
	// leastSteps are those of a twitch: fewer say nothing about where it began.
	leastSteps = 4
	// gentleShare is the share of its greatest speed that an axis twitches at, as it goes
	// to the start of a take.
	gentleShare = 0.1
)

// twitch finds the axis, and how far it goes.
func (b *builder) twitch() {
	if !b.t.Rig().Controller.Kind.Driven() {
		b.fault("with", "is of no use on a rig that is set by hand: nothing tells it to twitch", `"click" or "hand" would do`)
		return
	}
	m, names := b.mark, []string{}
	m.Axis = -1
	for i := range b.t.AxisCount() {
		names = append(names, b.t.Axis(i).Name)
		if m.Axis < 0 && (b.said.Axis == "" || b.said.Axis == b.t.Axis(i).Name) {
			m.Axis = i
		}
	}
	if m.Axis < 0 {
		b.fault("axis", "is not an axis of the shot", "it has "+strings.Join(names, ", "))
		return
	}
	a := b.t.Axis(m.Axis)
	if d := b.said.Distance; d.Sign() != 0 {
		if want := dimension(a); b.said.Dim != want {
			b.fault("distance", "is "+b.said.Dim.String()+", and "+a.Name+" goes in "+want.Unit(), "such as \"1 "+want.Unit()+"\"")
			return
		}
		m.Distance = onStep(d.Float(), a)
	} else {
		m.Distance = b.usual(a)
	}
	b.within(a)
	m.Goes = micro(b.gentle(a, m.Distance).T + b.t.Rig().Controller.IdleDelay)
}

func dimension(a rig.Axis) unit.Dimension {
	if a.Kind == rig.Rotary {
		return unit.Angle
	}
	return unit.Length
}

// onStep is a distance as whole steps, at least a few.
func onStep(d float64, a rig.Axis) float64 {
	per := a.StepsPerUnit.Float()
	return math.Copysign(max(math.Round(math.Abs(d)*per), leastSteps)/per, d)
}

// gentle is how an axis goes a distance as it goes to the start of a take: a board that
// plans by itself knows no jerk.
func (b *builder) gentle(a rig.Axis, d float64) law.Profile {
	acc, jerk := a.MaxAcc, math.Inf(1)
	if set := a.Settings.Acceleration; set > 0 {
		acc = min(acc, set)
	}
	if a.MaxJerk > 0 && b.t.Rig().Controller.Kind.PlaysSteps() {
		jerk = a.MaxJerk
	}
	return law.Fastest(math.Abs(d), a.MaxSpeed*gentleShare, acc, jerk)
}

// shows is when a gentle move has gone so far that it is seen.
func shows(p law.Profile, d float64) float64 {
	const halvings = 40 // of some tenths of a second: far below what words hold
	_, sec := root.Bisect(0, p.T, halvings, 0, func(sec float64) bool {
		gone, _, _, _ := p.At(sec)
		return gone < d
	})
	return sec
}

// usual is a twitch that shows, the way on which there is room, which of two is the one
// that the take goes first.
func (b *builder) usual(a rig.Axis) float64 {
	d := usualTwitch
	if seen, ok := b.beginning(d); ok && seen.Twitch > 0 {
		d = wellSeen / seen.Twitch
	}
	if a.Backlash != nil {
		d += *a.Backlash
	}
	d = math.Abs(onStep(min(d, 20), a))
	if first := b.first(); first < 0 && a.Contains(b.start()-d) || !a.Contains(b.start()+d) {
		return -d
	}
	return d
}

// start is where the axis stands before the run-up.
func (b *builder) start() float64 {
	up, _ := b.t.RampTimes()
	return b.t.TakeState(b.mark.Axis, 1, -up.Float()).Pos
}

// first is which way the axis goes first in the take.
func (b *builder) first() float64 {
	up, _ := b.t.RampTimes()
	begin, frames := -up.Float(), b.t.Captured()
	for k := int64(1); k <= frames; k++ {
		if d := b.t.TakeState(b.mark.Axis, 1, begin+b.t.FrameSeconds(k).Float()).Pos - b.start(); d != 0 {
			return d
		}
	}
	return 1
}

// within holds a twitch to the travel of its axis, and to its play.
func (b *builder) within(a rig.Axis) {
	d, to := b.mark.Distance, b.start()+b.mark.Distance
	if !a.Contains(to) {
		fit := "the other way would do"
		if !a.Contains(b.start() - d) {
			fit = "a shorter one, or another axis"
		}
		b.fault("distance", fmt.Sprintf("takes %s to %.3f %s, beyond its travel of %g to %g", a.Name, to, a.Unit(), a.Min, a.Max), fit)
	}
	if a.Backlash != nil && math.Abs(d) <= *a.Backlash {
		b.fault("distance", fmt.Sprintf("is no more than the play of %s, %g %s: nothing may move", a.Name, *a.Backlash, a.Unit()), "")
	}
}

// beginning is what the picture shows of a twitch of so much.
func (b *builder) beginning(by float64) (picture.Beginning, bool) {
	s, ok := lensview.Scene(b.shot, b.t.Rig())
	if !ok {
		return picture.Beginning{}, false
	}
	axis := -1
	if b.mark.By == ByTwitch {
		axis = b.mark.Axis
	}
	out, err := picture.BeginningOf(lensview.Motion(b.t), s, axis, by)
	return out, err == nil // what is wrong with a scene is told by who examines it
}

// look takes in what the picture shows.
func (b *builder) look() {
	m := b.mark
	if len(b.faults) > 0 {
		return
	}
	if m.Shows, m.Picture = b.beginning(m.Distance); !m.Picture {
		return
	}
	if open := b.shot.Scene.Camera.Open(b.t.FrameSeconds(1).Float()); open.Given {
		m.Share = open
		m.Share.Value = open.Value / b.t.FrameSeconds(1).Float()
	}
	if m.By != ByTwitch {
		return
	}
	a := b.t.Axis(m.Axis)
	if m.Shows.Twitch < picture.ShowsFrom {
		b.fault("distance", fmt.Sprintf("of %g %s moves the near face by %.2f px, which nobody sees", m.Distance, a.Unit(), m.Shows.Twitch), "a longer one, or another axis")
		return
	}
	if gap := m.Shows.Gap; gap <= 0 {
		b.fault("distance", fmt.Sprintf("brings the lens %.1f mm into what the product turns through", -gap), "the other way, or another axis")
	}
	if px := m.Shows.Twitch; !math.IsNaN(px) { // seen once it has gone a pixel
		m.Late = micro(shows(b.gentle(a, m.Distance), math.Abs(m.Distance)/px*picture.ShowsFrom))
	}
}

// ByEye is after how many captured frames from setting out the near face has moved by a
// pixel, 0 where the shot does not tell.
func ByEye(t *trajectory.Trajectory, s shot.Shot) int64 {
	b := builder{t: t, shot: s, mark: &Mark{}}
	out, _ := b.beginning(0)
	return out.Moved
}
