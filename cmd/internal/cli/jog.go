package cli

import (
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive"
	"seamrail/motion/base/list"
	"seamrail/motion/plan"
	"seamrail/motion/spec/filekind"
)

// JogOptions is what the jog command was asked.
type JogOptions struct {
	Streams command.Streams
	File    string   // of a shot or a rig
	Hold    []string // what to hold, where there are no keys
	Level   int      // of the speeds
	Keep    string   // the file to keep what goes over the wire in
	session.Options
}

// NewCmdJog returns the jog command. A nil run means the real one.
func NewCmdJog(s command.Streams, run func(*JogOptions) error) *cobra.Command {
	o := &JogOptions{Streams: s}
	c := command.OfFile(&cobra.Command{
		Use:   "jog [SHOT|RIG]",
		Short: "Move a rig by hand: hold a key and an axis goes",
		Long: `Move a rig by hand over a serial port: hold an arrow key and the chosen axis goes,
slowly at first; let go and it rests. A rig file is enough, a shot is not needed.

The cautions come first: no key moves anything before the word that the way is
clear. No axis goes beyond its travel, and one goes at a time. Where it is not
known where an axis stands it goes slowly, and 5 mm or degrees a press.

A terminal that tells when a key is let go of stops it within 20 ms of that; so
does a terminal that is closed. Of one that does not tell a held key is known by
its repeats: the axis goes on for 0.12 s after the last, and a tap is that short.
How soon it rests then is the controller's: what it has cut ahead, and braking. How
far that is at most stands beside the speed, before a key is pressed; it is worked
out from the rig file, so try yours slowly first.

` + console.NoEmergencyStop + `

Without keys, --hold says what to hold and for how long, in turn.`,
		Example: `  seamrail jog bench-rail.toml --port /dev/ttyUSB0
  seamrail jog --virtual
  seamrail jog bench-rail.toml --virtual --fast --confirmed --hold "rail + 1s" --hold "table - 0.5s"`,
	}, "one shot or rig file", &o.File, o, run, jogRun)
	f := c.Flags()
	f.StringVar(&o.Port, "port", "", "serial `PORT` of the controller; see \"seamrail ports\"")
	f.BoolVar(&o.Virtual, "virtual", false, "move a rig made of software")
	f.BoolVar(&o.Fast, "fast", false, "let the virtual rig's time run as fast as it can")
	f.BoolVar(&o.Home, "home", false, "home the rig at once")
	f.BoolVar(&o.Unlock, "unlock", false, "clear an alarm that is there at the beginning, its cause being known and gone")
	f.BoolVar(&o.Confirmed, "confirmed", false, "the cautions are known and the way is clear: do not ask")
	f.StringArrayVar(&o.Hold, "hold", nil, "hold an axis for a while, without keys: `\"AXIS + TIME\"`, or - for the other way")
	f.IntVar(&o.Level, "speed", 2, "begin with speed `N`, from 1, a creep, to 4, a tenth of the axis' greatest")
	f.StringVar(&o.Keep, "keep-wire", "", keepWireHelp)
	c.MarkFlagsMutuallyExclusive("port", "virtual")
	_ = c.MarkFlagFilename("port")
	return c
}

// speeds is how many there are.
var speeds = len(drive.JogSpeeds(plan.Axis{}.Rig))

// check refuses flags that make no sense together.
func (o *JogOptions) check() error {
	keys := o.keyed()
	switch {
	case o.Port == "" && !o.Virtual:
		return exit.Misused("needs the rig's port, as in --port /dev/ttyUSB0, or --virtual; \"seamrail ports\" lists the ports")
	case o.File == "" && !o.Virtual:
		return exit.Misused("a rig at a port is moved by its own file: name it, or a shot that names it, as in \"seamrail jog bench-rail.toml --port /dev/ttyUSB0\"")
	case o.File == textfile.Stdin:
		return exit.Misused("standard input is where keys are pressed; name the file")
	case o.Fast && !o.Virtual:
		return exit.Misused("--fast is for --virtual: a rig of metal has a time of its own")
	case o.Level < 1 || o.Level > speeds:
		return exit.Misused("--speed must be from 1 to %d", speeds)
	case !keys && len(o.Hold) == 0:
		return exit.Misused("no keys here to hold; --hold says what to hold, as in --hold \"rail + 1s\"")
	case !keys && !o.Confirmed:
		return exit.Misused("no keys here to confirm the cautions with; --confirmed says that they are known and the way is clear")
	}
	return nil
}

// keyed tells whether keys move the rig.
func (o *JogOptions) keyed() bool {
	return !o.Fast && len(o.Hold) == 0 && keysOf(o.Streams) != nil
}

func jogRun(o *JogOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	j, err := o.Job()
	if err != nil {
		return err
	}
	if o.Presses, err = presses(o.Hold, o.Level, j); err != nil {
		return err
	}
	o.Options.Level = o.Level - 1
	if o.Keep != "" {
		if o.Wire, err = keepJog(o, j); err != nil {
			return err
		}
	}
	o.Open = o.Streams.OpenPort
	o.Terminal = session.Terminal{Out: o.Streams.Out, Files: o.Streams.Files()}
	if o.keyed() {
		o.Terminal.Keys = keysOf(o.Streams)
		o.Terminal.Width = func() int { return screenOf(o.Streams) }
	}
	return session.Operate(o.Options, j, o.Streams.Release)
}

// Job reads a shot, with its rig, or a rig alone, to be moved by hand.
func (o *JogOptions) Job() (*job.Job, error) {
	o.ByHand = true
	if o.File != "" {
		data, err := textfile.Read(o.File)
		if err != nil {
			return nil, err
		}
		if filekind.Of(data) != filekind.Rig {
			o.Source.Shot = o.File
			j, err := o.Source.Job(nil)
			if err == nil {
				err = job.Driven(j.Rig)
			}
			return j, err
		}
	}
	o.Unlogged = true
	return job.AtRest(o.File)
}

// longestPress is as long as an axis is held without keys.
const longestPress = time.Minute

// presses reads what is to be held: "rail + 1s".
func presses(texts []string, level int, j *job.Job) (out []session.Press, err error) {
	names := list.Map(j.Plan.Axes, func(a plan.Axis) string { return a.Rig.Name })
	for _, text := range texts {
		words := strings.Fields(text)
		if len(words) > 3 { // "1 s"
			words = append(words[:2], strings.Join(words[2:], ""))
		}
		if len(words) != 3 || words[1] != "+" && words[1] != "-" {
			return nil, exit.Misused("--hold %q must be an axis, + or -, and a time, as in \"%s + 1s\"", text, names[0])
		}
		axis := slices.Index(names, words[0])
		lasts, wrong := time.ParseDuration(words[2])
		switch {
		case axis < 0:
			return nil, exit.Misused("--hold %q: there is no axis %s; there is %s", text, words[0], strings.Join(names, ", "))
		case wrong != nil || lasts <= 0 || lasts > longestPress:
			return nil, exit.Misused("--hold %q: the time must be above 0 and at most %.0f s, with its unit, as in 1s or 250ms", text, longestPress.Seconds())
		}
		speed := drive.JogSpeeds(j.Plan.Axes[axis].Rig)[level-1]
		if words[1] == "-" {
			speed = -speed
		}
		out = append(out, session.Press{Axis: axis, Speed: speed, For: lasts})
	}
	return out, nil
}
