// Package lawfit offers other laws for a move there and back over the same travel
// in the same time: the one of least acceleration, of least jerk, of least smear
// and those of least after-shake, each with how near it is to what no law can go
// below, and each planned and checked against the rig.
package lawfit

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

// Subject is a move to soften.
type Subject struct {
	Shot shot.Shot
	Rig  rig.Rig
	Axis rig.Axis
	Move move.Shuttle
	// Spring is how what the axis carries swings; the zero value is unknown.
	Spring spring.Spring
	// Share is how much of the rig's limits may be used, in (0, 1].
	Share float64
}

// Way is one way of the move.
type Way struct {
	Travel  float64 // units, above 0
	Seconds float64 // real
}

// Key is a line of the shot file.
type Key struct{ Key, Text string }

// Aims, as they are asked for.
const (
	Now          = "now"
	Acceleration = "acceleration"
	Jerk         = "jerk"
	Smear        = "smear"
	Shake        = "shake"
	WideShake    = "shake-wide"
)

// Aims lists what may be made least.
func Aims() []string { return []string{Acceleration, Jerk, Smear, Shake, WideShake} }

// Offer is a law for the move.
type Offer struct {
	Aim  string
	Name string // of the law; "" where none was found
	Keys []Key  // what the shot would say; none for the law it has
	// Speed, Acc and Jerk are the greatest of both ways, units a second.
	Speed, Acc, Jerk float64
	// Bound is what no law within the limits goes below, in what the aim makes
	// least, that begins and ends a way without acceleration, or as the Subject
	// Carries does, with; of the after-shake ones, that is the jerk of all that leave none.
	Bound float64
	// Excess is how far above it the law is, as a share.
	Excess float64
	// Left is the swing that a way leaves, in units, the worse of both; NaN where
	// the spring is not known.
	Left   float64
	Within bool // the rig's limits
	// Carried tells that it carries acceleration through the ends.
	Carried bool
	Why     string // not, or why there is no law
}

// New returns the subject, or an error where the move cannot be softened.
func New(s shot.Shot, r rig.Rig, axis string) (Subject, error) {
	m, ok := s.Axis(axis)
	a, onRig := r.Axis(axis)
	shuttle, goes := m.Does.(move.Shuttle)
	if !ok || !onRig || !goes {
		return Subject{}, fmt.Errorf("axis %s does not go there and back, and only such a move can be softened", axis)
	}
	sub := Subject{Shot: s, Rig: r, Axis: a, Move: shuttle, Spring: a.Shake.Spring, Share: 1}
	if sub.moving().Sign() <= 0 {
		return Subject{}, errors.New("the dwells leave no time to move")
	}
	return sub, nil
}

func (s Subject) moving() exact.Rat {
	return s.Move.Going().Moving(s.Shot.Loop.Real())
}

// Ways returns the way out and the way back.
func (s Subject) Ways() (out, back Way) {
	d := s.Move.Going().Travel()
	t := s.Move.Going().WayOut(s.Shot.Loop.Real())
	return Way{d, t.Float()}, Way{d, s.moving().Sub(t).Float()}
}

// Carries tells whether acceleration may carry on through both ends: where it turns
// round without a dwell, and takes as long out as back, on an axis whose jerk is
// limited; else the triangle of speed is best as it is.
func (s Subject) Carries() bool {
	out, back := s.Ways()
	w := s.Move.Going()
	return w.DwellFar.Sign() == 0 && w.DwellNear.Sign() == 0 && out.Seconds == back.Seconds && s.Axis.MaxJerk > 0
}

// Turns tells whether it turns round somewhere without a dwell.
func (s Subject) Turns() bool {
	w := s.Move.Going()
	return w.DwellFar.Sign() == 0 || w.DwellNear.Sign() == 0
}

// quicker is the way whose peaks are greater.
func (s Subject) quicker() Way {
	out, back := s.Ways()
	if back.Seconds < out.Seconds {
		return back
	}
	return out
}

// Offers returns the law the move has and one for each aim.
func (s Subject) Offers() []Offer {
	out := []Offer{s.Own()}
	for _, aim := range Aims() {
		out = append(out, s.Offer(aim))
	}
	return out
}

// Own returns the law that the move has.
func (s Subject) Own() Offer {
	out, back := s.Move.Laws()
	o := Offer{Aim: Now, Name: out.Name()}
	s.tell(&o, out, back)
	return o
}

// Offer returns the law for an aim of Aims. It panics on any other.
func (s Subject) Offer(aim string) Offer {
	switch aim {
	case Acceleration:
		return s.held(aim, optimal.MinAcceleration)
	case Jerk:
		return s.held(aim, optimal.MinJerk)
	case Smear:
		return s.held(aim, optimal.MinSpeed)
	case Shake, WideShake:
		return s.quiet(aim)
	}
	panic("lawfit: no aim " + aim)
}

// limits are a share of the rig's limits.
func (s Subject) limits(least float64) optimal.Limits {
	l := optimal.Limits{
		Speed:        least * s.Axis.SpeedCap(s.Rig.Controller.StepRate),
		Acceleration: least * s.Axis.MaxAcc,
		Jerk:         math.Inf(1),
	}
	if s.Axis.MaxJerk > 0 {
		l.Jerk = least * s.Axis.MaxJerk
	}
	return l
}

const (
	// keyDigits is how many decimals of a share a shot gets.
	keyDigits = 7
	// keyRoom is what a limit is lowered by so that such rounding does not break
	// it: a ramp of a hundredth of the move, in it twice.
	keyRoom = 2e-5
)

// held offers the law within limits.
func (s Subject) held(aim string, which optimal.Aim) Offer {
	o := Offer{Aim: aim, Left: math.NaN()}
	w := s.quicker()
	within := optimal.Within
	if s.Carries() {
		within = optimal.WithinCarried
	}
	proof, err := within(which, w.Travel, w.Seconds, s.limits(s.Share))
	if err != nil {
		o.Why = err.Error() + " for a way"
		return o
	}
	h, err := within(which, w.Travel, w.Seconds, s.limits(s.Share*(1-keyRoom)))
	if err != nil {
		h = proof // only just: the rounding will be found by the check
	}
	ramp, jerkShare := decimals(h.Ramp), decimals(h.JerkShare)
	keys := []Key{{law.RampKey, ramp}, {law.JerkShareKey, jerkShare}}
	var l law.Law
	switch {
	case s.Carries():
		o.Carried = true
		l, err = optimal.NewCarried(parsed(ramp), parsed(jerkShare))
	case h.JerkShare == 0:
		keys = keys[:1]
		l, err = law.Trapezoidal(parsed(ramp))
	default:
		l, err = law.SevenSegment(parsed(ramp), parsed(jerkShare))
	}
	if err != nil {
		o.Why = "the ramps would be too short to write down: " + err.Error()
		return o
	}
	o.Name, o.Keys = l.Name(), append([]Key{{"law", l.Name()}}, keys...)
	s.tell(&o, l, l)
	o.Bound = proof.Bound
	o.Excess = [...]float64{o.Speed, o.Acc, o.Jerk}[which]/proof.Bound - 1
	return o
}

// quiet offers the softest law that leaves no swing.
func (s Subject) quiet(aim string) Offer {
	o := Offer{Aim: aim, Left: math.NaN()}
	if !s.Spring.Known() {
		o.Why = "how the rig swings is not known; give its frequency"
		return o
	}
	out, back := s.Ways()
	name := optimal.QuietName
	if aim == WideShake {
		name = optimal.WideName
	}
	swings := decimals(s.Spring.Frequency * out.Seconds)
	o.Keys = []Key{{"law", name}, {"swings", swings}}
	q := optimal.Quiet{Swings: parsed(swings), Robust: aim == WideShake}
	if d := s.damping(); d > 0 && !q.Robust {
		text := decimals(d)
		o.Keys = append(o.Keys, Key{"swing-damping", text})
		q.Damping = parsed(text)
	}
	one, err := optimal.Soften(optimal.Jerk, q)
	other := one
	if err == nil && back.Seconds != out.Seconds {
		q.Swings *= back.Seconds / out.Seconds
		other, err = optimal.Soften(optimal.Jerk, q)
	}
	if err != nil {
		o.Keys, o.Why = nil, err.Error()
		return o
	}
	o.Name = name
	s.tell(&o, one.Law, other.Law)
	cube := func(w Way) float64 { return w.Travel / (w.Seconds * w.Seconds * w.Seconds) }
	o.Bound = max(one.Bound*cube(out), other.Bound*cube(back))
	o.Excess = o.Jerk/o.Bound - 1
	return o
}

// damping is that of the spring, or 0 where it is too little to count.
func (s Subject) damping() float64 {
	if s.Spring.Damping < optimal.MinDamping {
		return 0
	}
	return s.Spring.Damping
}

// tell fills in what the laws ask for and leave.
func (s Subject) tell(o *Offer, out, back law.Law) {
	o.Left = math.NaN()
	one, other := s.Ways()
	for _, w := range []struct {
		law law.Law
		Way
	}{{out, one}, {back, other}} {
		p, t := w.law.Peaks(), w.Seconds
		o.Speed = max(o.Speed, p.V*w.Travel/t)
		o.Acc = max(o.Acc, p.A*w.Travel/(t*t))
		o.Jerk = max(o.Jerk, p.J*w.Travel/(t*t*t))
		if s.Spring.Known() {
			left := w.Travel * vibration.Residual(s.Spring, w.law, t)
			if math.IsNaN(o.Left) || left > o.Left {
				o.Left = left
			}
		}
	}
	s.check(o, out, back)
}

// check plans the shot under the laws.
func (s Subject) check(o *Offer, out, back law.Law) {
	changed := s.Shot
	changed.Axes = append([]shot.AxisMove(nil), s.Shot.Axes...)
	for i := range changed.Axes {
		if changed.Axes[i].Name == s.Axis.Name {
			changed.Axes[i].Does = s.Move.WithLaws(out, back)
		}
	}
	p, err := plan.Build(changed, s.Rig)
	if err != nil {
		o.Why = err.Error()
		return
	}
	for _, b := range p.Breaches() {
		if b.Axis == s.Axis.Name {
			o.Why = b.Quantity + " breaks the rig's limit"
			return
		}
	}
	o.Within = true
}

// decimals writes a share with what digits it needs.
func decimals(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', keyDigits, 64), "0"), ".")
}

func parsed(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("lawfit: " + err.Error()) // decimals wrote it
	}
	return v
}
