// Package session is one run on a rig, from its port to its log: what the engine
// observes, the panel in front of it, and the shot behind it, which may be planned anew
// on the way. A terminal operates it, or whoever steers it otherwise.
package session

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"sync/atomic"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/export/report/planreport"
	"seamrail/motion/spec/rig"
)

// Options says which rig to drive, and how.
type Options struct {
	Source   job.Source // of the shot, for its log, its marks and to plan it anew
	Unlogged bool       // keep no log: there is no shot, as of job.AtRest, that it would lie beside

	Port    string
	Virtual bool // a rig made of software
	Fast    bool // whose time goes as fast as it can
	Open    func(name string, baud int) (host.Port, error)

	Takes     int
	Endless   bool
	Home      bool
	AtStart   bool
	Unlock    bool
	Confirmed bool
	CountIn   int
	KeepRate  bool
	Wire      *Wire  // keeps all that goes over the wire; nil for nothing
	Group     string // of takes that must match; "" for none
	Pass      string // what of the group the takes are
	Operator  string // who drives; "" for who is logged in, logbook.Nobody for none
	FromFrame int64  // of a shot that is taken frame by frame: the first take begins with it
	GoOn      bool   // and goes on where the last one in the log left off

	// ByHand moves a rig by hand and runs no take; Presses is what is held then where
	// there are no keys, one after the other.
	ByHand  bool
	Presses []Press
	Level   int // of the speeds at which keys move an axis, to begin with, from 0

	Terminal Terminal
}

// Terminal is what the operator sees and presses. The zero value is a plain page and no
// keys.
type Terminal struct {
	Out   io.Writer
	Files []*os.File // those that are printed to, where they are files
	Keys  *os.File   // the terminal that keys are pressed on, or nil
	Width func() int // of the screen, 0 for a plain page; nil is that too
}

func (t Terminal) width() int {
	if t.Width == nil {
		return 0
	}
	return t.Width()
}

// session is one run: it is what the engine observes, the panel in front of it and what
// is behind.
type session struct {
	*console.Panel
	o      *Options
	job    *job.Job
	out    io.Writer
	log    *logbook.Log
	before takelog.Log
	driven string // who drives, for the log

	hurried, asks chan drive.Request
	told          atomic.Bool            // a signal said to end
	why           atomic.Pointer[error]  // or that nothing can be printed did
	changed       atomic.Bool            // the shot has been written to since it was planned
	text          atomic.Pointer[[]byte] // the shot as it was planned, or as marks have made it; nil = not known
	anew          atomic.Bool            // and is to be planned anew
	passes        []drive.Pass
	aside         func(func()) // does what no key waits for
	hands         *hands       // what is held where there are no keys, or nil
	from          int64        // the frame that the first take begins with

	// Of a run that is steered without a terminal.
	called func(drive.Beat)        // told the beats for hands, in place of the panel
	next   atomic.Pointer[job.Job] // what to go on with, in place of the file
	now    atomic.Pointer[job.Job] // what is run, for other goroutines than the engine's
	runs   atomic.Value            // what it runs: a runOf
}

// runOf tells a run of a plan from another: by its motion and its rounds.
func runOf(j *job.Job) string { return fmt.Sprintf("%s x %d", j.Plan.Hash(), j.Plan.Rounds) }

// requestsHeld is how many requests wait for the engine; more are dropped, as
// keys are that are pressed faster than the rig can follow.
const requestsHeld = 16

func newSession(o *Options, j *job.Job) *session {
	s := &session{
		o: o, job: j, out: o.Terminal.Out,
		hurried: make(chan drive.Request, requestsHeld), asks: make(chan drive.Request, requestsHeld),
		aside: deadman.Go,
	}
	s.takes(j)
	return s
}

// takes goes over to a job.
func (s *session) takes(j *job.Job) {
	s.job = j
	s.now.Store(j)
	s.runs.Store(runOf(j))
	s.text.Store(s.o.onDisk())
}

// openLog reads the log of the shot and opens it to go on with.
func (s *session) openLog() (err error) {
	if err := cmp.Or(s.o.grouped(s.job), s.o.ends(s.job)); err != nil {
		return err
	}
	if s.driven, err = logbook.Operator(s.o.Operator, s.o.Virtual); err == nil && !s.o.Unlogged {
		s.before, s.log, err = logbook.Open(logbook.NameOf(s.o.Source.Shot))
	}
	if err != nil || s.o.Unlogged {
		return err
	}
	if s.from, err = s.firstFrame(); err != nil {
		return errors.Join(err, s.log.Close())
	}
	return nil
}

// closeLog closes the log once all marks are in it.
func (s *session) closeLog() error {
	if s.Panel != nil {
		s.Written()
	}
	return s.log.Close()
}

func (s *session) options(source func() drive.Source) drive.Options {
	o := drive.Options{
		Observer: s, Log: s.log, Virtual: s.o.Virtual, Driver: s.driven, Group: s.o.Group, Pass: s.o.Pass, Takes: s.o.Takes, FirstTake: s.firstTake(),
		Settle: s.settling(), Confirmed: s.o.Confirmed, CountIn: s.o.CountIn, Unlock: s.o.Unlock || s.unattended(),
	}
	if s.o.Terminal.Keys == nil && !s.o.ByHand {
		o.Takes, o.Nobody = max(o.Takes, 1), true
	}
	s.shooting(&o, source)
	return o
}

// shooting sets what the options have of the job.
func (s *session) shooting(o *drive.Options, source func() drive.Source) {
	p := s.job.Plan
	o.Trajectory, o.Shot, o.Plan = s.job.Trajectory, p.ShotFile, p.Hash()
	o.Source, o.Foretold, o.Way = source, foretold(s.job.Expected()), s.job.Way
	o.Rounds = int64(p.Rounds)
	if s.o.Endless && s.job.Schedule == nil {
		o.Rounds = 0
	}
	s.cue(o)
	s.byFrame(o)
}

// firstTake is the number of the next take. Virtual ones have their own, so that the
// slate's go on.
func (s *session) firstTake() int {
	if s.o.Virtual {
		return s.before.NextVirtual()
	}
	return s.before.Next()
}

// unattended tells whether nobody has to look why a rig is in an alarm: one made
// of software, of which nothing has been said.
func (s *session) unattended() bool { return s.o.Virtual && !s.o.AtStart && !s.o.Home }

// settling is how position becomes known. Nobody has to look after a virtual
// rig.
func (s *session) settling() drive.Settling {
	switch {
	case s.o.Home:
		return drive.ByHoming
	case s.o.AtStart:
		return drive.ByHand
	case !s.o.Virtual:
		return drive.AskOperator
	case homes(s.job):
		return drive.ByHoming
	}
	return drive.ByHand
}

// homes tells whether homing is all that it takes to know where the axes of the
// plan stand: each is homed, or endless, and not all of them are endless.
func homes(j *job.Job) (any bool) {
	for _, a := range j.Plan.Axes {
		switch {
		case j.Rig.Controller.HomeLineOf(a.Rig) != "":
			any = true
		case !a.Rig.Endless:
			return false
		}
	}
	return any
}

// panel is what the operator sees and presses, on a screen of a width, 0 for a
// plain page.
func (s *session) panel(width int, keys bool) *console.Panel {
	o := console.Options{
		Out: s.out, Live: width > 0, Keys: keys, Width: width,
		Cautions: planreport.Cautions(s.job.Plan, s.job.Schedule), Virtual: s.o.Virtual,
	}
	if !s.o.Virtual && !s.o.Unlogged {
		o.MarkTake = s.log.Mark
	}
	for _, a := range s.job.Plan.Axes {
		o.Axes = append(o.Axes, console.Axis{
			Name: a.Rig.Name, Unit: a.Rig.Unit(), Speeds: drive.JogSpeeds(a.Rig), Rests: drive.JogRests(s.job.Rig.Controller, a.Rig), Min: a.Rig.Min, Max: a.Rig.Max, Endless: a.Rig.Endless,
		})
	}
	o.Mark, o.Places = s.mark, s.places
	s.byHand(&o)
	return console.New(o)
}

// Passed keeps the pass besides showing it.
func (s *session) Passed(p drive.Pass) {
	s.keeps(p)
	s.Panel.Passed(p)
}

// keeps keeps a pass that was a take.
func (s *session) keeps(p drive.Pass) {
	if !p.Walk {
		s.passes = append(s.passes, p)
	}
}

// World is what the engine waits on, and what has to be closed after it.
type World interface {
	drive.World
	io.Closer
}

// Connect connects to the rig that the options name, and keeps what goes over the wire
// where that is wanted.
func (o *Options) Connect(r rig.Rig, hurried, asks <-chan drive.Request) (World, error) {
	w, err := o.connect(r, hurried, asks)
	if err != nil || o.Wire == nil {
		return w, err
	}
	return o.keeping(w, r), nil
}

func (o *Options) connect(r rig.Rig, hurried, asks <-chan drive.Request) (World, error) {
	switch {
	case o.Fast:
		return host.NewFast(virtualRig(r), hurried, asks), nil
	case o.Virtual:
		return host.New(virtual.NewPort(virtualRig(r), 1), r.Controller.Baud, hurried, asks), nil
	}
	open := o.Open
	if open == nil {
		open = host.Open
	}
	port, err := open(o.Port, r.Controller.Baud)
	if err != nil {
		return nil, err
	}
	return host.New(port, r.Controller.Baud, hurried, asks), nil
}

// guard has the controller told to hold if this program dies. A rig made of software
// is worth no urgency.
func (s *session) guard(w World, u host.Urgency) {
	if s.o.Virtual {
		u = host.Ordinary
	}
	if w, ok := bare(w).(*host.World); ok {
		w.Guard(drive.LastWordsFor(s.job.Rig), u, s.say)
	}
}

// say tells the operator what the engine does not.
func (s *session) say(text string) { fmt.Fprintln(s.out, console.Folded(text, s.o.Terminal.width())) }

// virtualRig is the rig as its file describes it. One whose greeting the file
// does not know says something all the same, as boards do.
func virtualRig(r rig.Rig) *virtual.Rig {
	o := virtual.Of(r)
	if o.Greeting == "" {
		o.Greeting = "Virtual rig, ready"
	}
	return virtual.New(o)
}
