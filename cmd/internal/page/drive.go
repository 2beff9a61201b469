package page

import (
	"net/http"
	"slices"
	"sync"
	"time"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive"
)

const (
	// lostAfter is how long a page that drives may not be heard of before the rig
	// is slowed down and stopped: four of its beats.
	lostAfter = time.Second
	// loadsFor is how long a browser may take from asking for a page until it puts away the
	// one before, when that is loaded anew: it does so once the new one comes.
	loadsFor = 2 * time.Second
	// goneAfter is how long it may be away before the port is given back.
	goneAfter = 10 * time.Second
	// lookFor is how often that is looked at.
	lookFor = 100 * time.Millisecond
)

// driving is the one run that there may be, and the page it belongs to.
type driving struct {
	mu    sync.Mutex
	claim key // "" when nobody drives
	run   *run
	heard time.Time // when the page was heard of last
	over  chan struct{}
	stays int       // connections that are kept open for as long as the page is there
	loads time.Time // when a page was asked for last, by whatever tab
	// halt is how many states the engine had been in when a stop was passed on at
	// halted; 0 = none since.
	halt   int64
	halted time.Time
	// How many it had been in when what moves the rig was passed on last: as long as an axis
	// is held, and other things, which may take a moment to begin. 0 = none.
	holding, moves int64
	// The page numbers its presses of what moves an axis: pressed is the last that was
	// heard of, and none up to released moves anything any more.
	pressed, released int64
	marking           string // the text that a mark is asked for
}

// openQuestion asks for a run.
type openQuestion struct {
	Text    string `json:"text"`
	Port    string `json:"port"` // "virtual" for a rig made of software
	Fast    bool   `json:"fast"`
	CountIn *int   `json:"countIn"`
	Endless bool   `json:"endless"` // round after round until asked to finish
	Wire    bool   `json:"keepWire"`
	Group   string `json:"group"` // of takes that must match
	Pass    string `json:"pass"`  // what of it they are
	GoOn    bool   `json:"goOn"`  // of a shot taken frame by frame: after the last frame that the log has
}

const (
	virtualPort = "virtual"
	// maxCountIn is longer than anyone waits.
	maxCountIn = 60
)

// openDrive begins a run for the page that asks, unless another drives.
func (s *desk) openDrive(q openQuestion) (*claimed, error) {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.claim != "" {
		return nil, refused(http.StatusLocked, "another page drives the rig, or this one has not let go of it yet; only one may")
	}
	p, err := s.drivable(q.Text)
	if err != nil {
		return nil, err
	}
	o := q.options(s.shot)
	if q.Wire {
		if o.Wire, err = s.keepWire(q.Text, p); err != nil {
			return nil, err
		}
	}
	run, err := s.connect(s, p, o)
	if err != nil {
		return nil, err
	}
	d.halt, d.holding, d.moves, d.pressed, d.released = 0, 0, 0, 0, 0
	d.claim, d.run, d.heard, d.over, d.stays = newKey(), run, time.Now(), make(chan struct{}), 0
	s.film.rest()
	s.stage.set(run.first, s.marked)
	over := d.over
	deadman.Go(func() { s.drive(run, over) })
	deadman.Go(func() { s.look(over) })
	return &claimed{d.claim}, nil
}

// drivable plans a text that a rig is to run.
func (s *desk) drivable(text string) (*job.Job, error) {
	p, err := s.planned(text)
	if err == nil {
		err = p.Unable()
	}
	return p, err
}

// options say which rig drives a shot, and how. One take of a rig whose time flies is
// run, and nobody confirms it.
func (q openQuestion) options(shot string) session.Options {
	o := session.Options{
		Source: job.Source{Shot: shot}, Port: q.Port, Virtual: q.Port == virtualPort, CountIn: job.CountIn, Endless: q.Endless, GoOn: q.GoOn,
		Group: q.Group, Pass: q.Pass,
	}
	o.Fast = o.Virtual && q.Fast
	o.Confirmed = o.Fast
	if q.CountIn != nil {
		o.CountIn = max(min(*q.CountIn, maxCountIn), 0)
	}
	return o
}

// drive runs until the run is over, and lets the rig go.
func (s *Server) drive(run *run, over chan struct{}) {
	how, err := run.Run()
	s.driving.mu.Lock()
	s.driving.claim, s.driving.run = "", nil
	s.driving.mu.Unlock()
	s.stage.ended(how, err)
	close(over)
}

// look stops the rig when the page is lost, and whatever it begins only then, and gives the
// port back when the page does not come again. It asks once for each: a second stop would
// abort.
func (s *Server) look(over <-chan struct{}) {
	t := time.NewTicker(lookFor)
	defer t.Stop()
	lost, stopped, left := false, false, false
	for {
		select {
		case <-over:
			return
		case <-t.C:
		}
		away, run := s.driving.away()
		switch {
		case run == nil:
			return
		case away < lostAfter && lost:
			lost = false
			s.stage.change(func(d *DriveState) { d.Lost = false })
		case away >= lostAfter && !lost:
			lost = true
			s.stage.change(func(d *DriveState) { d.Lost = true })
			s.stage.Say("the page was lost: the rig slows down and rests")
			stopped = s.stops(run)
		case away >= lostAfter && !stopped && s.begins():
			stopped = s.stops(run)
		case away >= goneAfter && !left && s.atRest():
			left = s.halt(run, drive.Quit)
		}
	}
}

// stops passes a stop on, and tells whether there was one to pass on.
func (s *Server) stops(run *run) bool {
	before := s.driving.lastHalt()
	s.halt(run, drive.Stop)
	return s.driving.lastHalt() != before
}

func (d *driving) lastHalt() time.Time {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.halted
}

// begins tells whether the rig does what it goes over to from rest.
func (s *Server) begins() bool {
	x, _ := s.stage.at()
	return x == drive.Homing || x == drive.Posing || x == drive.Approaching
}

// atRest tells whether a run can be left without stopping anything.
func (s *Server) atRest() bool {
	x, _ := s.stage.at()
	return resting(x)
}

func resting(x drive.State) bool {
	return x == drive.Unsettled || x == drive.Ready || x == drive.Resting || x == drive.Cautioning
}

// haltEvery is how long a rig that moves only a little, without another state
// for it, takes no second stop.
const haltEvery = time.Second

// halt passes a stop, or a quit, on once: to the engine a second one means to
// abort, and a key that is held down must not. It tells whether it did.
func (s *Server) halt(run *run, kind drive.RequestKind) bool {
	d := &s.driving
	d.mu.Lock()
	defer d.mu.Unlock()
	at, entered := s.stage.at()
	if kind == drive.Stop && resting(at) && !d.mayMove(entered, s.stage.jogs()) {
		if at == drive.Cautioning {
			run.Ask(drive.Request{Kind: drive.Decline})
		}
		return true // nothing moves, and the engine would take it for the end
	}
	again := entered == d.halt && (!resting(at) || time.Since(d.halted) < haltEvery)
	if at == drive.Slowing || at == drive.Draining || again {
		return false
	}
	d.halt, d.halted, d.released = entered, time.Now(), d.pressed
	run.Ask(drive.Request{Kind: kind})
	return true
}

// mayMove tells whether something that moves the rig has been asked for in the state it is
// in. An axis that has been let go of and rests moves no more.
func (d *driving) mayMove(entered int64, jogs bool) bool {
	return entered == d.moves || entered == d.holding && (jogs || d.pressed > d.released)
}

// away is how long the page has not been heard of.
func (d *driving) away() (time.Duration, *run) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return time.Since(d.heard), d.run
}

// of returns the run of the page that holds a claim, and notes that it was
// heard of.
func (d *driving) of(claim string) (*run, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.claim == "" || !d.claim.opens(claim) {
		return nil, refused(http.StatusLocked, "this page does not drive the rig")
	}
	d.heard = time.Now()
	return d.run, nil
}

type beatQuestion struct {
	Claim string `json:"claim"`
}

// beat notes that the page is there.
func (s *Server) beat(q beatQuestion) (done, error) {
	_, err := s.driving.of(q.Claim)
	return done{OK: true}, err
}

// doQuestion is what the operator asks for.
type doQuestion struct {
	Claim   string  `json:"claim"`
	Request string  `json:"request"`
	Axis    int     `json:"axis"`
	By      float64 `json:"by"`    // of a jog: mm or degrees
	Speed   float64 `json:"speed"` // of a hold: mm/s or degrees/s, below 0 towards lesser places
	Press   int64   `json:"press"` // of a hold or a release: which press of a key or a button
	Frame   float64 `json:"frame"` // of a pose: captured
	Name    string  `json:"name"`  // of a mark: a place of the axis
	Text    string  `json:"text"`  // the shot as it is now; "" for as it was
}

// requests are the page's names for what an operator asks for. An abort is a
// stop of what is already stopping.
var requests = map[string]drive.RequestKind{
	"stop": drive.Stop, "abort": drive.Stop, "finish": drive.Finish, "resume": drive.Resume, "restart": drive.Restart, "go": drive.Go,
	"confirm": drive.Confirm, "decline": drive.Decline, "home": drive.Home, "here": drive.Here, "unlock": drive.Unlock,
	"jog": drive.Jog, "jog-hold": drive.JogHold, "jog-release": drive.JogRelease, "mark": drive.Mark, "pose": drive.Pose, "walk": drive.WalkThrough,
	"taken": drive.Taken, "quit": drive.Quit,
}

// ofAxis are those that are of an axis, ofPlan those that are of the plan, and so of the
// shot as it is now.
var (
	ofAxis = []drive.RequestKind{drive.Jog, drive.JogHold, drive.Mark}
	ofPlan = []drive.RequestKind{drive.Go, drive.Pose, drive.WalkThrough}
)

// moving are those after which a rig at rest begins to move.
var moving = []drive.RequestKind{drive.Home, drive.Jog, drive.Go, drive.Pose, drive.Confirm, drive.Resume, drive.Restart, drive.Taken}

// farthestJog is as far as a jog goes at once, in mm or degrees: a slip of the
// finger must not send a carriage across the room.
const farthestJog = 100

func (s *desk) do(q doQuestion) (*done, error) {
	run, err := s.driving.of(q.Claim)
	if err != nil {
		return nil, err
	}
	kind, known := requests[q.Request]
	axes := len(run.first.Axes)
	switch {
	case !known:
		return nil, refused(http.StatusBadRequest, "there is no request of that name")
	case slices.Contains(ofAxis, kind) && (q.Axis < 0 || q.Axis >= axes):
		return nil, refused(http.StatusBadRequest, "there is no such axis")
	case kind == drive.Jog && !(q.By >= -farthestJog && q.By <= farthestJog):
		return nil, refused(http.StatusBadRequest, "that is too far to jog at once")
	case kind == drive.JogHold && q.Speed == 0:
		return nil, refused(http.StatusBadRequest, "a hold needs a speed")
	case q.Request == "jog-release":
		s.release(run, q.Press)
		return &done{OK: true}, nil
	case q.Request == "stop" || q.Request == "quit":
		return &done{OK: s.halt(run, kind)}, nil
	case q.Request != "abort" && !s.takesNow(q.Request):
		return nil, refused(http.StatusConflict, "the rig does not take that now")
	case slices.Contains(ofPlan, kind) && q.Text != "":
		// The shot as it is now: where that moves the rig otherwise than the run does, it
		// is planned anew, and the operator is asked again.
		p, err := s.drivable(q.Text)
		if err != nil {
			return nil, err
		}
		if run.Anew(p) {
			return &done{OK: true, Anew: true}, nil
		}
	}
	return s.asked(run, kind, q)
}

// asked passes on what the rig takes now.
func (s *desk) asked(run *run, kind drive.RequestKind, q doQuestion) (*done, error) {
	r := drive.Request{Kind: kind, Axis: q.Axis, By: q.By, Frame: q.Frame}
	switch kind {
	case drive.WalkThrough:
		s.walk(run)
		return &done{OK: true}, nil
	case drive.JogHold:
		r.Speed, r.For = q.Speed, holdFor
		return &done{OK: s.hold(run, r, q.Press)}, nil
	case drive.Mark:
		if err := s.marks(q, run.first.Axes[q.Axis].Name); err != nil {
			return nil, refused(http.StatusBadRequest, err.Error())
		}
		r.Name = markName(q.Name, q.Axis)
	}
	s.pass(run, r)
	return &done{OK: true}, nil
}

// takesNow tells whether the state takes a request. One that comes too early
// must not wait for its state: nobody would have read the cautions.
func (s *Server) takesNow(request string) bool {
	x, _ := s.stage.at()
	return slices.Contains(taken[x], request)
}

// pass passes a request on that is no stop; after it there may be one again.
func (s *Server) pass(run *run, r drive.Request) {
	s.driving.mu.Lock()
	defer s.driving.mu.Unlock()
	s.driving.halt = 0
	if slices.Contains(moving, r.Kind) {
		_, s.driving.moves = s.stage.at()
	}
	run.Ask(r)
}

// walk has the plan walked through, which begins once that is worked out.
func (s *Server) walk(run *run) {
	s.driving.mu.Lock()
	defer s.driving.mu.Unlock()
	s.driving.halt = 0
	_, s.driving.moves = s.stage.at()
	run.Walk()
}

// leave ends a run under way and waits until the rig rests. One that is slowing
// down already is let come to rest first.
func (s *Server) leave() {
	s.driving.mu.Lock()
	run, over := s.driving.run, s.driving.over
	s.driving.mu.Unlock()
	if run == nil {
		return
	}
	t := time.NewTicker(lookFor)
	defer t.Stop()
	for !s.halt(run, drive.Quit) {
		select {
		case <-over:
			return
		case <-t.C:
		}
	}
	<-over
}

// Abort stops a rig at once that is already slowing down because of Close;
// position is then lost.
func (s *Server) Abort() {
	if _, run := s.driving.away(); run != nil {
		run.Ask(drive.Request{Kind: drive.Quit})
	}
}
