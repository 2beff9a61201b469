package cli

import (
	"cmp"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/export/report/planreport"
)

// PlanOptions is what the plan command was asked.
type PlanOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	JSON    bool
}

// NewCmdPlan returns the plan command. A nil run means the real one.
func NewCmdPlan(s command.Streams, run func(*PlanOptions) error) *cobra.Command {
	o := &PlanOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
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
	}, &o.Shot, o, run, planRun)
	c.Flags().BoolVar(&o.JSON, "json", false, "report as JSON ("+planreport.Schema+")")
	return c
}

func planRun(o *PlanOptions) error {
	source := o.Shot.Source()
	source.Ahead = true
	j, err := source.Job(o.Streams.In)
	if err != nil {
		return err
	}
	return cmp.Or(command.Tell(o.Streams, o.JSON, format.Told(j)), j.Unable())
}
