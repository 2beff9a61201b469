package drive

import (
	"fmt"
	"math"
	"slices"
	"time"

	"seamrail/export/drive/takelog"
	"seamrail/motion/spec/rig"
)

// A jog is an axis that moves as long as somebody holds a key or a button. It is held only
// while it is renewed, so that whoever asks for it may vanish without a word: then it ends
// as if let go of. It goes slowly at first, never past the travel, and one at a time.
//
// What the controller has of it at any time ends by itself, see ownJog, shortMoves and
// player.carry: where nobody can tell it to stop any more, it rests all the same.

const (
	// longestHold is how long a jog goes on at most that is not renewed: a terminal
	// waits up to half a second before it repeats a key that is held down.
	longestHold = 700 * time.Millisecond
	// blindReach is how far a jog goes, in mm or degrees, where it is not known where
	// the axis stands: its end may be as near.
	blindReach = 5
	// leastCreep is the share of the least of JogSpeeds below which none is a speed: half of
	// it, as figures are rounded on the way. At hardly any, lines of two steps would have no
	// end.
	leastCreep = 0.5
	// blindLevel is the greatest of JogSpeeds then.
	blindLevel = 1
	// lookSoon is how long after what has been asked for of a jog it is told to the
	// board at the latest: the wait for what happens is over at once, and at most 5 ms
	// of bytes are before it on the wire. It is what is promised of a stop, and bounds
	// what a controller without a byte for it has been sent.
	lookSoon = 20 * time.Millisecond
)

// jogShares are the shares of its greatest speed at which an axis is moved by hand. The
// greatest is that of any other move outside a take.
var jogShares = [...]float64{0.005, 0.02, 0.05, gentleShare}

// JogSpeeds are the speeds at which an axis can be moved by hand, in mm/s or degrees/s:
// the least to creep up to a mark, the greatest to get about.
func JogSpeeds(a rig.Axis) []float64 {
	out := make([]float64, len(jogShares))
	for i, share := range jogShares {
		out[i] = a.MaxSpeed * share
	}
	return out
}

// Jogged is where the axes stand while one of them is moved by hand, and when it rests.
type Jogged struct {
	Axis   int
	At     []float64 // where the axes of the plan stand, mm or degrees; nil = not known
	Gone   float64   // mm or degrees that the axis has gone since it was held
	Moving bool
}

// JogWatcher is an Observer that is told where an axis is that is moved by hand, ten times
// a second and at the end.
type JogWatcher interface{ Jogged(Jogged) }

// jogging is the axis that is held.
type jogging struct {
	axis    int
	way     float64   // 1, or -1 towards lesser places
	asked   float64   // units/s, as it was asked for
	until   time.Time // when it ends unless it is renewed
	let     bool      // it has been let go of
	most    float64   // units that it may go
	ramp    ramp
	began   time.Time // when the motion did, as far as is known; zero = it has not
	fed     float64   // units of what the controller has been told
	sec     float64   // s of the ramp of that
	fedAt   time.Time // when that was last
	told    time.Time // when the observer was told last
	refused string    // what the controller did not take of it
	ranOut  bool      // a player of rows had none left
}

// over tells whether it is to end. One that was not renewed in time is let go of for good:
// the axis brakes already, and who presses again begins anew once it rests.
func (j *jogging) over(now time.Time) bool {
	j.let = j.let || !now.Before(j.until)
	return j.let || j.refused != "" || j.ranOut
}

// is tells whether a request holds the same.
func (j *jogging) is(r Request) bool {
	return j != nil && !j.let && j.axis == r.Axis && j.asked == r.Speed
}

// holds takes a request to hold an axis. What moves already is renewed by one of the same
// kind and let go of by any other, which then begins. It never waits for something else
// that moves: by then the key may be up.
func (e *engine) holds(r Request) {
	r.until = e.now.Add(min(max(r.For, 0), longestHold))
	switch {
	case e.held.is(r):
		e.held.until = r.until
		return
	case e.held != nil:
		e.held.let = true
	case e.spent.is(r) && e.now.Before(e.spent.until): // a key that is still down
		e.spent.until = r.until
		return
	case e.moving || e.state != Ready && e.state != Unsettled:
		return
	}
	e.forgetHolds()
	e.requests = append(e.requests, r)
}

// lets takes a request to let go.
func (e *engine) lets() {
	if e.held != nil {
		e.held.let = true
	}
	e.spent = nil
	e.forgetHolds()
}

// forgetHolds drops those that have not begun.
func (e *engine) forgetHolds() {
	e.requests = slices.DeleteFunc(e.requests, func(r Request) bool { return r.Kind == JogHold })
}

// hold moves an axis for as long as it is held.
func (e *engine) hold(r Request) error {
	if r.Axis < 0 || r.Axis >= len(e.axes) || math.IsNaN(r.Speed) || r.Speed == 0 || !e.now.Before(r.until) {
		return nil
	}
	j, why := e.newJogging(r)
	if why != "" {
		e.Observer.Say(why)
		e.spent = j
		return nil
	}
	e.held = j
	defer func() { e.held, e.spent = nil, j }()
	err := e.inMotion(func() error { return e.m.carry(j) })
	if err != nil {
		return err
	}
	if j.refused != "" {
		e.Observer.Say(fmt.Sprintf("axis %s is not moved: %s", e.axes[j.axis].Name, j.refused))
	}
	if j.ranOut {
		return e.ranOut(j)
	}
	e.tellJog(j, false)
	return nil
}

// newJogging returns how an axis is moved, or why it is not.
func (e *engine) newJogging(r Request) (*jogging, string) {
	a := e.axes[r.Axis]
	speeds := JogSpeeds(a)
	top := min(math.Abs(r.Speed), speeds[len(speeds)-1])
	j := &jogging{axis: r.Axis, way: math.Copysign(1, r.Speed), asked: r.Speed, until: r.until, most: math.Inf(1)}
	if top < speeds[0]*leastCreep {
		return j, fmt.Sprintf("%g %s/s is slower than axis %s is moved by hand: that begins at %.3g", top, a.Unit(), a.Name, speeds[0])
	}
	switch {
	case !e.sure(r.Axis):
		top, j.most = min(top, speeds[blindLevel]), blindReach
	case !a.Endless:
		end := a.Max
		if j.way < 0 {
			end = a.Min
		}
		j.most = (end - e.at[r.Axis]) * j.way
		if j.most*a.StepsPerUnit.Float() < 1 {
			return j, fmt.Sprintf("axis %s stands at the end of its travel, %.3f %s", a.Name, end, a.Unit())
		}
	}
	j.ramp = newRamp(speeds[0], e.m.jogTop(a, top), acceleration(a))
	return j, ""
}

// ranOut takes in that a player of rows stopped at once: a motor that was quick may have
// lost steps.
func (e *engine) ranOut(j *jogging) error {
	e.Observer.Say(fmt.Sprintf("it ran out of rows, since the link or this computer was too slow, and axis %s stopped at once: where it stands is not to be trusted", e.axes[j.axis].Name))
	was := e.known
	e.known, e.homed = false, nil
	e.tellJog(j, false)
	if !was {
		return nil
	}
	return e.record(takelog.Record{Kind: takelog.Lost, Outcome: Behind.String()})
}

// tellJog tells whoever watches where the axes stand. While they move that is where they
// are reported, else where they have been told to go.
func (e *engine) tellJog(j *jogging, moving bool) {
	w, ok := e.Observer.(JogWatcher)
	if !ok || moving && e.now.Sub(j.told) < progressEvery {
		return
	}
	j.told = e.now
	told := Jogged{Axis: j.axis, Gone: j.fed * j.way, Moving: moving}
	if e.known {
		told.At = slices.Clone(e.at)
	}
	if at, ok := e.m.position(); ok && e.known && moving {
		told.At = slices.Clone(at)
	} else if e.known && moving {
		told.At[j.axis] += j.fed * j.way
	}
	w.Jogged(told)
}
