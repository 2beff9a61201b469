package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/motion/plain"
	"seamrail/motion/reach"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/unit"
	"seamrail/plot/reachplot"
)

// ReachOptions is what the reach command was asked.
type ReachOptions struct {
	Streams Streams
	Shot    ShotFlags
	Travels []string // "60 mm"; none means the whole travel in ten parts
	Output  string   // a picture as well; "" for none
}

// NewCmdReach returns the reach command. A nil run means the real one.
func NewCmdReach(s Streams, run func(*ReachOptions) error) *cobra.Command {
	o := &ReachOptions{Streams: s}
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
		Args: atMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = first(args)
			return run(o)
		},
	}
	o.Shot.register(c)
	c.Flags().StringSliceVar(&o.Travels, "travel", nil, "show these `TRAVELS`, with commas between")
	c.Flags().StringVarP(&o.Output, "output", "o", "", "draw it to `FILE` too, ending in .png, .svg or .pdf")
	return c
}

func reachRun(o *ReachOptions) error {
	format := ""
	if o.Output != "" {
		f, err := formatOf(o.Output)
		if err != nil {
			return err
		}
		format = f
	}
	j, err := o.Shot.job(o.Streams.In)
	if err != nil {
		return err
	}
	axis, move, err := reachAxis(j.Shot, j.Rig, o.Shot.Axis)
	if err != nil {
		return err
	}
	travels, err := travelsOf(o.Travels, axis)
	if err != nil {
		return err
	}
	table := reach.NewTable(j.Shot, j.Rig, move, travels)
	if err := printReach(o.Streams, j, table); err != nil || format == "" {
		return err
	}
	err = deliver(o.Streams, o.Output, func(w io.Writer) error {
		return reachplot.Draw(w, format, reachData(j, axis, move, table))
	})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(o.Streams.Out, "\nWrote %s.\n", plain.Text(o.Output))
	return err
}

// reachAxis picks the axis that was named, or the first that goes there and
// back, or the first of the rig.
func reachAxis(s shot.Shot, r rig.Rig, name string) (rig.Axis, shot.AxisMove, error) {
	if name == "" && len(r.Axes) > 0 {
		name = r.Axes[0].Name
		for _, m := range slices.Backward(s.Axes) {
			if m.Move == shot.ThereAndBack {
				name = m.Name
			}
		}
	}
	axis, ok := r.Axis(name)
	if !ok {
		return rig.Axis{}, shot.AxisMove{}, fmt.Errorf("--axis %q is not on the rig; it has %s",
			name, strings.Join(r.Names(), ", "))
	}
	if m, ok := s.Axis(name); ok && m.Move == shot.ThereAndBack {
		return axis, m, nil
	}
	return axis, reach.Move(axis), nil
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
