package virtual

import (
	"cmp"
	"math"

	"seamrail/motion/spec/rig"
)

// Mechanics is what the machine behind an axis does that its board does not know of. The
// zero value is a machine that does what it is told.
type Mechanics struct {
	Scale float64 // units that it goes for one the board counts; 0 = 1
	Play  float64 // units that are taken up where it turns round
	// Speed and Acceleration are the most that the motor follows, units/s and /s²; 0 = all.
	Speed, Acceleration float64
	// Pull is how far the motor may lag before it falls out of step: the torque of a
	// stepping motor is nothing again two full steps from where it should be (textbooks,
	// from memory: it is about a sine of four full steps). It then stands until it is slow enough to start from rest, and has
	// lost a multiple of four. 0 = 32 of the board's steps: two full of 16 microsteps.
	Pull float64
}

// usualPull is Pull in the board's steps, where it is not stated.
const usualPull = 32

// As gives the machines behind the axes what another rig file says of them: its steps,
// its play, and as the most that their motors follow its limits.
func (o *Options) As(truth rig.Rig) {
	for i := range o.Axes {
		a := &o.Axes[i]
		for _, t := range truth.Axes {
			if t.Letter == "" || t.Letter[0] != a.Letter {
				continue
			}
			a.Mechanics = Mechanics{
				Scale: a.StepsPerUnit / t.StepsPerUnit.Float(), Speed: t.MaxSpeed, Acceleration: t.MaxAcc,
				Pull: usualPull / t.StepsPerUnit.Float(),
			}
			if t.Backlash != nil {
				a.Mechanics.Play = *t.Backlash
			}
		}
	}
}

func (a *Axis) scale() float64 { return cmp.Or(a.Mechanics.Scale, 1) }

func (a *Axis) pull() float64 { return cmp.Or(a.Mechanics.Pull, usualPull/a.StepsPerUnit) }

// behind is how the machine of an axis goes after its steps: the speed of its motor, by
// how much that lags, whether it has fallen out of step and what it has lost since, and
// where what it drags along stands.
type behind struct {
	speed, lag, load float64
	stalled          bool
	lost             float64
}

// motorAt returns where the motor would have the machine when the board counts n.
func (r *Rig) motorAt(axis int, n int64) float64 {
	a := &r.o.Axes[axis]
	return r.shaft.offset[axis] + a.scale()*a.unitsAt(n)
}

// place returns where the machine stands, in units, when the board counts n and has come
// there without turning round since the slice began.
func (r *Rig) place(axis int, n int64) float64 {
	half := r.o.Axes[axis].Mechanics.Play / 2
	at := r.motorAt(axis, n)
	if half == 0 {
		return at
	}
	return min(max(r.shaft.behind[axis].load, at-half), at+half)
}

// follows brings the machine after a slice that has run and begun at other counts.
func (r *Rig) follows(c *slice, began [maxAxes]int64) {
	lasts := c.lasts().seconds()
	for i := range r.o.Axes {
		a, b := &r.o.Axes[i], &r.shaft.behind[i]
		went := a.scale() * a.unitsAt(r.shaft.count[i]-began[i])
		if m := a.Mechanics; lasts > 0 && (m.Speed > 0 || m.Acceleration > 0) {
			r.shaft.offset[i] -= b.pulled(m, went, lasts, a.pull())
		}
		b.load = r.place(i, r.shaft.count[i])
	}
}

// swingTime is the time in which a motor that has caught up with its steps works off what
// it lags, in s: some of its own swings, a hundred a second or so (common practice).
const swingTime = 0.01

// pulled takes a motor along a way in a time, and returns what it lost on it.
func (b *behind) pulled(m Mechanics, way, lasts, pull float64) (lost float64) {
	asked := way / lasts
	if b.stalled {
		if math.Abs(asked) > m.startsAt(pull) {
			b.lost += way
			return way
		}
		return b.caught(pull)
	}
	to := asked
	if m.Speed > 0 {
		to = min(max(to, -m.Speed), m.Speed)
	}
	if most := m.Acceleration * lasts; most > 0 {
		to = min(max(to, b.speed-most), b.speed+most)
	}
	b.lag += way - to*lasts
	b.speed = to
	if to == asked {
		b.lag -= m.caughtUp(b.lag, asked, lasts)
	}
	if b.stalled = math.Abs(b.lag) > pull; b.stalled {
		b.lost = b.lag
		return b.lag
	}
	return 0
}

// caughtUp is how much of a lag a motor works off in a time, beside the way that it is asked
// for: no faster than it goes.
func (m Mechanics) caughtUp(lag, asked, lasts float64) float64 {
	off := lag * (1 - math.Exp(-lasts/swingTime))
	if room := (m.Speed - math.Abs(asked)) * lasts; m.Speed > 0 && lag*asked > 0 {
		return math.Copysign(min(math.Abs(off), room), off)
	}
	return off
}

// startsAt is the speed at which a motor that has stalled falls in step again: that to
// which it comes within its pull, or a tenth of its greatest.
func (m Mechanics) startsAt(pull float64) float64 {
	const share = 0.1
	if m.Acceleration > 0 {
		return math.Sqrt(2 * m.Acceleration * pull)
	}
	return share * m.Speed
}

// caught is what a motor loses besides where it falls in step again: all it has lost is
// then whole cycles of its phases, four full steps each.
func (b *behind) caught(pull float64) float64 {
	cycle := 2 * pull
	rest := math.Round(b.lost/cycle)*cycle - b.lost
	*b = behind{load: b.load}
	return rest
}

// stands lets the motors stand: they catch up with what they lagged by, and are in step.
func (r *Rig) stands() {
	for i := range r.o.Axes {
		b := &r.shaft.behind[i]
		if b.stalled {
			r.shaft.offset[i] -= b.caught(r.o.Axes[i].pull())
		}
		b.speed, b.lag = 0, 0
		b.load = r.place(i, r.shaft.count[i])
	}
}
