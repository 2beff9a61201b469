package cli

import (
	"errors"
	"fmt"
	"io"
	"sync"
	"sync/atomic"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/host"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/report"
)

// session is one run of the drive command: it is what the engine observes, the
// panel in front of it and what is behind.
type session struct {
	*console.Panel
	o      *DriveOptions
	job    job
	out    io.Writer
	log    *sharedLog
	before takelog.Log

	hurried, asks chan drive.Request
	told          atomic.Bool           // a signal said to end
	why           atomic.Pointer[error] // or that nothing can be printed did
	changed       atomic.Bool           // the shot has been written to since it was planned
	anew          atomic.Bool           // and is to be planned anew
	passes        []drive.Pass

	// Of a run that a page steers.
	called func(drive.Beat)           // told the beats for hands, in place of the panel
	next   atomic.Pointer[understood] // what to plan anew, in place of the file
	runs   atomic.Value               // what it runs: a runOf
}

// runOf tells a run of a plan from another: by its motion and its rounds.
func runOf(j job) string { return fmt.Sprintf("%s x %d", j.plan.Hash(), j.plan.Rounds) }

// requestsHeld is how many requests wait for the engine; more are dropped, as
// keys are that are pressed faster than the rig can follow.
const requestsHeld = 16

func newSession(o *DriveOptions, j job) *session {
	s := &session{
		o: o, job: j, out: o.Streams.Out,
		hurried: make(chan drive.Request, requestsHeld), asks: make(chan drive.Request, requestsHeld),
	}
	s.runs.Store(runOf(j))
	return s
}

func driveRun(o *DriveOptions) (err error) {
	j, err := o.Shot.prepare(o.Streams.In)
	if err != nil {
		return err
	}
	if err := j.unable(); err != nil {
		return &LimitError{err.Error() + ", and nothing moves\nsee \"seamrail plan\" for what would fit"}
	}
	s := newSession(o, j)
	if err := s.openLog(); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.log.Close()) }()
	take, err := s.program()
	if err != nil {
		return err
	}
	if err := s.head(); err != nil {
		return err
	}
	return s.connected(take)
}

// connected drives over an open port, with the terminal and the signals taken
// over, and gives all three back.
func (s *session) connected(source func() drive.Source) (err error) {
	s.o.Streams.release()
	gone := sync.OnceFunc(s.end) // told twice, by a signal and by a read: that is no second stop
	deaf := func(err error) { s.silenced(err); gone() }
	release := host.Signals(s.interrupt, s.end, gone)
	defer release()
	defer host.Listeners(s.o.Streams.files(), deaf)()
	queue := console.NewQueue(s.out, deaf)
	defer queue.Close()
	s.out = queue
	world, err := s.o.open(s.job.rig, s.hurried, s.asks)
	if err != nil {
		return &RigError{err}
	}
	defer func() { err = errors.Join(err, world.Close()) }()
	tty := s.o.keys()
	if tty != nil {
		s.out = console.Raw{W: s.out}
	}
	s.Panel = s.panel(s.o.screen(), tty != nil)
	if tty != nil {
		k, err := host.NewKeyboard(tty, s.press, gone)
		if err != nil {
			return fmt.Errorf("the terminal's keys: %w", err)
		}
		defer func() { _ = k.Close() }()
	}
	s.guard(world, host.First)
	return s.ended(s.run(world, s.options(source)))
}

func (s *session) options(source func() drive.Source) drive.Options {
	o := drive.Options{
		Trajectory: s.job.trajectory, Source: source, Observer: s, Log: s.log, Virtual: s.o.Virtual,
		Rounds: int64(s.job.plan.Rounds), Takes: s.o.Takes, FirstTake: s.firstTake(),
		Settle: s.settling(), Confirmed: s.o.Confirmed, CountIn: s.o.CountIn, Unlock: s.o.Unlock || s.unattended(),
	}
	if s.o.Endless {
		o.Rounds = 0
	}
	if s.o.keys() == nil {
		o.Takes = max(o.Takes, 1)
	}
	o.Foretold = s.foretold()
	s.cue(&o)
	return o
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
	case s.job.homes():
		return drive.ByHoming
	}
	return drive.ByHand
}

// homes tells whether homing is all that it takes to know where the axes of the
// plan stand: each is homed, or endless, and not all of them are endless.
func (j job) homes() (any bool) {
	for _, a := range j.plan.Axes {
		switch {
		case j.rig.Controller.HomeLineOf(a.Rig) != "":
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
		Cautions: report.Cautions(s.job.plan), Virtual: s.o.Virtual,
	}
	if !s.o.Virtual {
		o.Keep = s.keep
	}
	for _, a := range s.job.plan.Axes {
		o.Axes = append(o.Axes, console.Axis{Name: a.Rig.Name, Unit: a.Rig.Unit()})
	}
	o.Mark = s.mark
	return console.New(o)
}

// Passed keeps the pass besides showing it.
func (s *session) Passed(p drive.Pass) {
	s.passes = append(s.passes, p)
	s.Panel.Passed(p)
}
