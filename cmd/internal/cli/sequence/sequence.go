package sequence

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/clip"
	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/export/report/sequencereport"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/edit/sequence"
	"seamrail/plot/chart/clipplot"
)

// Options is what the sequence command was asked.
type Options struct {
	Streams command.Streams
	File    string // "" for the built-in sequence, "-" for standard input
	Takes   string // wanted of each shot that does not say; "" as the file has it
	Output  string // a picture to draw; "" for none
	Make    string // a folder for the hand-off; "" for none
	Told    command.Told
}

// NewCmdSequence returns the sequence command. A nil run means the real one.
func NewCmdSequence(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := command.OfFile(&cobra.Command{
		Use:   "sequence [FILE]",
		Short: "Join shots into one clip and plan the day",
		Long: `Join shots into one clip: what is seen when, in frames and timecode; how the
picture moves out of every cut and into the next shot, and whether that carries
on, turns aside or goes back; whether the clip's last frame leads into its
first; the order to film in that changes rig and light least; and the real time
and the space on a card that all takes need.

Each [[shot]] of the file names a shot file in its folder or below it. Speeds
are told in picture widths per on-screen second, at the face of the product that
the eye follows; where a shot says nothing of its camera, by its axes.

With --make all that is handed on goes into one folder, written whole or not at
all: the clip as a timeline (OpenTimelineIO) and as a list of edits (CMX 3600),
what the lens sees of it as one loop, and this report. Each shot is shown from
its last kept take, or as it is planned while none is kept.

What is told is the short of it; --show tells a section of the whole report, such
as cuts, takes-and-seams or what-it-takes, and --all all of them. Without a FILE a
built-in sequence is used.`,
		Example: `  seamrail sequence clip.toml
  seamrail sequence clip.toml -o strip.png
  seamrail sequence clip.toml --make clip
  seamrail sequence clip.toml --json`,
	}, "one sequence file", &o.File, o, run, sequenceRun)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "", "draw the clip as a strip to `FILE`, ending in .png, .svg or .pdf")
	f.StringVar(&o.Make, "make", "", "write all that is handed on of the clip to folder `DIR`")
	f.StringVar(&o.Takes, "takes", "", "plan `N` takes of each shot that does not say itself")
	o.Told.RegisterParts(c, sequencereport.Schema, func(args []string) (report.Content, error) {
		o.File = command.First(args)
		j, err := o.read()
		if err != nil {
			return nil, err
		}
		return j.Report()
	})
	_ = c.MarkFlagFilename("output", command.PictureKinds...)
	return c
}

func sequenceRun(o *Options) error {
	kind, err := command.OptionalKind(o.Output)
	if err != nil {
		return err
	}
	j, err := o.read()
	if err != nil {
		return err
	}
	if kind != "" {
		if err := o.draw(j.Clip, kind); err != nil {
			return err
		}
	}
	if o.Make != "" {
		return o.handOn(j)
	}
	told, err := j.Report()
	if err != nil {
		return err
	}
	if err := o.Told.Tell(o.Streams, told); err != nil {
		return err
	}
	if o.Output != "" && !o.Told.JSON {
		err := command.Deliver(o.Streams, command.Stdout, func(w io.Writer) error {
			_, err := fmt.Fprintf(w, "\nWrote %s.\n", plain.Text(o.Output))
			return err
		})
		if err != nil {
			return err
		}
	}
	return j.Trouble()
}

func (o *Options) read() (clip.Joined, error) {
	var over []source.Override
	if o.Takes != "" {
		over = append(over, source.Override{Path: "takes", Text: o.Takes, Origin: "--takes"})
	}
	return clip.Read(o.File, o.Streams.In, over...)
}

// draw writes the strip.
func (o *Options) draw(c *sequence.Clip, kind string) error {
	d, err := stripOf(c)
	if err != nil {
		return err
	}
	return command.Deliver(o.Streams, o.Output, func(w io.Writer) error { return clipplot.Draw(w, kind, d) })
}

// handOn writes the folder, and says what is in it.
func (o *Options) handOn(j clip.Joined) error {
	h, err := j.Handoff()
	if err != nil {
		return err
	}
	for _, words := range h.Said {
		command.Complain(o.Streams.Err, errors.New(words))
	}
	files := h.Files()
	bar := command.NewProgress(o.Streams, len(files))
	err = atomicfile.Folder(o.Make, files, bar.Next)
	bar.Finish()
	if err != nil {
		return err
	}
	if o.Told.JSON {
		told, err := j.Report()
		if err != nil {
			return err
		}
		return o.Told.Tell(o.Streams, told)
	}
	if _, err := fmt.Fprintf(o.Streams.Out, "%s, in %s:\n", header.Clean(j.Clip.Title), plain.Text(o.Make)); err != nil {
		return err
	}
	return h.List(o.Streams.Out)
}
