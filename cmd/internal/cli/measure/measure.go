// Package measure is the command that measures a rig.
package measure

import (
	"errors"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/measuring"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive/wirelog"
	"seamrail/export/report/measurereport"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
)

// Options is what the measure command was asked.
type Options struct {
	Streams             command.Streams
	Rig, Axis, What     string
	Port, Truth, Camera string
	Record, Sweep, Keep string
	Output              string
	Pixels, Shot        string
	Virtual, Write      bool
	Plain               bool
	Answers             []string
	Told                command.Told
}

// NewCmdMeasure returns the measure command. A nil run means the real one.
func NewCmdMeasure(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := &cobra.Command{
		Use:   "measure RIG [AXIS] [WHAT]",
		Short: "Measure a rig, question by question, into its rig file",
		Long: `Measure a rig, question by question, each with a picture, into lines of its rig
file: steps, turn, backlash, speed, acceleration, swing or shutter, of one axis or
of each. The lines are shown before they are written.

With --port the rig moves, by takes that are planned and checked like any other,
and no further or faster than you allow in the questions. Without it nothing
moves: you answer with what you have read. It stops at the first doubt.

The swing is found from a phone's record: of some stops, or of a sweep over
frequencies, which shows each resonance; -o draws that. Where it goes to and fro,
what swings may go many times as far: nothing on it may be loose.

Every answer can be given beforehand, as --answer KEY=VALUE with the key that the
question shows, or as lines of standard input.`,
		Example: `  seamrail measure bench-rail.toml --port /dev/ttyUSB0
  seamrail measure bench-rail.toml rail backlash --virtual
  seamrail measure bench-rail.toml rail steps --answer "told=300 mm"
  seamrail measure bench-rail.toml rail swing --port /dev/ttyUSB0 --answer how=sweep -o swing.png`,
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return exit.Misused("needs a rig file, such as bench-rail.toml")
			case len(args) > mostArgs:
				return exit.Misused("takes a rig file, an axis and what to measure; %q is too much", args[mostArgs])
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			args = append(args, "", "")
			o.Rig, o.Axis, o.What = args[0], args[1], args[2]
			return command.Or(run, measureRun)(o)
		},
		ValidArgsFunction: complete,
	}
	o.register(c)
	return c
}

const mostArgs = 3

func (o *Options) register(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.Port, "port", "", "serial `PORT` of the controller; see \"seamrail ports\"")
	f.BoolVar(&o.Virtual, "virtual", false, "measure a rig made of software, which reads itself off; its time flies")
	f.StringVar(&o.Truth, "truth", "", "let the machine of the virtual rig be as the rig `FILE` says: its steps, play and limits")
	f.StringVar(&o.Camera, "camera", "", "`FILE` of the camera, whose shutter is timed")
	f.StringVar(&o.Record, "record", "", "a phone's `FILE` of acceleration, for the swing")
	f.StringVar(&o.Keep, "keep-wire", "", "keep all that goes over the wire, with its times, in `FILE`, a new one; see \"seamrail help driving\"")
	f.StringVar(&o.Sweep, "sweep", "", "`FILE` of when a sweep did what: written as it is made, read with --record where no rig moves")
	f.StringVarP(&o.Output, "output", "o", "", "draw what a sweep found to `FILE` too, ending in .png, .svg or .pdf")
	f.StringVar(&o.Shot, "shot", "", "tell errors in pixels of `SHOT` too")
	f.StringVar(&o.Pixels, "pixels-per-mm", "", "`N` pixels of the picture to a mm of the product")
	f.StringArrayVar(&o.Answers, "answer", nil, "answer a question beforehand, as `KEY=VALUE`; again for the next")
	f.BoolVar(&o.Write, "write", false, "write the lines without asking")
	f.BoolVar(&o.Plain, "plain", plainScreen(os.Getenv), "pictures of plain ASCII")
	f.Lookup("plain").DefValue = "false"
	o.Told.Register(c, measurereport.Schema)
	c.MarkFlagsMutuallyExclusive("port", "virtual")
	_ = c.MarkFlagFilename("port")
	c.MarkFlagsMutuallyExclusive("shot", "pixels-per-mm")
	for _, name := range []string{"truth", "camera", "shot"} {
		_ = c.MarkFlagFilename(name, "toml")
	}
	for _, name := range []string{"record", "sweep"} {
		_ = c.MarkFlagFilename(name, "csv", "tsv", "txt")
	}
}

// plainScreen tells whether the locale says that a terminal has no Unicode: the first of
// these that is set counts (POSIX.1-2017, 8.2).
func plainScreen(get func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToUpper(get(name)); v != "" {
			return !strings.Contains(v, "UTF-8") && !strings.Contains(v, "UTF8")
		}
	}
	return false
}

// complete completes the axis and what is measured.
func complete(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
	case 1:
		if r, err := readRig(args[0]); err == nil {
			return r.Names(), cobra.ShellCompDirectiveNoFileComp
		}
	case 2:
		return measuring.Whats(), cobra.ShellCompDirectiveNoFileComp
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

func readRig(name string) (rig.Rig, error) {
	data, err := textfile.Read(name)
	if err != nil {
		return rig.Rig{}, err
	}
	r, _, err := rig.Decode(name, data)
	return r, textfile.Rather(err, name, data, filekind.Rig)
}

func measureRun(o *Options) error {
	kind, err := command.OptionalKind(o.Output)
	if err != nil {
		return err
	}
	w, err := o.walk()
	if err != nil {
		return err
	}
	found, err := w.Run(o.Axis, o.What, o.moving)
	d := measurereport.Data{Rig: o.Rig}
	for _, f := range found {
		d.Found = append(d.Found, f.Facts())
	}
	if (err == nil || len(found) > 0) && (o.Told.JSON || o.What == "") {
		err = errors.Join(err, o.Told.Tell(o.Streams, d))
	}
	if err == nil && kind != "" {
		err = o.draw(kind, found)
	}
	for _, f := range found {
		if err == nil && len(f.Doubts) > 0 {
			err = exit.Failed("%s %s is in doubt: %s", f.Axis, f.What, f.Doubts[0])
		}
	}
	return err
}

// walk is what is asked, and of which rig.
func (o *Options) walk() (*measuring.Walk, error) {
	switch {
	case o.Truth != "" && !o.Virtual:
		return nil, exit.Misused("--truth is for --virtual: a rig of metal is what it is")
	case o.Keep != "" && o.Port == "" && !o.Virtual:
		return nil, exit.Misused("--keep-wire is for --port or --virtual: without one nothing goes over a wire")
	case o.What == "shutter" && o.Camera == "":
		return nil, exit.Misused("the shutter is the camera's: name its file with --camera")
	}
	out := o.Streams.Out
	if o.Told.JSON {
		out = o.Streams.Err
	}
	ask, err := measuring.NewAsker(out, o.Streams.In, o.Answers, o.Plain)
	if err != nil {
		return nil, err
	}
	ask.Echo, ask.Width = !o.Streams.Asks, o.Streams.Columns(0)
	w := &measuring.Walk{File: o.Rig, Ask: ask, Keys: o.Streams.Asks, Write: o.Write, Camera: o.Camera, Record: o.Record, Sweep: o.Sweep}
	if w.PixelsPerMM, err = o.pixels(); err != nil {
		return nil, err
	}
	if o.Port != "" || o.Virtual {
		w.Port = &measuring.Port{Name: o.Port, Virtual: o.Virtual, Open: o.Streams.OpenPort}
	}
	if o.Keep != "" {
		if w.Port.Keep, err = command.KeepWire(o.Streams, out, o.Keep); err != nil {
			return nil, err
		}
	}
	if o.Truth != "" {
		r, err := readRig(o.Truth)
		if err != nil {
			return nil, err
		}
		w.Port.Truth = &r
	}
	return w, nil
}

// pixels is the scale of the picture at the product, 0 where nobody says it.
func (o *Options) pixels() (float64, error) {
	switch {
	case o.Shot != "":
		j, err := job.Source{Shot: o.Shot, Rig: o.Rig}.Job(nil)
		if err != nil {
			return 0, err
		}
		return lensview.PixelsPerMM(j.Shot, j.Rig, j.Trajectory), nil
	case o.Pixels == "":
		return 0, nil
	}
	q, err := unit.ParseAs(o.Pixels, unit.Number)
	if err != nil || q.Value.Sign() <= 0 {
		return 0, exit.Misused("--pixels-per-mm %q must be a number above 0", o.Pixels)
	}
	return q.Float(), nil
}

// Play goes a walk again on a record in place of a rig, which is as the files of the record
// say. The error is the first thing that was done otherwise, or left over.
func (o *Options) Play(rec wirelog.Record) error {
	o.Streams = command.Streams{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard}
	o.Virtual, o.Write = rec.Virtual, true
	w, err := o.walk()
	if err != nil {
		return err
	}
	p := wirelog.NewPlayback(rec, time.Unix(0, 0))
	w.Port = &measuring.Port{Virtual: rec.Virtual, Played: p}
	_, err = w.Run(o.Axis, o.What, func(func()) func() { return func() {} })
	return errors.Join(p.Done(), err)
}

// moving is while the rig may move: whatever would end the program makes it rest first.
func (o *Options) moving(stop func()) (release func()) {
	o.Streams.Release()
	unsignal := host.Signals(stop, stop, stop)
	unlisten := host.Listeners(o.Streams.Files(), func(error) { stop() })
	return func() {
		unlisten()
		unsignal()
	}
}
