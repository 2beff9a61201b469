package session

import (
	"errors"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"time"

	"seamrail/cmd/internal/job"
	"seamrail/export/drive"
	"seamrail/export/drive/wirelog"
	"seamrail/motion/spec/rig"
)

// Wire says that all that goes over the wire is kept.
type Wire struct {
	Words []string       // of the command that plans the shot from Files
	Files []wirelog.File // that the run is made from
	// Save is called once the wire has been let go of, with what writes the record.
	Save func(write func(io.Writer) error) error
}

// recorded is a world that keeps all that happens in it.
type recorded struct {
	*wirelog.Recorder
	world World
	wire  *Wire
	head  wirelog.Head
	plan  string // that the files are of
}

// keeping is the world of a rig with all of it kept.
func (o *Options) keeping(w World, r rig.Rig) *recorded {
	c := r.Controller
	head := WireHead(o.Virtual, c.Kind.String(), c.Baud, o.Wire.Words...)
	head.Files = o.Wire.Files
	return &recorded{Recorder: wirelog.NewRecorder(w), world: w, wire: o.Wire, head: head}
}

// WireHead is the head of a record that is made here.
func WireHead(virtual bool, kind string, baud int, words ...string) wirelog.Head {
	return wirelog.Head{Virtual: virtual, Kind: kind, Baud: baud, System: runtime.GOOS + "/" + runtime.GOARCH, Program: version(), Words: words}
}

// version is that of the program.
func version() string {
	if b, ok := debug.ReadBuildInfo(); ok {
		return b.Main.Path + " " + b.Main.Version
	}
	return "seamrail"
}

// run notes how the engine is told to run, drives, and notes how that ended. Where the shot
// is planned anew on the way the record has no more: its files are of the first plan.
func (r *recorded) run(o drive.Options) drive.Result {
	if r.plan == "" {
		r.plan = o.Plan
	}
	if r.plan != o.Plan {
		r.Over()
	}
	if !r.Done() {
		r.head.Runs = append(r.head.Runs, wirelog.Run{
			Settle: o.Settle, Takes: o.Takes, Rounds: o.Rounds, CountIn: o.CountIn, Confirmed: o.Confirmed, Unlock: o.Unlock, Group: o.Group != "",
		})
	}
	result := drive.Run(r, o)
	if !r.Done() {
		r.head.Runs[len(r.head.Runs)-1].Ended = result.End.String()
	}
	return result
}

// Close lets the wire go, and saves the record.
func (r *recorded) Close() error {
	err := r.world.Close()
	return errors.Join(err, r.wire.Save(func(w io.Writer) error { return r.Save(w, r.head) }))
}

// bare is the world without what keeps it.
func bare(w drive.World) drive.World {
	if r, ok := w.(*recorded); ok {
		return r.world
	}
	return w
}

// kept drives once, and keeps the wire where that is wanted.
func kept(w drive.World, o drive.Options) drive.Result {
	if r, ok := w.(*recorded); ok {
		return r.run(o)
	}
	return drive.Run(w, o)
}

// Play runs a shot on a record in place of a rig. Nothing is logged and nobody is asked:
// whatever the operator asked for is in the record. The error is the first thing that a
// run did otherwise, or left over.
func Play(o Options, j *job.Job, rec wirelog.Record) error {
	o.Virtual, o.Unlogged = rec.Virtual, true
	o.Terminal = Terminal{Out: io.Discard}
	s := newSession(&o, j)
	source, err := s.lines()
	if err != nil {
		return err
	}
	s.Panel = s.panel(0, false)
	p, at := wirelog.NewPlayback(rec, time.Unix(0, 0)), []float64(nil)
	for _, told := range rec.Runs {
		opt := s.options(source)
		opt.Settle, opt.Takes, opt.Rounds, opt.CountIn = told.Settle, told.Takes, told.Rounds, told.CountIn
		opt.Confirmed, opt.Unlock, opt.At = told.Confirmed, told.Unlock, at
		if told.Group {
			opt.Group = "a group"
		}
		r := drive.Run(p, opt)
		if got := r.End.String(); got != told.Ended {
			return errors.Join(fmt.Errorf("it ended as %s (%s), and in the record as %s", got, r.Detail, told.Ended), p.Done())
		}
		at = r.At
	}
	return p.Done()
}
