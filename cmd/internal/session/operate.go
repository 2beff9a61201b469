package session

import (
	"errors"
	"fmt"
	"sync"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
	"seamrail/motion/controller/program"
)

// Operate runs a shot on a rig for the operator of a terminal, take after take, until
// the operator leaves or something is wrong. With release, called once before the port
// is opened, it takes the signals of the process over.
func Operate(o Options, j *job.Job, release func()) (err error) {
	s := newSession(&o, j)
	if err := s.openLog(); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.closeLog()) }()
	take, err := s.lines()
	if err != nil {
		return err
	}
	if err := s.begins(); err != nil {
		return err
	}
	release()
	return s.connected(take)
}

// connected drives over an open port, with the terminal and the signals taken
// over, and gives all three back.
func (s *session) connected(source func() drive.Source) (err error) {
	gone := sync.OnceFunc(s.end) // told twice, by a signal and by a read: that is no second stop
	deaf := func(err error) { s.silenced(err); gone() }
	release := host.Signals(s.interrupt, s.end, gone)
	defer release()
	defer host.Listeners(s.o.Terminal.Files, deaf)()
	queue := console.NewQueue(s.out, deaf)
	defer queue.Close()
	s.out = queue
	world, err := s.o.Connect(s.job.Rig, s.hurried, s.asks)
	if err != nil {
		return exit.Failed("%w", err)
	}
	defer func() { err = errors.Join(err, world.Close()) }()
	tty := s.o.Terminal.Keys
	if tty != nil {
		s.out = console.Raw{W: s.out}
	}
	s.Panel = s.panel(s.o.Terminal.width(), tty != nil)
	if tty != nil {
		k, err := host.NewKeyboard(tty, s.press, gone)
		if err != nil {
			return fmt.Errorf("the terminal's keys: %w", err)
		}
		defer func() { _ = k.Close() }()
		defer s.tellStrokes()()
	}
	s.guard(world, host.First)
	return s.ended(s.run(s.pressed(world), s.options(source)))
}

// program returns what makes the lines of a take. A step player needs none, nor does a take
// frame by frame, whose moves are single lines.
func (s *session) program() (func() drive.Source, error) {
	if s.job.Rig.Controller.Kind.PlaysSteps() || s.job.Schedule != nil {
		return nil, nil
	}
	t := s.job.Trajectory
	if err := program.Check(t); err != nil {
		return nil, err
	}
	chosen, err := s.job.Blocks()
	if err != nil {
		return nil, err
	}
	return func() drive.Source { return program.New(t, chosen.Take) }, nil
}

// press is called with each read of the keyboard.
func (s *session) press(b []byte) {
	for _, k := range console.Strokes(b) {
		if console.Stops(k.Key) && k.Event != console.LetGo { // before a word is said
			offer(s.hurried, drive.Request{Kind: drive.Stop})
			s.Stroke(k)
			continue
		}
		r, ok := s.Stroke(k)
		if ok && s.plans(r.Kind) && s.changed.Load() {
			s.anew.Store(true)
			r.Kind = drive.Quit
		}
		switch {
		case !ok:
		case r.Kind == drive.Pose:
			s.pose(r.Name)
		case r.Kind == drive.WalkThrough:
			s.walk()
		default:
			offer(s.way(r.Kind), r)
		}
	}
}

// way is where a request of a kind goes: what cannot wait before all else, and what
// follows on it the same way, so that nobody holds an axis that was let go of.
func (s *session) way(kind drive.RequestKind) chan drive.Request {
	switch kind {
	case drive.Stop, drive.Quit, drive.JogHold, drive.JogRelease:
		return s.hurried
	}
	return s.asks
}

// offer asks, unless more is waiting than the engine can take. What stops the rig, or lets
// go of it, takes the place of what has waited longest: keys that repeat while the engine is
// held up must not push it out.
func offer(to chan drive.Request, r drive.Request) {
	for {
		select {
		case to <- r:
			return
		default:
		}
		if r.Kind != drive.Stop && r.Kind != drive.Quit && r.Kind != drive.JogRelease {
			return
		}
		select {
		case was := <-to:
			if was.Kind == drive.Stop || was.Kind == drive.Quit { // which lets go as well
				r = was
			}
		default:
		}
	}
}

// interrupt is Ctrl-C where it is not a key. With nobody there to ask what
// next, it is also the end.
func (s *session) interrupt() {
	if s.o.Terminal.Keys == nil {
		s.end()
		return
	}
	offer(s.hurried, drive.Request{Kind: drive.Stop})
}

// silenced is told that nothing can be printed any more, and why.
func (s *session) silenced(err error) { s.why.CompareAndSwap(nil, &err) }

// end is told by a signal, or by a terminal that is gone; told again, it
// aborts.
func (s *session) end() {
	s.told.Store(true)
	offer(s.hurried, drive.Request{Kind: drive.Quit})
}
