// Package connect is the connect command: it asks what is at a port, and writes a rig
// file from the answer.
package connect

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/acquaint"
	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report/connectreport"
	"seamrail/motion/base/plain"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// Options is what the connect command was asked.
type Options struct {
	Streams command.Streams
	Of      acquaint.Options
	Like    string // file of the rig that the one made of software is like
	Rig     string // file to compare with
	Out     string
	Wire    string // file to keep what went over the wire in
	Told    command.Told
}

// NewCmdConnect returns the connect command. A nil run means the real one.
func NewCmdConnect(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := &cobra.Command{
		Use:   "connect",
		Short: "Ask what is at a port, and begin a rig file from the answer",
		Long: `Ask whatever is at a port what it is: at the usual speeds, the commonest first,
with nothing that makes anything move. What answers is told by its kind, read as far as
it tells of itself, and with -o becomes a whole rig file, in which each line says how it
is known: read, guessed, or to be measured, which is a question that only a ruler, a
scale or a person can answer. Every plan on that rig names what is left of these.

Opening a port starts many boards anew: a carriage on an incline may fall meanwhile.
Where nobody answers, what was seen says what to do: who has the port, how to be let in,
which speeds were tried. With --rig the answer is compared with a rig file that is there.`,
		Example: `  seamrail connect --port /dev/ttyUSB0 -o bench.toml
  seamrail connect --port /dev/ttyUSB0 --rig bench.toml
  seamrail connect --virtual -o bench.toml
  seamrail connect --virtual --mishap silent`,
		Args: command.Nothing,
		RunE: func(*cobra.Command, []string) error { return command.Or(run, connectRun)(o) },
	}
	f := c.Flags()
	f.StringVar(&o.Of.Port, "port", "", "the `PORT` to ask at; see \"seamrail ports\"")
	f.BoolVar(&o.Of.Virtual, "virtual", false, "ask a rig made of software, to see how that goes")
	f.StringVar(&o.Like, "like", "", "with --virtual: the rig made of software is that of `FILE`")
	f.StringVar(&o.Of.Mishap, "mishap", "", "with --virtual: what is amiss with it, a `WORD`: "+strings.Join(acquaint.Mishaps(), ", "))
	f.IntVar(&o.Of.Baud, "baud", 0, "try this speed alone, in `BITS` a second; 0 tries the usual ones")
	f.StringVar(&o.Rig, "rig", "", "tell what is not as the rig `FILE` says")
	f.StringVarP(&o.Out, "output", "o", "", "write the rig file to `FILE`, which must not be there")
	f.StringVar(&o.Wire, "keep-wire", "", "keep all that goes over the wire at the speed that is answered, in `FILE`, a new one; see \"seamrail help driving\"")
	o.Told.Register(c, connectreport.Schema)
	c.MarkFlagsMutuallyExclusive("port", "virtual")
	_ = c.MarkFlagFilename("port")
	_ = c.MarkFlagFilename("like", "toml")
	_ = c.MarkFlagFilename("rig", "toml")
	_ = c.RegisterFlagCompletionFunc("mishap", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return acquaint.Mishaps(), cobra.ShellCompDirectiveNoFileComp
	})
	return c
}

// check refuses flags that make no sense.
func (o *Options) check() error {
	switch {
	case o.Of.Port == "" && !o.Of.Virtual:
		return exit.Misused("name the port with --port, or --virtual for a rig made of software; \"seamrail ports\" lists the ports")
	case !o.Of.Virtual && (o.Like != "" || o.Of.Mishap != ""):
		return exit.Misused("--like and --mishap are for --virtual: a rig of metal is what it is")
	case o.Of.Mishap != "" && !slices.Contains(acquaint.Mishaps(), o.Of.Mishap):
		return exit.Misused("--mishap %q must be one of %s", o.Of.Mishap, strings.Join(acquaint.Mishaps(), ", "))
	case o.Of.Baud < 0:
		return exit.Misused("--baud must be above 0, or 0 for the usual speeds")
	case o.Out == command.Stdout:
		return exit.Misused("a rig file goes to a file: name one, such as -o bench.toml")
	}
	return o.absent()
}

// absent makes sure that no file is written over.
func (o *Options) absent() error {
	if o.Out == "" {
		return nil
	}
	if _, err := os.Lstat(o.Out); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is already there and nothing was written; name another file, or compare with it: --rig %s", plain.Text(o.Out), plain.Text(o.Out))
	}
	return nil
}

func connectRun(o *Options) error {
	if err := o.check(); err != nil {
		return err
	}
	there, data, err := o.compared()
	if err != nil {
		return err
	}
	if o.Like != "" {
		like, _, err := understood(o.Like)
		if err != nil {
			return err
		}
		o.Of.Like = &like
	}
	o.Of.Open = o.Streams.OpenPort
	if o.Wire != "" {
		if o.Of.Keep, err = command.KeepWire(o.Streams, o.Streams.Err, o.Wire); err != nil {
			return err
		}
	}
	b, err := acquaint.Meet(o.Of, func(words string) { fmt.Fprintln(o.Streams.Err, plain.Line(words)) })
	if err != nil {
		return err
	}
	text := rigfile.File(b)
	d := connectreport.Data{Board: b, Lines: rig.Marked(o.Out, text), File: o.Out, Against: o.Rig}
	if o.Rig != "" {
		d.Differs = rigfile.Differs(b, there, data)
	}
	if o.Out != "" {
		if err := o.absent(); err != nil {
			return err
		}
		if err := command.Deliver(o.Streams, o.Out, atomicfile.Bytes(text)); err != nil {
			return err
		}
	}
	return o.Told.Tell(o.Streams, d)
}

// compared is the rig file to compare with.
func (o *Options) compared() (r rig.Rig, data []byte, err error) {
	if o.Rig == "" {
		return r, nil, nil
	}
	if r, data, err = understood(o.Rig); err == nil {
		err = job.Driven(r)
	}
	return r, data, err
}

// understood reads a rig file.
func understood(name string) (rig.Rig, []byte, error) {
	data, err := textfile.Read(name)
	if err != nil {
		return rig.Rig{}, nil, err
	}
	r, _, err := rig.Decode(name, data)
	return r, data, textfile.Rather(err, name, data, filekind.Rig)
}
