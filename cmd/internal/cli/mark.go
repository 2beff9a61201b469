package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/places"
	"seamrail/export/report"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
)

// MarkOptions is what the mark command was asked.
type MarkOptions struct {
	Streams command.Streams
	Shot    string
	Axis    string // "" lists the places
	Place   string
	At      string
	Force   bool
}

// markWants says what the command takes.
const markWants = "a shot file alone, or with an axis, a place and where that is, as in lantern.toml rail to --at \"96.4 mm\""

// NewCmdMark returns the mark command. A nil run means the real one.
func NewCmdMark(s command.Streams, run func(*MarkOptions) error) *cobra.Command {
	o := &MarkOptions{Streams: s}
	c := &cobra.Command{
		Use:   "mark SHOT [AXIS SPOT --at PLACE]",
		Short: "Write a place that was found on the rig into the shot",
		Long: `Write a place that was found on the rig into the shot: where a move begins and
ends, a key of it, where the lens stood when the scene was measured. With the shot
alone it lists the places that can be marked. Nothing moves: "seamrail drive" and
"seamrail page" bring an axis to its place and mark it there; this is for what was
read off a scale.

Only that value changes. Comments and layout stay, and so does the unit that the
file writes it in. What stands in a set-up under the shot is written into the shot,
over it.

What the rig could not run is told first, with what would fit, and is written with
--force alone. A shot that changes on disk meanwhile is left alone.`,
		Example: `  seamrail mark lantern.toml
  seamrail mark lantern.toml rail to --at "96.4 mm"
  seamrail mark lantern.toml rail lens --at "38.2 mm"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 && len(args) != 3 || (len(args) == 3) != (o.At != "") {
				return exit.Misused("needs %s", markWants)
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot = args[0]
			if len(args) > 1 {
				o.Axis, o.Place = args[1], args[2]
			}
			return command.Or(run, markRun)(o)
		},
	}
	c.Flags().StringVar(&o.At, "at", "", "`PLACE` where the axis stands there, such as \"96.4 mm\"")
	c.Flags().BoolVar(&o.Force, "force", false, "write it even where the rig cannot run the plan then")
	return c
}

func markRun(o *MarkOptions) error {
	source := job.Source{Shot: o.Shot}
	j, err := source.Job(o.Streams.In)
	if err != nil {
		return err
	}
	all := places.Of(j)
	if o.Axis == "" {
		return listPlaces(o.Streams, all)
	}
	p, err := places.Find(all, o.Axis, o.Place)
	if err != nil {
		return exit.Misused("%w", err)
	}
	at, err := unit.ParseAs(o.At, p.Now.Dim)
	if err != nil {
		return exit.Misused("--at %w", err)
	}
	c, err := places.Try(source, p, at.Float(), nil)
	if err != nil {
		return exit.Misused("%w", err)
	}
	if len(c.Wrong) > 0 && !o.Force {
		return exit.Limited("%s\nnothing was written; --force writes it all the same", strings.Join(list.Map(c.Doubts(), plain.Text), "\n"))
	}
	if _, err := c.Write(); err != nil {
		return err
	}
	for _, doubt := range c.Doubts() {
		if _, err := fmt.Fprintln(o.Streams.Out, plain.Text(doubt)); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintln(o.Streams.Out, plain.Text(c.Words()))
	return err
}

// listPlaces prints what can be marked.
func listPlaces(s command.Streams, all []places.Place) error {
	t := report.Table{Columns: []report.Column{{Head: "axis"}, {Head: "place"}, {Head: "is now"}, {Head: "what is there"}}}
	for _, p := range all {
		t.Rows = append(t.Rows, report.Row{Cells: []string{p.Axis, p.Name, p.Now.String(), p.Means}})
	}
	return command.Deliver(s, command.Stdout, func(w io.Writer) error {
		_, err := io.WriteString(w, t.TextWithin(s.Columns(report.Width)))
		return err
	})
}
