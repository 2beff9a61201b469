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
	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/export/words"
	"seamrail/motion/rig"
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
	told          atomic.Bool // a signal said to end
	changed       atomic.Bool // the shot has been written to since it was planned
	anew          atomic.Bool // and is to be planned anew
	last          drive.Pass
}

// requestsHeld is how many requests wait for the engine; more are dropped, as
// keys are that are pressed faster than the rig can follow.
const requestsHeld = 16

func newSession(o *DriveOptions, j job) *session {
	return &session{
		o: o, job: j, out: o.Streams.Out,
		hurried: make(chan drive.Request, requestsHeld), asks: make(chan drive.Request, requestsHeld),
	}
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
	release := host.Signals(s.interrupt, s.end, gone)
	defer release()
	world, err := s.o.open(s.job.rig, s.hurried, s.asks)
	if err != nil {
		return &RigError{err}
	}
	defer func() { err = errors.Join(err, world.Close()) }()
	if tty := s.o.keys(); tty != nil {
		s.out = console.Raw{W: s.out}
		k, err := host.NewKeyboard(tty, s.press, gone)
		if err != nil {
			return fmt.Errorf("the terminal's keys: %w", err)
		}
		defer func() { _ = k.Close() }()
	}
	s.Panel = s.panel(s.o.screen(), s.o.keys() != nil)
	return s.ended(s.run(world, s.options(source)))
}

func (s *session) options(source func() drive.Source) drive.Options {
	o := drive.Options{
		Trajectory: s.job.trajectory, Source: source, Observer: s, Log: s.log,
		Rounds: int64(s.job.plan.Rounds), Takes: s.o.Takes, FirstTake: s.before.Next(),
		Settle: s.settling(), Confirmed: s.o.Confirmed, CountIn: s.o.CountIn, Unlock: s.o.Unlock,
	}
	if s.o.Endless {
		o.Rounds = 0
	}
	if s.o.keys() == nil {
		o.Takes = max(o.Takes, 1)
	}
	return o
}

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
	case s.job.rig.Controller.HomeLine != "":
		return drive.ByHoming
	}
	return drive.ByHand
}

// panel is what the operator sees and presses, on a screen of a width, 0 for a
// plain page.
func (s *session) panel(width int, keys bool) *console.Panel {
	o := console.Options{
		Out: s.out, Live: width > 0, Keys: keys, Width: width,
		Cautions: report.Cautions(s.job.plan), Keep: s.keep,
	}
	for _, a := range s.job.plan.Axes {
		o.Axes = append(o.Axes, console.Axis{Name: a.Rig.Name, Unit: a.Rig.Unit()})
	}
	o.Mark = s.mark
	return console.New(o)
}

// program returns what makes the lines of a take. A step player needs none.
func (s *session) program() (func() drive.Source, error) {
	if s.job.rig.Controller.Kind == rig.StepPlayer {
		return nil, nil
	}
	t := s.job.trajectory
	if err := words.Check(t); err != nil {
		return nil, err
	}
	chosen, err := s.job.blocks()
	if err != nil {
		return nil, err
	}
	return func() drive.Source { return lineSource{words.New(t, chosen.Take)} }, nil
}

// lineSource is a program as the engine reads it.
type lineSource struct{ *words.Program }

// Next returns the next line.
func (l lineSource) Next() (drive.Line, bool) {
	line, ok := l.Program.Next()
	return drive.Line(line), ok
}

// Passed keeps the pass besides showing it.
func (s *session) Passed(p drive.Pass) {
	s.last = p
	s.Panel.Passed(p)
}

// press is called with each read of the keyboard.
func (s *session) press(b []byte) {
	for _, k := range console.Keys(b) {
		r, ok := s.Press(k)
		if ok && r.Kind == drive.Go && s.changed.Load() {
			s.anew.Store(true)
			r.Kind = drive.Quit
		}
		switch {
		case !ok:
		case r.Kind == drive.Stop || r.Kind == drive.Quit:
			offer(s.hurried, r)
		default:
			offer(s.asks, r)
		}
	}
}

func offer(to chan<- drive.Request, r drive.Request) {
	select {
	case to <- r:
	default:
	}
}

// interrupt is Ctrl-C where it is not a key. With nobody there to ask what
// next, it is also the end.
func (s *session) interrupt() {
	if s.o.keys() == nil {
		s.end()
		return
	}
	offer(s.hurried, drive.Request{Kind: drive.Stop})
}

// end is told by a signal, or by a terminal that is gone; told again, it
// aborts.
func (s *session) end() {
	s.told.Store(true)
	offer(s.hurried, drive.Request{Kind: drive.Quit})
}

// head says what is about to be done, and what to mind.
func (s *session) head() error {
	p, where := s.job.plan, "at "+s.o.Port
	if s.o.Virtual {
		where = "made of software"
	}
	rounds := counted(p.Rounds, "round")
	if s.o.Endless {
		rounds = "rounds until stopped"
	}
	text := fmt.Sprintf("%s, on %s %s: %s of %.3f s, plan %s.\n%s\n", header.Clean(p.Title), header.Clean(p.Rig.Name), where,
		rounds, s.job.trajectory.Period().Float(), p.Hash(), console.NoEmergencyStop)
	if s.o.Confirmed {
		for _, c := range report.Cautions(p) {
			text += "  ! " + header.Clean(c) + "\n"
		}
	}
	_, err := io.WriteString(s.out, console.Folded(text+s.lastTime(), s.o.screen()))
	return err
}

// lastTime says what the log tells of the last run.
func (s *session) lastTime() string {
	if k, cut := s.before.LastCut(); cut {
		return fmt.Sprintf("Take %d was cut short: where the rig stands is not known from then.\n", k.Number)
	}
	if len(s.before.Takes) > 0 && !s.before.Known {
		return "The last run ended without knowing where the rig stands.\n"
	}
	return ""
}

// ended says how the run ended, as an error where it is one.
func (s *session) ended(r drive.Result) error {
	if err := r.Err(); err != nil {
		return &RigError{fmt.Errorf("%w\nwhere the rig stands is not known: home it, or place it by hand, before it moves again", err)}
	}
	words := "Where the rig stands is known."
	if !r.Known {
		words = "Where the rig stands is not known."
	}
	if _, err := fmt.Fprintf(s.out, "Ended: %s, %s. %s\n", r.End, counted(r.Takes, "take"), words); err != nil {
		return err
	}
	if s.told.Load() {
		return &StoppedError{}
	}
	if s.o.KeepRate {
		return s.keepRate(s.last)
	}
	return nil
}

func (s *session) openLog() error {
	name := logName(s.o.Shot.Shot)
	before, _, err := readLog(name)
	if err != nil {
		return err
	}
	f, w, err := appendLog(name)
	if err != nil {
		return err
	}
	s.before, s.log = before, &sharedLog{file: f, writer: w}
	return nil
}

func (s *session) keep(take int) error {
	return s.log.Add(takelog.Record{Kind: takelog.Keeper, Take: take, Keep: true, Time: now()})
}
