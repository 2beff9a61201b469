package plot

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/plot/chart/lawplot"
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
	Told    command.Told
}

// NewCmdPlot returns the plot command. A nil run means the real one.
func NewCmdPlot(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := command.OfShot(&cobra.Command{
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
	}, &o.Shot, o, run, plotRun)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "loop.png", "write to `FILE`, ending in .png, .svg or .pdf")
	f.BoolVar(&o.Jerk, "jerk", false, "draw the jerk too")
	f.BoolVar(&o.Picture, "picture", false, "draw what the move does to the picture")
	f.StringSliceVar(&o.Compare, "compare", nil, "draw `LAWS` together, with commas between")
	o.Told.RegisterFiles(c)
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
	lacks := command.LacksIn(kind, j.Plan.Title)
	return cmp.Or(o.Told.Written(o.Streams, j, o.Output, "", lacks, draw), j.Trouble())
}

// comparison returns what draws laws together, over the way out of the first
// axis that goes there and back.
func comparison(j *job.Job, format string, names []string, jerk bool) (func(io.Writer) error, error) {
	laws := make([]law.Law, len(names))
	for i, n := range names {
		l, err := law.Named(strings.TrimSpace(n))
		if err != nil {
			return nil, fmt.Errorf("--compare: %w", err)
		}
		laws[i] = l
	}
	for i := range j.Plan.Axes {
		if m, ok := j.Plan.Axes[i].Move.Does.(move.Shuttle); ok {
			d := compareData(j.Plan, &j.Plan.Axes[i], m.Going(), laws)
			return func(w io.Writer) error {
				return lawplot.Draw(w, format, d, lawplot.Options{Jerk: jerk})
			}, nil
		}
	}
	return nil, errors.New("--compare needs an axis that goes there and back, and the shot has none")
}

func compareData(p *plan.Plan, a *plan.Axis, w move.Ways, laws []law.Law) lawplot.Data {
	out := w.WayOut(p.Loop.Real())
	return lawplot.Data{
		Title: fmt.Sprintf("%s: %s to %s", a.Rig.Name, w.From, w.To),
		Lines: []string{fmt.Sprintf("%s from rest to rest, %s s on screen", unit.Format(out.Float(), unit.Time),
			out.Quo(p.Loop.Clock.Retime).Decimal(3))},
		Unit: a.Rig.Unit(), Travel: w.Travel(), Seconds: out.Float(), Laws: laws,
		Speed: a.Rig.MaxSpeed, Acc: a.Rig.MaxAcc, Jerk: a.Rig.MaxJerk,
	}
}
