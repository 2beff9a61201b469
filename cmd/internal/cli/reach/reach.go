package reach

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/job"
	"seamrail/export/report/reachreport"
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
	Told    command.Told
}

// NewCmdReach returns the reach command. A nil run means the real one.
func NewCmdReach(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "reach [SHOT]",
		Short: "Show how short a loop can be for a travel, law by law",
		Long: `Show the shortest loop, in seconds on screen, in which an axis can go there and
back over a travel, for every motion law. Dwells, cycles and the clock are those
of the shot. Every loop shown was planned and checked.

For a shot that the rig cannot do, what would fit is listed too.`,
		Example: `  seamrail reach lantern.toml
  seamrail reach --axis table -o reach.png
  seamrail reach --travel "30 mm,60 mm,90 mm" --json`,
	}, &o.Shot, o, run, reachRun)
	c.Flags().StringSliceVar(&o.Travels, "travel", nil, "show these `TRAVELS`, with commas between")
	c.Flags().StringVarP(&o.Output, "output", "o", "", "draw it to `FILE` too, ending in .png, .svg or .pdf")
	o.Told.Register(c, reachreport.Schema)
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
	if err := job.Choosable(j.Rig); err != nil {
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
	if err := o.Told.Tell(o.Streams, reachreport.Data{Table: table, Fits: j.Fits()}); err != nil || kind == "" {
		return err
	}
	return command.DrawToo(o.Streams, o.Output, o.Told.JSON, func(w io.Writer) error {
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

// reachData is what the picture shows: laws that have a loop, and the shot.
func reachData(j *job.Job, axis rig.Axis, goes reach.Shuttle, t reach.Table) reachplot.Data {
	d := reachplot.Data{
		Title: "How short can the loop be?",
		Lines: []string{axis.Name + ", there and back · " + j.Rig.Name},
		Unit:  t.Unit,
	}
	if !axis.Endless {
		d.Whole = axis.Travel()
	}
	for i, name := range t.Laws {
		curve := reachplot.Curve{Name: name}
		for _, c := range t.Cells[i] {
			if c.Possible {
				curve.Travel = append(curve.Travel, c.Travel)
				curve.Screen = append(curve.Screen, c.Loop.OnScreen().Float())
			}
		}
		if len(curve.Travel) > 0 {
			d.Curves = append(d.Curves, curve)
		}
	}
	if _, ok := j.Shot.Axis(axis.Name); ok {
		if travel := goes.Going().Travel(); travel > 0 {
			d.Shot = &reachplot.Point{Name: "this shot", Travel: travel, Screen: j.Shot.Loop.OnScreen().Float()}
		}
	}
	return d
}
