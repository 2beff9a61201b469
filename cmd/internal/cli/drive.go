package cli

import (
	"os"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
)

// DriveOptions is what the drive command was asked.
type DriveOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	session.Options
	KeepWire string // the file to keep what goes over the wire in
}

// wantsShot is said to whoever names none: what moves a rig of metal is never a
// guess.
const wantsShot = "a rig at a port moves by a shot that is named, and by no other: name the shot, as in \"seamrail drive lantern.toml --port /dev/ttyUSB0\"; " +
	"\"seamrail new\" writes one to start from, and --virtual drives the built-in one"

// NewCmdDrive returns the drive command. A nil run means the real one.
func NewCmdDrive(s command.Streams, run func(*DriveOptions) error) *cobra.Command {
	o := &DriveOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "drive [SHOT]",
		Short: "Run a shot on a rig, take after take",
		Long: `Run a shot on a rig over a serial port, take after take: greet the controller,
compare its settings with the rig file, find out where the rig stands, go to the
start, show the cautions and wait for the word that the way is clear, count in,
run the rounds, come back.

On a terminal keys say what happens next, and the space bar or Ctrl-C stops:
the rig slows down and rests. Once more aborts, and position is lost. Without
a terminal, flags have to say it all, and one take is run. Before a take has
asked, the first key that moves a rig of metal asks for the same word, once.

` + console.NoEmergencyStop + `

Passes that must match, such as light, product and a clean plate, are a group:
every take of it is named with --group and --pass, is run by the plan of the first or
refused, and begins at one place, to which each axis comes from one side.
"seamrail takes --group" tells how well they match.

Hands that the shot has cues for are counted to their moments, with a bell.

At a port the shot has to be named; only a rig made of software drives the
built-in one.

It ends with 0 where the last take was run to its end, with 130 where it was
stopped, and with 3 where it was aborted and position is lost.

A shot that is taken frame by frame rests for each frame, and may be stopped and
gone on with at any. What was exposed is in the log, frame by frame: after a
power cut --go-on homes or asks where the rig stands, and goes on from there.

Every take is logged beside the shot, in a file that "seamrail takes" lists.
With --virtual the rig is one made of software, as the rig file describes it;
--fast then runs it as fast as the computer can, and its clock with it.`,
		Example: `  seamrail drive lantern.toml --port /dev/ttyUSB0
  seamrail drive lantern.toml --virtual
  seamrail drive lantern.toml --virtual --fast --confirmed --takes 3
  seamrail drive lantern.toml --virtual --group plates --pass "clean plate"`,
	}, &o.Shot, o, run, driveRun)
	o.register(c)
	return c
}

func (o *DriveOptions) register(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.Port, "port", "", "serial `PORT` of the controller; see \"seamrail ports\"")
	f.BoolVar(&o.Virtual, "virtual", false, "drive a rig made of software")
	f.BoolVar(&o.Fast, "fast", false, "let the virtual rig's time run as fast as it can")
	f.IntVar(&o.Takes, "takes", 0, "run `N` takes and end; 0 asks for each, on a terminal")
	f.BoolVar(&o.Endless, "until-stopped", false, "run round after round until f or a stop")
	f.BoolVar(&o.Home, "home", false, "home the rig at once")
	f.BoolVar(&o.AtStart, "at-start", false, "every axis has been brought to the start of the take by hand; clears no alarm")
	f.BoolVar(&o.Unlock, "unlock", false, "clear an alarm that is there at the beginning, its cause being known and gone")
	f.BoolVar(&o.Confirmed, "confirmed", false, "the cautions are known and the way is clear: do not ask")
	f.IntVar(&o.CountIn, "count-in", job.CountIn, "count `N` seconds in")
	f.Int64Var(&o.FromFrame, "from-frame", 0, "of a shot taken frame by frame: begin with frame `N` of the take, counted from 0")
	f.BoolVar(&o.GoOn, "go-on", false, "of a shot taken frame by frame: go on after the last frame that the log has")
	f.BoolVar(&o.KeepRate, "keep-rate", false, "measure the controller's rate error over many rounds, and keep it in the rig file")
	f.StringVar(&o.Group, "group", "", "the take is one of a `GROUP` that must match: one plan, one start, each axis brought to it from one side")
	f.StringVar(&o.Pass, "pass", "", "what of the group it is, a `NAME` such as \"clean plate\"")
	f.StringVar(&o.Operator, "operator", "", "`NAME` of who drives, for the log; left out, who is logged in on this computer; \"nobody\" for none")
	f.StringVar(&o.KeepWire, "keep-wire", "", keepWireHelp)
	c.MarkFlagsMutuallyExclusive("port", "virtual")
	c.MarkFlagsMutuallyExclusive("home", "at-start")
	c.MarkFlagsRequiredTogether("group", "pass")
	c.MarkFlagsMutuallyExclusive("from-frame", "go-on")
	_ = c.MarkFlagFilename("port")
}

// check refuses flags that make no sense together.
func (o *DriveOptions) check() error {
	switch {
	case o.Port == "" && !o.Virtual:
		return exit.Misused("needs the rig's port, as in --port /dev/ttyUSB0, or --virtual; \"seamrail ports\" lists the ports")
	case o.Shot.Shot == "" && !o.Virtual:
		return exit.Misused("%s", wantsShot)
	case o.Fast && !o.Virtual:
		return exit.Misused("--fast is for --virtual: a rig of metal has a time of its own")
	case o.KeepRate && o.Virtual:
		return exit.Misused("--keep-rate measures a controller, and a virtual rig has none")
	case o.Takes < 0:
		return exit.Misused("--takes must be 0 or more")
	case command.TooLong(o.CountIn) != nil:
		return command.TooLong(o.CountIn)
	}
	return nil
}

// attended refuses a run that says less by its flags than keys would be asked for.
func (o *DriveOptions) attended() error {
	keys := o.keys() != nil
	switch {
	case o.Endless && !keys:
		return exit.Misused("--until-stopped needs keys, on which to say that it is enough")
	case !keys && !o.Confirmed:
		return exit.Misused("no keys here to confirm the cautions with; --confirmed says that they are known and the way is clear")
	case !keys && !o.Virtual && !o.Home && !o.AtStart:
		return exit.Misused("no keys here to say where the rig stands; add --home or --at-start")
	}
	return nil
}

func driveRun(o *DriveOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	o.Source = o.Shot.Source()
	j, err := o.Source.Job(o.Streams.In)
	if err != nil {
		return err
	}
	if err := job.Driven(j.Rig); err != nil {
		return err
	}
	if err := o.attended(); err != nil {
		return err
	}
	if err := j.Unable(); err != nil {
		return exit.Limited("%w, and nothing moves\nsee \"seamrail plan\" for what would fit", err)
	}
	if f := j.Schedule; f != nil && f.ByFrame().Waits && o.keys() == nil && !o.Virtual {
		return exit.Misused("no keys here to say that a frame is taken; wire the release to an output, or give the hand a time, as in hand = \"8 s\" under [frame-by-frame]")
	}
	if o.KeepWire != "" {
		if o.Wire, err = keepWire(o.Streams, o.KeepWire, o.Shot.Words(planned), o.Source, j); err != nil {
			return err
		}
	}
	o.Open = o.Streams.OpenPort
	o.Terminal = session.Terminal{Out: o.Streams.Out, Files: o.Streams.Files(), Keys: o.keys(), Width: o.screen}
	return session.Operate(o.Options, j, o.Streams.Release)
}

// keys returns the terminal that keys are pressed on, or nil. A rig whose time
// flies cannot wait for anyone.
func (o *DriveOptions) keys() *os.File {
	if o.Fast {
		return nil
	}
	return keysOf(o.Streams)
}

// keysOf is the terminal that keys are pressed on, or nil.
func keysOf(s command.Streams) *os.File {
	f, ok := s.In.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return nil
	}
	return f
}

// screen returns the width of the terminal that is printed on, or 0.
func (o *DriveOptions) screen() int {
	if o.keys() == nil {
		return 0
	}
	return screenOf(o.Streams)
}

// screenOf is the width of the terminal that is printed on, or 0.
func screenOf(s command.Streams) int {
	f, ok := s.Out.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return 0
	}
	width, _, err := term.GetSize(int(f.Fd()))
	if err != nil || width <= 0 {
		return 80 // what a terminal has that does not tell
	}
	return width
}
