package drive

import (
	"time"

	"seamrail/motion/spec/rig"
)

// engine runs one controller. It lives on one goroutine, within Run.
type engine struct {
	*job
	w   World
	m   machine
	out wire
	way link
	now time.Time

	nothing  bool // the last wait has brought nothing
	state    State
	requests []Request // not yet taken
	moving   bool      // something may move: a Stop must act at once
	minded   bool      // what the World was told of that
	stops    int       // asked for since the motion in hand began
	crashed  bool      // a reset of the controller is on its way
	aborted  bool      // the operator did not wait for a gentle stop
	quit     bool      // the operator wants to leave
	calming  bool      // a fault is being dealt with: no more are looked for
	failure  *Failure  // the first fault

	at    []float64 // where each axis stands, mm or degrees, while known
	known bool
	homed []bool    // while not all is known: the axes that are, by homing; nil = none
	gone  bool      // the wire is
	held  *jogging  // the axis that somebody moves by hand, or nil
	spent *jogging  // the one that was moved last: it may still be held, though it has ended
	stuck time.Time // since when the wire has taken nothing; zero = it does
	pass  *pass     // the one in hand, or nil
	begun int       // passes, each with a number of its own
	// frames is the take frame by frame in hand, or nil.
	frames *byFrame

	hopes time.Time    // when it is said that the controller has not been understood yet; zero = it is not
	found int          // of Outputs, that it has
	lit   []rig.Output // outputs that are on, or may be

	stood  []float64 // where the axes were reported at the start of a pass of a group; nil = not told
	leaves []float64 // by how much blocks leave the path of each axis; nil = not at all
}

// patience is how long an answer may be late, beyond all that is known to take
// time, before the controller counts as silent. Writes of settings and a busy
// 8-bit processor take tens of milliseconds.
const patience = 2 * time.Second

// minWait is the shortest wait: something that is due and cannot be done yet
// must not keep time from going on.
const minWait = 100 * time.Microsecond

// never is how long a wait for nothing in particular lasts before it is begun
// anew. Clocks that count picoseconds hold a hundred days.
const never = 24 * time.Hour

func newEngine(w World, o Options) *engine {
	e := &engine{job: newJob(o), w: w, now: w.Now()}
	e.way = newLink(e.controller.Baud)
	if e.controller.Kind.PlaysSteps() {
		e.m = newPlayer(e)
	} else {
		e.m = newLineController(e)
	}
	return e
}

func (e *engine) enter(s State) {
	e.state = s
	e.Observer.Enter(s)
}

// wait lets the world go on until something happens, at most until the time
// given, and deals with it. It returns the fault, if there is one.
func (e *engine) wait(until time.Time) error {
	e.flush()
	if e.failure == nil || e.calming && !e.gone {
		if e.out.waiting() {
			until = earlier(until, e.now.Add(retryAfter))
		}
		woke, limit := e.now, later(earlier(until, e.due()), e.now.Add(minWait))
		ev := e.w.Wait(limit)
		e.now = e.w.Now()
		e.way.wakes(woke, limit, e.now)
		e.handle(ev)
		e.m.tick()
		e.hoping()
		if e.pass != nil {
			e.pass.tick()
		}
		e.flush()
	}
	if err := e.fault(); err != nil || e.state > Reading || !e.stopWaits() {
		return err
	}
	return errStopped // who leaves need not wait for a controller that is silent
}

func (e *engine) due() time.Time {
	due := e.m.due()
	if !e.hopes.IsZero() {
		due = earlier(due, e.hopes)
	}
	if e.pass != nil {
		due = earlier(due, e.pass.due())
	}
	return due
}

func (e *engine) handle(ev Event) {
	e.nothing = ev.Kind == Nothing
	switch ev.Kind {
	case Heard:
		e.m.heard(ev.Bytes)
	case Asked:
		e.asked(ev.Request)
	case Gone:
		e.gone = true
		e.fail(PortLost, "%v", ev.Err)
	case Slept:
		if e.moving {
			e.fail(Asleep, "this computer slept for %v in the middle of motion; the rig has run on what it held", ev.Duration.Round(time.Millisecond))
		}
	}
}

// fault returns the fault that nobody has dealt with, or nil.
func (e *engine) fault() error {
	if e.failure == nil || e.calming && !e.gone {
		return nil
	}
	return e.failure
}

// fail keeps the first fault.
func (e *engine) fail(end End, format string, args ...any) {
	if e.failure == nil {
		e.failure = failed(end, format, args...)
	}
}

// flush hands bytes to the wire and notices one that takes none.
func (e *engine) flush() {
	e.mind()
	before := e.out.sent
	if err := e.out.flush(e.w); err != nil {
		e.out, e.gone = wire{}, true
		e.fail(PortLost, "%v", err)
		return
	}
	if n := e.out.sent - before; n > 0 {
		e.way.sent(n, e.now)
		e.m.flushed()
	}
	switch {
	case !e.out.waiting() || e.out.sent > before:
		e.stuck = time.Time{}
	case e.stuck.IsZero():
		e.stuck = e.now
	case e.now.Sub(e.stuck) > patience:
		e.fail(Silent, "the wire has taken no byte for %v", patience)
	}
}

// mind tells a World that wants to know whether something moves.
func (e *engine) mind() {
	busy := e.moving || len(e.lit) > 0 // nothing that was switched on is to be left so
	if m, ok := e.w.(Minder); ok && e.minded != busy {
		m.Moves(busy)
		e.minded = busy
	}
}

// within waits for done, at most so long: a controller of which it does not come is
// silent, in those words.
func (e *engine) within(limit time.Duration, done func() bool, format string, args ...any) error {
	ok, err := e.until(limit, done)
	if err == nil && !ok {
		err = failed(Silent, format, args...)
	}
	return err
}

// noStatus is said of a controller that should report and does not.
const noStatus = "it does not answer when asked for its status"

// until waits for done, at most so long, and tells whether it came.
func (e *engine) until(limit time.Duration, done func() bool) (bool, error) {
	end := e.now.Add(limit)
	for !done() {
		if !e.now.Before(end) {
			return false, nil
		}
		if err := e.wait(end); err != nil {
			return false, err
		}
	}
	return true, nil
}

// machine is what the engine needs of a kind of controller. Methods that
// return an error wait in the engine's World until they are done, and return a
// *Failure, errStopped or nil.
type machine interface {
	// greet learns that the controller is there and is the one described.
	greet() error
	// check compares its settings with the rig.
	check() error
	// locked tells whether it is in an alarm that must be cleared.
	locked() bool
	unlock() error
	// home finds the switches of the axes of the plan that have one.
	home() error
	// homes tells whether it can find the switch of an axis of the plan.
	homes(axis int) bool
	// place makes it count from here: each axis of the plan stands at.
	place(at []float64) error
	// glide moves one axis gently to a place, or by a distance where position
	// is unknown, and rests.
	glide(axis int, to float64, relative bool) error
	// together moves axes gently to their places, all at once along a straight line, and
	// rests: those that stepwise has in one leg.
	together(to []float64) error
	// carry moves an axis as long as it is held, and rests; it sets where it stands where
	// that is known. jogTop is the greatest speed up to one at which it can.
	carry(j *jogging) error
	jogTop(a rig.Axis, speed float64) float64
	// departed brackets when the last gentle move began.
	departed() span
	// position returns where the axes of the plan stand by the last report, while
	// that can be told; fresh waits for one that is asked for now.
	position() ([]float64, bool)
	fresh() error

	// wants tells whether the controller has an output, as far as that can be told
	// without switching it on; switches switches one at rest, and brackets when. lights
	// switches one on for so many s, which the controller ends by itself where it can,
	// and goesOut waits for that.
	wants(o rig.Output) error
	switches(o rig.Output, on bool) (span, error)
	lights(o rig.Output, sec float64, exact bool) (span, error)
	goesOut(o rig.Output) error

	// load makes ready a pass, without a move; feed sends what there is room for; done tells
	// whether all of it has been carried out.
	load(p *pass) error
	// lead is how long before the motion the first feed must be.
	lead() time.Duration
	feed(p *pass) error
	done(p *pass) bool
	// finish ends the pass after the round in hand.
	finish(p *pass)
	// last returns where the axes stand after the pass, or as far as it went,
	// and whether that can be relied on.
	last(p *pass) ([]float64, bool)

	// slow asks for a gentle stop, at once; rest waits for it, and slowing is how long that
	// takes from full speed at most; resume goes on after it; halt, at rest, makes the controller forget what it holds, and
	// tells whether position is still known. crash stops without care.
	slow()
	rest() error
	slowing() time.Duration
	resume(p *pass)
	halt() (known bool)
	crash()

	// heard takes bytes from the wire, flushed is told that the wire has taken
	// some, tick does what is due, due is when something will be.
	heard(b []byte)
	flushed()
	tick()
	due() time.Time
}
