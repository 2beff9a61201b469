package session

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
	"seamrail/motion/base/plain"
)

// Audience is told what happens in a run.
type Audience interface {
	drive.Observer
	// Called is told each beat of a count for a hand.
	Called(b drive.Beat)
}

// Steered is a run without a terminal: requests come by calls, and what there is to see
// goes to an audience.
type Steered struct {
	s     *session
	to    Audience
	world World
	take  func() drive.Source
}

// Steer connects to a rig. Run then drives it, and lets it go.
func Steer(o Options, j *job.Job, to Audience) (*Steered, error) {
	if err := job.Driven(j.Rig); err != nil {
		return nil, err
	}
	o.Terminal = Terminal{Out: sayer{to}}
	s := newSession(&o, j)
	s.called = to.Called
	s.Panel = s.panel(0, false)
	s.next.Store(j) // and not what the file may have become
	d := &Steered{s: s, to: to}
	if err := s.openLog(); err != nil {
		return nil, err
	}
	var err error
	if d.take, err = s.program(); err == nil {
		d.world, err = s.o.Connect(j.Rig, s.hurried, s.asks)
	}
	if err != nil {
		return nil, errors.Join(err, s.log.Close())
	}
	return d, nil
}

// sayer says what a session prints.
type sayer struct{ to Audience }

func (s sayer) Write(p []byte) (int, error) {
	if text := strings.TrimSpace(string(p)); text != "" {
		s.to.Say(text)
	}
	return len(p), nil
}

// observer is what the engine observes: the audience sees it, and the session keeps
// the last pass.
type observer struct {
	Audience
	s *session
}

// Jogged tells an audience where an axis is that is moved by hand, if it wants to know.
func (o observer) Jogged(j drive.Jogged) {
	if w, ok := o.Audience.(drive.JogWatcher); ok {
		w.Jogged(j)
	}
}

// Passed keeps the pass besides showing it.
func (o observer) Passed(p drive.Pass) {
	o.s.keeps(p)
	o.Audience.Passed(p)
}

// LastTime says what the log tells of the last run on a rig of metal, or of one of software
// what metal waits for; "" for nothing.
func (d *Steered) LastTime() string { return strings.TrimSpace(d.s.lastTime()) }

// Run drives until the operator leaves or something is wrong, and says how it ended.
func (d *Steered) Run() (how string, err error) {
	defer func() { err = errors.Join(err, d.world.Close(), d.s.closeLog()) }()
	d.s.guard(d.world, host.Ahead)
	o := d.s.options(d.take)
	o.Observer = observer{d.to, d.s}
	if !d.s.o.Fast {
		o.Takes, o.Settle, o.Nobody = 0, drive.AskOperator, false
	}
	r := d.s.run(d.world, o)
	if err := r.Err(); err != nil {
		return "", fmt.Errorf("%w; where the rig stands is not known: home it, or place it by hand, before it moves again", err)
	}
	words := "where the rig stands is known"
	if !r.Known {
		words = "where the rig stands is not known"
	}
	return fmt.Sprintf("%s, %s; %s", r.End, plain.Count(r.Takes, "take"), words), nil
}

// Ask passes a request on, and does not wait. A stop of a rig that rests leaves the run,
// which then goes on where it stands.
func (d *Steered) Ask(r drive.Request) {
	switch r.Kind {
	case drive.Stop:
		d.s.anew.Store(true)
		offer(d.s.hurried, r)
	case drive.Quit:
		d.s.anew.Store(false)
		offer(d.s.hurried, r)
	default:
		offer(d.s.way(r.Kind), r)
	}
}

// Anew goes over to another job where that moves the rig otherwise, which it tells: the
// run is then planned anew, and what was to be asked of it is to be asked again.
func (d *Steered) Anew(j *job.Job) bool {
	if d.s.runs.Load() == runOf(j) {
		return false
	}
	d.s.next.Store(j)
	d.s.anew.Store(true)
	offer(d.s.hurried, drive.Request{Kind: drive.Quit})
	return true
}

// Walk goes through the plan slowly, once that is worked out.
func (d *Steered) Walk() { d.s.walk() }
