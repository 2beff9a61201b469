package reach

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/job"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan/reach"
	"seamrail/motion/spec/rig"
	"seamrail/plot/chart/reachplot"
)

// Options is what the reach command was asked.
type Options struct {
	Streams command.Streams
	Shot    command.ShotFlags
	Travels []string // "60 mm"; none means the whole travel in ten parts
	Output  string   // a picture as well; "" for none
}

// NewCmdReach returns the reach command. A nil run means the real one.
func NewCmdReach(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	if run == nil {
		run = reachRun
	}
	c := &cobra.Command{
		Use:   "reach [SHOT]",
		Short: "Show how short a loop can be for a travel, law by law",
		Long: `Show the shortest loop, in seconds on screen, in which an axis can go there and
back over a travel, for every motion law. Dwells, cycles and the clock are those
of the shot. Every loop shown was planned and checked.

For a shot that the rig cannot do, what would fit is listed too.`,
		Example: `  seamrail reach lantern.toml
  seamrail reach --axis table -o reach.png
  seamrail reach --travel "30 mm,60 mm,90 mm"`,
		Args: command.AtMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = command.First(args)
			return run(o)
		},
	}
	o.Shot.Register(c)
	c.Flags().StringSliceVar(&o.Travels, "travel", nil, "show these `TRAVELS`, with commas between")
	c.Flags().StringVarP(&o.Output, "output", "o", "", "draw it to `FILE` too, ending in .png, .svg or .pdf")
	return c
}

func reachRun(o *Options) error {
	kind, err := command.OptionalKind(o.Output)
	if err != nil {
		return err
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return err
	}
	axis, move, err := job.Axis(j.Shot, j.Rig, o.Shot.Axis)
	if err != nil {
		return err
	}
	travels, err := travelsOf(o.Travels, axis)
	if err != nil {
		return err
	}
	table := reach.NewTable(j.Shot, j.Rig, move, travels)
	if err := printReach(o.Streams, j, table); err != nil || kind == "" {
		return err
	}
	return command.DrawToo(o.Streams, o.Output, false, func(w io.Writer) error {
		return reachplot.Draw(w, kind, reachData(j, axis, move, table))
	})
}

func travelsOf(texts []string, axis rig.Axis) ([]float64, error) {
	if len(texts) == 0 {
		return reach.Travels(axis), nil
	}
	want := unit.Length
	if axis.Kind == rig.Rotary {
		want = unit.Angle
	}
	var out []float64
	for _, t := range texts {
		q, err := unit.ParseAs(t, want)
		if err != nil {
			return nil, fmt.Errorf("--travel: %w", err)
		}
		if v := q.Float(); v <= 0 || v > axis.Travel() {
			return nil, fmt.Errorf("--travel %s must be above 0 and at most %s", q, unit.Format(axis.Travel(), want))
		}
		out = append(out, q.Float())
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}
