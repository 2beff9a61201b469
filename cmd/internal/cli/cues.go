package cli

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/export/captions"
	"seamrail/export/click"
	"seamrail/export/cuesheet"
	"seamrail/export/header"
	"seamrail/motion/cue"
	"seamrail/motion/plain"
)

// CuesOptions is what the cues command was asked.
type CuesOptions struct {
	Streams     Streams
	Shot        ShotFlags
	Output      string
	CountIn     int
	IgnoreTakes bool
}

// NewCmdCues returns the cues command. A nil run means the real one.
func NewCmdCues(s Streams, run func(*CuesOptions) error) *cobra.Command {
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
		Args: atMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = first(args)
			return run(o)
		},
	}
	o.Shot.register(c)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", stdout, "write to `FILE`, ending in .txt, .wav or .vtt; - prints the sheet")
	f.IntVar(&o.CountIn, "count-in", countIn, "count `N` seconds in, or more where a cue needs it")
	f.BoolVar(&o.IgnoreTakes, "ignore-takes", false, "do not make up for how late a hand was in earlier takes")
	return c
}

func cuesRun(o *CuesOptions) error {
	write, err := cueWriter(o.Output)
	if err != nil {
		return err
	}
	if err := tooLong(o.CountIn); err != nil {
		return err
	}
	j, err := o.Shot.prepare(o.Streams.In)
	if err != nil {
		return err
	}
	if len(j.cues.Cues) == 0 {
		return errNoCue
	}
	sheet := j.cues
	if !o.IgnoreTakes {
		if sheet, err = j.habitual(o.Shot.Shot); err != nil {
			return err
		}
		if err := j.warn(o.Streams.Err, o.Shot.Shot); err != nil {
			return err
		}
	}
	take := sheet.ForTake(int64(j.plan.Rounds), int64(o.CountIn))
	if err := deliver(o.Streams, o.Output, func(w io.Writer) error { return write(w, j, take) }); err != nil {
		return err
	}
	if o.Output != stdout {
		if _, err := fmt.Fprintf(o.Streams.Out, "Wrote %s.\n", plain.Text(o.Output)); err != nil {
			return err
		}
	}
	return j.trouble()
}

// cueWriter returns what writes the cues of a take in the form that a file's
// name asks for.
func cueWriter(name string) (func(io.Writer, job, cue.Take) error, error) {
	ending := strings.ToLower(filepath.Ext(name))
	switch {
	case name == stdout, ending == ".txt":
		return func(w io.Writer, _ job, t cue.Take) error { return cuesheet.Write(w, t) }, nil
	case ending == ".wav":
		return func(w io.Writer, j job, t cue.Take) error { return click.Write(w, t, j.about("click track")) }, nil
	case ending == ".vtt":
		return func(w io.Writer, j job, t cue.Take) error { return captions.Write(w, t, j.about("cues as captions")) }, nil
	}
	return nil, misused("%s must end in .txt, .wav or .vtt", name)
}

// about is what stands in the head of a file of cues.
func (j job) about(what string) []string {
	return append(header.Lines(what, j.trajectory, j.told()), "times: real time, from the first beat of the count-in")
}

var errNoCue = errors.New("the shot has no cue; a [[cue]] table in its file, with name and at, would be one")

// cueParts are the cues for the folder, where the shot has some.
func (j job) cueParts() contents {
	if len(j.cues.Cues) == 0 {
		return without(errNoCue, "cues.txt", "cues.wav", "cues.vtt")
	}
	fill := func(name string) func(io.Writer) error {
		write, _ := cueWriter(name) // it has an ending that is known
		return func(w io.Writer) error {
			sheet, err := j.habitual(j.shot.File)
			if err != nil {
				return err
			}
			return write(w, j, sheet.ForTake(int64(j.plan.Rounds), countIn))
		}
	}
	return with(
		part{"cues.txt", "when each hand has to move, and why then", fill("cues.txt")},
		part{"cues.wav", "a click track of it, to be played on the set", fill("cues.wav")},
		part{"cues.vtt", "the same as captions, for a player", fill("cues.vtt")},
	)
}

// countIn is how many beats count a take in: those asked for, or as many as its
// cues need, as their click track has them.
func (j job) countIn(beats int) (int64, error) {
	if len(j.cues.Cues) == 0 {
		return int64(beats), nil
	}
	sheet, err := j.habitual(j.shot.File)
	return sheet.ForTake(int64(j.plan.Rounds), int64(beats)).CountIn, err
}
