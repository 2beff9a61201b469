package plot

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/motion/base/plain"
	"seamrail/plot/motionplot"
)

// Options is what the plot command was asked.
type Options struct {
	Streams command.Streams
	Shot    command.ShotFlags
	Output  string
	Jerk    bool
	Picture bool     // what the lens sees, in place of rates and the seam
	Compare []string // laws to draw together
}

// NewCmdPlot returns the plot command. A nil run means the real one.
func NewCmdPlot(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	if run == nil {
		run = plotRun
	}
	c := &cobra.Command{
		Use:   "plot [SHOT]",
		Short: "Draw position, speed and acceleration over the loop",
		Long: `Draw every axis over the loop: position, speed and acceleration against time on
screen, with the limits, the dwells and the seam magnified. The ending of the
file's name says whether it is a PNG, SVG or PDF.

With --picture, draw below the positions what the move does to the picture:
smear, magnification, focus and the room between lens and product. It takes a
[camera] and a [scene] in the shot.

A plan that the rig cannot do is drawn too, since the picture shows where; the
command then ends with exit code 1.`,
		Example: `  seamrail plot lantern.toml -o loop.png
  seamrail plot --jerk -o loop.pdf
  seamrail plot --picture -o picture.svg
  seamrail plot --compare harmonic,3-4-5,modified-sine -o laws.svg`,
		Args: command.AtMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = command.First(args)
			return run(o)
		},
	}
	o.Shot.Register(c)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "loop.png", "write to `FILE`, ending in .png, .svg or .pdf")
	f.BoolVar(&o.Jerk, "jerk", false, "draw the jerk too")
	f.BoolVar(&o.Picture, "picture", false, "draw what the move does to the picture")
	f.StringSliceVar(&o.Compare, "compare", nil, "draw `LAWS` together, with commas between")
	c.MarkFlagsMutuallyExclusive("picture", "compare")
	c.MarkFlagsMutuallyExclusive("picture", "jerk")
	_ = c.RegisterFlagCompletionFunc("compare", command.CompleteLaw)
	return c
}

func plotRun(o *Options) error {
	kind, err := command.PictureKind(o.Output)
	if err != nil {
		return err
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return err
	}
	draw := func(w io.Writer) error {
		return format.Figure(w, j, kind, motionplot.Options{Jerk: o.Jerk, Picture: o.Picture})
	}
	if o.Picture {
		if err := j.Pictured(); err != nil {
			return err
		}
	}
	if len(o.Compare) > 0 {
		if draw, err = comparison(j, kind, o.Compare, o.Jerk); err != nil {
			return err
		}
	}
	if err := command.Deliver(o.Streams, o.Output, draw); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(o.Streams.Out, "Wrote %s.\n%s", plain.Text(o.Output), command.LacksIn(kind, j.Plan.Title)); err != nil {
		return err
	}
	return j.Trouble()
}
