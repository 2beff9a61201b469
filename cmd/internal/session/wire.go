package session

import (
	"errors"
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
}

// keeping is the world of a rig with all of it kept.
func (o *Options) keeping(w World, r rig.Rig) *recorded {
	return &recorded{wirelog.NewRecorder(w), w, o.Wire, wirelog.Head{
		Virtual: o.Virtual, Kind: r.Controller.Kind.String(), Baud: r.Controller.Baud, System: runtime.GOOS + "/" + runtime.GOARCH,
		Program: version(), Words: o.Wire.Words, Files: o.Wire.Files,
	}}
}

// version is that of the program.
func version() string {
	if b, ok := debug.ReadBuildInfo(); ok {
		return b.Main.Path + " " + b.Main.Version
	}
	return "seamrail"
}

// begins notes how the engine is told to run.
func (r *recorded) begins(o drive.Options) {
	r.head.Options = wirelog.Options{
		Settle: o.Settle, Takes: o.Takes, Rounds: o.Rounds, CountIn: o.CountIn, Confirmed: o.Confirmed, Unlock: o.Unlock, Group: o.Group != "",
	}
}

// ends notes how a run ended. Another one may follow on the same wire, by a plan that the
// files do not have: what it does is not kept.
func (r *recorded) ends(end drive.End) {
	if r.head.Ended == "" {
		r.head.Ended = end.String()
		r.Over()
	}
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

// kept drives once, and has what keeps the wire know how.
func kept(w drive.World, o drive.Options) drive.Result {
	k, ok := w.(*recorded)
	if ok && k.head.Ended == "" {
		k.begins(o)
	}
	r := drive.Run(w, o)
	if ok {
		k.ends(r.End)
	}
	return r
}

// Play runs a shot on a record in place of a rig. Nothing is logged and nobody is asked:
// whatever the operator asked for is in the record. The error is the first thing that the
// run did otherwise, or left over.
func Play(o Options, j *job.Job, rec wirelog.Record) (drive.Result, error) {
	o.Virtual, o.Unlogged = rec.Virtual, true
	o.Terminal = Terminal{Out: io.Discard}
	s := newSession(&o, j)
	source, err := s.program()
	if err != nil {
		return drive.Result{}, err
	}
	s.Panel = s.panel(0, false)
	told, opt := rec.Options, s.options(source)
	opt.Settle, opt.Takes, opt.Rounds, opt.CountIn = told.Settle, told.Takes, told.Rounds, told.CountIn
	opt.Confirmed, opt.Unlock = told.Confirmed, told.Unlock
	if told.Group {
		opt.Group = "a group"
	}
	p := wirelog.NewPlayback(rec, time.Unix(0, 0))
	r := drive.Run(p, opt)
	return r, p.Done()
}
