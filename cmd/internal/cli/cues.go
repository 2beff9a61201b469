package cli

import (
	"cmp"
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
	"seamrail/export/cue/cuesheet"
	"seamrail/motion/cue"
)

// CuesOptions is what the cues command was asked.
type CuesOptions struct {
	Streams     command.Streams
	Shot        command.ShotFlags
	Output      string
	CountIn     int
	IgnoreTakes bool
	Told        command.Told
}

// NewCmdCues returns the cues command. A nil run means the real one.
func NewCmdCues(s command.Streams, run func(*CuesOptions) error) *cobra.Command {
	o := &CuesOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
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
  seamrail cues lantern.toml --rounds 5 -o cues.vtt
  seamrail cues lantern.toml --json`,
	}, &o.Shot, o, run, cuesRun)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", command.Stdout, "write to `FILE`, ending in .txt, .wav or .vtt; - prints the sheet")
	f.IntVar(&o.CountIn, "count-in", job.CountIn, "count `N` seconds in, or more where a cue needs it")
	f.BoolVar(&o.IgnoreTakes, "ignore-takes", false, "do not make up for how late a hand was in earlier takes")
	o.Told.Register(c, cuesheet.Schema)
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
	fill := func(w io.Writer) error { return write(w, j, take) }
	told := func() error { return o.Told.Tell(o.Streams, cuesheet.Data{Take: take}) }
	switch {
	case o.Output == command.Stdout:
		err = told()
	case o.Told.JSON:
		err = cmp.Or(command.Deliver(o.Streams, o.Output, fill), told())
	default:
		err = o.Told.Written(o.Streams, j, o.Output, "", "", fill)
	}
	return cmp.Or(err, j.Trouble())
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
