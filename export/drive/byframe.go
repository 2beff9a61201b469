package drive

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"seamrail/export/drive/takelog"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// byFrame is one take frame by frame: the rig moves and rests, a frame is exposed, and so
// on. Nothing moves while one is; a stop then waits until the shutter has closed.
type byFrame struct {
	*engine
	s       *stepwise.Schedule
	by      shot.ByFrame
	take    int
	began   time.Time
	opened  time.Time // when its first frame was exposed; zero = none was
	from    int64     // the frame it begins with
	done    int64     // frames exposed, those before from among them
	total   int64     // that it is to expose
	anchor  time.Time // when frame since was exposed, or is to be
	since   int64
	on      int64   // the frame that it came to last
	came    bool    // it has come to the frame that is next by another way than the take's own
	arrival float64 // s that it is then left to settle
	release rig.Output
	tells   time.Time // when progress is told next
	worst   []float64 // of each axis at its frames, by how far it was reported from there; nil = nothing was
}

// errPause says that the operator stopped between two frames.
var errPause = errors.New("stopped between two frames")

// takeByFrame is take for a shot that is taken frame by frame.
func (e *engine) takeByFrame() (begun bool, err error) {
	for again := true; again; {
		b := e.newByFrame(e.number())
		e.FromFrame = 0 // a take that is begun anew begins with its first frame, as the next one does
		if b.from > 0 {
			e.Observer.Say(fmt.Sprintf("The take goes on with frame %d.", b.from))
			e.enter(Posing)
		} else {
			e.enter(Approaching)
		}
		if err := b.approach(b.from); err != nil {
			return begun, err
		}
		if err := b.stands(); err != nil {
			return begun, err
		}
		if err := e.caution(); err != nil {
			return begun, err
		}
		p := newPass(e, b.take)
		p.beats = newBeats(e, 0)
		if err := e.countIn(p, 0); err != nil {
			return begun, err
		}
		begun = true
		e.numbered()
		if again, err = b.run(); err != nil {
			return begun, err
		}
	}
	return begun, e.back()
}

func (e *engine) newByFrame(number int) *byFrame {
	b := &byFrame{engine: e, s: e.Frames, by: e.Frames.ByFrame(), take: number, total: e.Frames.Frames()}
	b.from = min(max(e.FromFrame, 0), b.total-1)
	b.done, b.since, b.on, b.came = b.from, b.from, b.from, true
	b.release, _ = e.Trajectory.Rig().Output(b.by.Output)
	return b
}

// approach brings all axes to a frame from the side from which they come there in the take.
func (b *byFrame) approach(n int64) error {
	b.arrival = b.s.Arrival(b.at, n)
	if err := b.goTo(b.s.Approach(n)); err != nil {
		return err
	}
	if err := b.goTo(b.s.Places(n)); err != nil {
		return err
	}
	b.reported(n)
	return nil
}

// reported takes in where the axes are reported at a frame.
func (b *byFrame) reported(n int64) {
	b.on, b.tells = n, b.now
	at, ok := b.m.position()
	if !ok {
		return
	}
	if b.worst == nil {
		b.worst = make([]float64, len(b.axes))
	}
	for i, want := range b.s.Places(n) {
		if off := at[i] - want; math.Abs(off) > math.Abs(b.worst[i]) {
			b.worst[i] = off
		}
	}
}

// stands asks where the axes stand at frame 0 of a pass of a group.
func (b *byFrame) stands() error {
	b.stood = nil
	if b.Group == "" || b.from > 0 {
		return nil
	}
	if err := b.m.fresh(); err != nil {
		return err
	}
	b.stood, _ = b.m.position()
	return nil
}

// start is how a pass of a group begins: each axis from the side from which it comes to
// every frame.
func (b *byFrame) start() *takelog.Start {
	s := b.engine.began()
	if s == nil {
		return nil
	}
	from, to := b.s.Approach(b.from), b.s.Places(b.from)
	for i := range s.Axes {
		s.Axes[i].From = sideOf(from[i], to[i])
	}
	return s
}

// run takes the frames, with their records. It tells whether the operator wants the take
// anew after a stop.
func (b *byFrame) run() (again bool, err error) {
	if b.stopWaits() {
		return false, errStopped
	}
	b.began = b.now
	if err := b.record(takelog.Record{
		Kind: takelog.Begun, Take: b.take, Shot: b.Shot, Plan: b.Plan, Rig: b.Trajectory.Rig().Name,
		Rounds: b.Rounds, Planned: b.planned(), Frames: b.from, Of: b.s.Frames(), Driver: b.Driver, Group: b.Group, Pass: b.Pass, Start: b.start(),
	}); err != nil {
		return false, err
	}
	b.frames = b
	b.requests = b.requests[:0]
	b.enter(Running)
	err = b.expose()
	var fault *Failure
	if errors.As(err, &fault) {
		return false, err // the fault ends the take once all is at rest
	}
	b.frames = nil
	end := b.endOf(err)
	if again = errors.Is(err, errRestart); again {
		err = nil
	}
	if logged := b.end(end, ""); logged != nil {
		return false, logged
	}
	return again, err
}

// expose takes frame after frame. A pause is gone on from with the frame that was next.
func (b *byFrame) expose() error {
	b.anchor = b.now
	for b.done < b.total {
		err := b.frame(b.done)
		if errors.Is(err, errPause) || errors.Is(err, errStopped) && b.known && !b.quit {
			err = b.pause(min(b.done, b.total-1))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// frame takes one frame.
func (b *byFrame) frame(n int64) error {
	f := b.s.Frame(n)
	settle := f.Settle
	if b.came {
		settle = b.arrival
	} else if err := b.moves(f); err != nil {
		return err
	}
	if err := b.idle(seconds(settle)); err != nil {
		return err
	}
	b.came = false
	if err := b.due(n); err != nil {
		return err
	}
	if err := b.shutter(n); err != nil {
		return err
	}
	b.done = n + 1
	if err := b.record(takelog.Record{Kind: takelog.Exposed, Take: b.take, Frames: b.done}); err != nil {
		return err
	}
	if n+1 == b.total {
		return nil
	}
	return b.idle(seconds(b.by.Card.Float()))
}

// moves makes the moves to a frame.
func (b *byFrame) moves(f stepwise.Frame) error {
	for _, l := range f.Legs {
		if err := b.inMotion(func() error { return b.leg(l) }); err != nil {
			return err
		}
	}
	b.reported(f.Number)
	return nil
}

func (b *byFrame) leg(l stepwise.Leg) error {
	to := slices.Clone(b.at)
	for _, m := range l.Moves {
		to[m.Axis] = b.s.Unit(m.Axis, m.To)
	}
	if m := l.Moves[0]; len(l.Moves) == 1 {
		return b.m.glide(m.Axis, to[m.Axis], false)
	}
	return b.m.together(to)
}

// due waits until a frame is to be exposed. One that is late puts off those after it.
func (b *byFrame) due(n int64) error {
	every := seconds(b.s.Every().Float())
	when := b.anchor.Add(time.Duration(b.s.Gap(b.since, n)) * every)
	if n == b.since || b.by.Waits {
		when = b.now
	}
	if err := b.idle(when.Sub(b.now)); err != nil {
		return err
	}
	if late := b.now.Sub(when).Seconds(); late > lateFrame {
		b.Observer.Say(fmt.Sprintf("frame %d is %.1f s late, and so are those after it", n, late))
	}
	b.anchor, b.since = b.now, n
	if b.opened.IsZero() {
		b.opened = b.now
	}
	return nil
}

// lateFrame is how late a frame may be, s, before that is said: a tenth of a second is less
// than the times of a camera differ by from one still to the next (common practice).
const lateFrame = 0.1

// shutter exposes a frame.
func (b *byFrame) shutter(n int64) error {
	open := seconds(b.by.Exposure.Float())
	if b.by.Output == "" {
		return b.byHand(n, open)
	}
	held := seconds(b.s.Held())
	if _, err := b.lights(b.release, b.s.Held(), b.by.Bulb); err != nil {
		return err
	}
	if err := b.still(held); err != nil {
		return err
	}
	if err := b.goesOut(b.release); err != nil {
		return err
	}
	return b.still(open - held + seconds(b.s.Needs.Release))
}

// byHand counts a frame for the hand that takes it, and waits until it is said to be taken,
// or for as long as the hand has and the exposure lasts.
func (b *byFrame) byHand(n int64, open time.Duration) error {
	if b.Call != nil {
		b.Call(Beat{Text: fmt.Sprintf("frame %d, the %s of %d", n, ordinal(n+1), b.total)})
	}
	if !b.by.Waits || b.Nobody {
		return b.still(seconds(b.by.Hand.Float()) + open)
	}
	b.enter(Awaiting)
	b.tells = b.now // whoever is to take it is told which it is, however soon after the last
	b.tell()
	for {
		r, err := b.next()
		switch {
		case errors.Is(err, errQuit) && b.quit:
			return errStopped
		case errors.Is(err, errQuit):
			return errPause
		case err != nil:
			return err
		case r.Kind == Taken:
			b.enter(Running)
			return nil
		}
	}
}

// ordinal is "1st" for 1.
func ordinal(n int64) string {
	end := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprint(n, end)
}

// still waits while a frame is exposed. A stop waits as well: nothing moves.
func (b *byFrame) still(how time.Duration) error {
	return b.waits(how, func() error { return nil })
}

// idle waits between frames. A stop ends it.
func (b *byFrame) idle(how time.Duration) error {
	return b.waits(how, b.asksNow)
}

// waits lets time pass, and looks after each thing that happens.
func (b *byFrame) waits(how time.Duration, look func() error) error {
	end := b.now.Add(how)
	for {
		if err := look(); err != nil {
			return err
		}
		if !b.now.Before(end) {
			return nil
		}
		b.tell()
		if err := b.wait(earlier(end, b.tells)); err != nil {
			return err
		}
	}
}

// asksNow takes what is asked for between frames: a stop, or an end after this round.
func (b *byFrame) asksNow() error {
	stops := slices.ContainsFunc(b.requests, ends)
	if slices.ContainsFunc(b.requests, func(r Request) bool { return r.Kind == Finish }) {
		c := b.Trajectory.Captured()
		b.total = min(b.total, (b.done+c-1)/c*c)
		b.total = max(b.total, c)
	}
	b.requests = b.requests[:0]
	switch {
	case stops && b.quit:
		return errStopped
	case stops:
		return errPause
	}
	return nil
}

// pause rests until the operator says how to go on: with the frame that is next, whose place
// is gone to anew, or with the take from its beginning.
func (b *byFrame) pause(n int64) error {
	b.enter(Resting)
	b.stops, b.requests = 0, b.requests[:0]
	b.tells = b.now
	b.tell()
	for {
		r, err := b.next()
		switch {
		case errors.Is(err, errQuit):
			return errStopped
		case err != nil:
			return err
		case r.Kind == Restart:
			return errRestart
		case r.Kind == Resume:
			b.enter(Running)
			b.Observer.Say(fmt.Sprintf("going on with frame %d, from the side that it is come to in the take", n))
			if err := b.approach(n); err != nil {
				return err
			}
			b.came, b.since = true, n
			return nil
		}
	}
}

// planned is how long the frames of the take last that are to be exposed, s, by the times of
// the plan.
func (b *byFrame) planned() float64 {
	return float64(b.s.Gap(b.from, b.total-1))*b.s.Every().Float() + b.by.Exposure.Float()
}

// end writes how the take ended.
func (b *byFrame) end(end End, detail string) error {
	rounds := b.done / b.Trajectory.Captured()
	done := Pass{
		Take: b.take, Rounds: rounds, Frames: b.done, Of: b.total, Began: b.began, Ended: b.now,
		Planned: b.planned(), Worst: b.worst, End: end, Detail: detail,
	}
	r := takelog.Record{Kind: takelog.Ended, Take: b.take, Rounds: rounds, Frames: b.done, Outcome: end.String(), Detail: detail, Known: b.known}
	if end == Finished {
		done.Executed = b.now.Sub(b.opened).Seconds()
		r.Executed, r.Planned = done.Executed, done.Planned
	}
	r.Worst = b.worsts(b.worst)
	err := b.record(r)
	b.Observer.Passed(done)
	return err
}

// tellEvery is how often a take frame by frame tells where it is, while nothing moves.
const tellEvery = time.Second

// tell tells where the take is.
func (b *byFrame) tell() {
	if b.now.Before(b.tells) {
		return
	}
	b.tells = b.now.Add(tellEvery)
	state := Running
	if b.state == Resting {
		state = Resting
	}
	c := b.Trajectory.Captured()
	n := min(b.done, b.total-1)
	left := time.Duration(0)
	if !b.by.Waits {
		left = seconds(float64(b.s.Gap(n, b.total-1))*b.s.Every().Float() + b.by.Exposure.Float())
	}
	b.Observer.Progress(Progress{
		State: state, Take: b.take, Seen: b.sighting(), Round: n / c, Rounds: b.Rounds, Frame: n % c, Taken: b.done, Of: b.total, Left: left,
		Elapsed: b.now.Sub(b.began), Share: float64(b.done) / float64(b.total),
		Timecode: b.label(n % c), Position: slices.Clone(b.at), Reported: false,
	})
}
