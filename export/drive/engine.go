package drive

import (
	"time"
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
	stuck time.Time // since when the wire has taken nothing; zero = it does
	pass  *pass     // the one in hand, or nil

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
		e.m = newTalker(e)
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
	if m, ok := e.w.(Minder); ok && e.minded != e.moving {
		m.Moves(e.moving)
		e.minded = e.moving
	}
}

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
