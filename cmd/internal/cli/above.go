package cli

import (
	"cmp"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/plot/topview"
)

// AboveOptions is what the above command was asked.
type AboveOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	Output  string
	Paper   string
	Scale   string // "" is the largest that fits
	Told    command.Told
}

// NewCmdAbove returns the above command. A nil run means the real one.
func NewCmdAbove(s command.Streams, run func(*AboveOptions) error) *cobra.Command {
	o := &AboveOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "above [SHOT]",
		Short: "Draw the scene from above, to scale, to build from",
		Long: `Draw the scene from above, to scale on A4 or A3: the rail, the lens at both
ends of its travel, what the picture holds and what of it is sharp, the product
and the circle it sweeps, the lamps, holes, and the distances to set them out
by. Printed at 100 % it can be laid on the table. A PDF that is too large for
its paper at the scale asked is cut into sheets to be joined.

It takes a [camera] and a [scene] in the shot. The ending of the file's name
says whether it is a PNG, SVG or PDF.`,
		Example: `  seamrail above lantern.toml -o above.pdf
  seamrail above --paper A3 --scale 1:5 -o above.svg
  seamrail above --scale 1:1 -o full-size.pdf`,
	}, &o.Shot, o, run, aboveRun)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", "above.pdf", "write to `FILE`, ending in .png, .svg or .pdf")
	f.StringVar(&o.Paper, "paper", topview.Papers[0].Name, "draw on `PAPER`: A4 or A3")
	f.StringVar(&o.Scale, "scale", "", "draw at `SCALE`, such as 1:5; the largest that fits otherwise")
	o.Told.RegisterFiles(c)
	_ = c.RegisterFlagCompletionFunc("paper", cobra.FixedCompletions([]string{"A4", "A3"}, cobra.ShellCompDirectiveNoFileComp))
	return c
}

// sheet reads how to draw, all that is wrong with it at once.
func (o *AboveOptions) sheet() (topview.Options, error) {
	var out topview.Options
	var wrong []error
	var err error
	if out.Paper, err = topview.FindPaper(o.Paper); err != nil {
		wrong = append(wrong, fmt.Errorf("--%w", err))
	}
	if o.Scale != "" {
		if out.Scale, err = topview.ParseScale(o.Scale); err != nil {
			wrong = append(wrong, fmt.Errorf("--%w", err))
		}
	}
	return out, errors.Join(wrong...)
}

func aboveRun(o *AboveOptions) error {
	kind, err := command.PictureKind(o.Output)
	if err != nil {
		return err
	}
	opt, err := o.sheet()
	if err != nil {
		return err
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return err
	}
	d, err := format.TopView(j)
	if err != nil {
		return err
	}
	draw := func(w io.Writer) error { return topview.Draw(w, kind, d, opt) }
	lacks := command.LacksIn(kind, j.Plan.Title)
	return cmp.Or(o.Told.Written(o.Streams, j, o.Output, "", lacks, draw), j.Trouble())
}
