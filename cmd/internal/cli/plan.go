package cli

import (
	"io"

	"github.com/spf13/cobra"

	"seamrail/export/report"
)

// PlanOptions is what the plan command was asked.
type PlanOptions struct {
	Streams Streams
	Shot    ShotFlags
	JSON    bool
}

// NewCmdPlan returns the plan command. A nil run means the real one.
func NewCmdPlan(s Streams, run func(*PlanOptions) error) *cobra.Command {
	o := &PlanOptions{Streams: s}
	if run == nil {
		run = planRun
	}
	c := &cobra.Command{
		Use:   "plan [SHOT]",
		Short: "Check a shot against its rig and report",
		Long: `Check a shot against its rig and report: what the loop became, what to record
and deliver, how near each axis comes to its limits, how the seam closes, and
what was filled in for you. Where the rig cannot do it, the report says what
would fit.

Flags take the place of values in the file. SHOT may be - for standard input;
without one the built-in shot is planned, or, with both --from and --to, a bare
move of the rail there and back.`,
		Example: `  seamrail plan lantern.toml
  seamrail plan --loop "4 s" --law harmonic
  seamrail plan --from "20 mm" --to "120 mm" --capture 120 --playback 24
  seamrail plan lantern.toml --json`,
		Args: atMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot.Shot = first(args)
			return run(o)
		},
	}
	o.Shot.register(c)
	c.Flags().BoolVar(&o.JSON, "json", false, "report as JSON ("+report.Schema+")")
	return c
}

func planRun(o *PlanOptions) error {
	o.Shot.ahead = true
	j, err := o.Shot.prepare(o.Streams.In)
	if err != nil {
		return err
	}
	err = deliver(o.Streams, stdout, func(w io.Writer) error {
		return j.report(w, o.JSON, o.Streams.Colour)
	})
	if err != nil {
		return err
	}
	return j.unable()
}

// reportOptions is what the report is told besides the trajectory.
func (j job) reportOptions() report.Options {
	return report.Options{
		Fits: j.fits(), Controller: j.expected(), Picture: j.picture, Shakes: j.shakes(), Others: j.others(), Headline: j.headline(),
	}
}

// report writes the report as text or JSON.
func (j job) report(w io.Writer, asJSON, colour bool) error {
	opt := j.reportOptions()
	opt.Colour = colour
	if asJSON {
		return report.WriteJSON(w, j.trajectory, j.verdict, opt)
	}
	return report.Write(w, j.trajectory, j.verdict, opt)
}
