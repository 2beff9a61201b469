package cli

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/motion/base/plain"
	"seamrail/motion/cue"
)

// CuesOptions is what the cues command was asked.
type CuesOptions struct {
	Streams     command.Streams
	Shot        command.ShotFlags
	Output      string
	CountIn     int
	IgnoreTakes bool
}

// NewCmdCues returns the cues command. A nil run means the real one.
func NewCmdCues(s command.Streams, run func(*CuesOptions) error) *cobra.Command {
	o := &CuesOptions{Streams: s}
	if run == nil {
		run = cuesRun
	}
	c := &cobra.Command{
		Use:   "cues [SHOT]",
		Short: "Say when each hand has to move: sheet, click track, captions",
		Long: `Say when each hand has to move, so that what it drops, pours or strikes shows
at its frame: the [[cue]] tables of the shot, in real time, less the fall, the
lead of a pour, the hand's reaction and how late it usually is.

The ending of the file's name says what is written: .txt a sheet, .wav a click
track with a low tone that warns and a high one that says now, .vtt captions
that a player shows. All begin with the first beat of the count-in: set the rig
off on its long tone. "seamrail drive" rings and counts the same by itself.

How late a hand is comes from the takes that "seamrail takes --late" has marked.`,
		Example: `  seamrail cues lantern.toml
  seamrail cues lantern.toml -o cues.wav
  seamrail cues lantern.toml --rounds 5 -o cues.vtt`,
		Args: command.AtMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = command.First(args)
			return run(o)
		},
	}
	o.Shot.Register(c)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", command.Stdout, "write to `FILE`, ending in .txt, .wav or .vtt; - prints the sheet")
	f.IntVar(&o.CountIn, "count-in", job.CountIn, "count `N` seconds in, or more where a cue needs it")
	f.BoolVar(&o.IgnoreTakes, "ignore-takes", false, "do not make up for how late a hand was in earlier takes")
	return c
}

func cuesRun(o *CuesOptions) error {
	write, err := cueWriter(o.Output)
	if err != nil {
		return err
	}
	if err := command.TooLong(o.CountIn); err != nil {
		return err
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return err
	}
	if err := format.Cued(j); err != nil {
		return err
	}
	sheet := j.Cues
	if !o.IgnoreTakes {
		if sheet, err = logbook.Habitual(sheet, o.Shot.Shot); err != nil {
			return err
		}
		if err := o.warn(j); err != nil {
			return err
		}
	}
	take := sheet.ForTake(int64(j.Plan.Rounds), int64(o.CountIn))
	if err := command.Deliver(o.Streams, o.Output, func(w io.Writer) error { return write(w, j, take) }); err != nil {
		return err
	}
	if o.Output != command.Stdout {
		if _, err := fmt.Fprintf(o.Streams.Out, "Wrote %s.\n", plain.Text(o.Output)); err != nil {
			return err
		}
	}
	return j.Trouble()
}

// warn says what the log of the shot tells of hands that it does not have.
func (o *CuesOptions) warn(j *job.Job) error {
	words, err := logbook.Strange(j.Cues, o.Shot.Shot)
	if err != nil {
		return err
	}
	for _, text := range words {
		if _, err := fmt.Fprintln(o.Streams.Err, text); err != nil {
			return err
		}
	}
	return nil
}

// cueWriter returns what writes the cues of a take in the form that a file's
// name asks for.
func cueWriter(name string) (func(io.Writer, *job.Job, cue.Take) error, error) {
	ending := strings.ToLower(filepath.Ext(name))
	if name == command.Stdout {
		ending = ".txt"
	}
	write := format.CueWriter(ending)
	if write == nil {
		return nil, exit.Misused("%s must end in .txt, .wav or .vtt", name)
	}
	return write, nil
}
