package cli

import (
	"cmp"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/export/report"
	"seamrail/export/report/planreport"
)

// PlanOptions is what the plan command was asked.
type PlanOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	Told    command.Told
}

// NewCmdPlan returns the plan command. A nil run means the real one.
func NewCmdPlan(s command.Streams, run func(*PlanOptions) error) *cobra.Command {
	o := &PlanOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "plan [SHOT]",
		Short: "Check a shot against its rig and report",
		Long: `Check a shot against its rig and report: whether it holds, what to set, to record
and to keep, how each axis moves, and what does not hold or is in doubt, with what
would help. Where the rig cannot do it, the report says what would fit.

--show tells a section of the whole report, such as an axis with how near it comes
to each of its limits, the picture, or what was filled in for you; --all tells all
of them.

Flags take the place of values in the file. SHOT may be - for standard input;
without one the built-in shot is planned, or a move of its own that needs no file:
one with both --from and --to goes there and back, and --move names any other.`,
		Example: `  seamrail plan lantern.toml
  seamrail plan --loop "4 s" --law harmonic
  seamrail plan --from "20 mm" --to "120 mm" --capture 120 --playback 24
  seamrail plan lantern.toml --show rail,picture
  seamrail plan --move turn --turns 1/6 --symmetry 6
  seamrail plan --move through --from "40 mm" --to "280 mm" --loop "8 s"
  seamrail plan lantern.toml --rig rail-only.toml --without table
  seamrail plan lantern.toml --json`,
	}, &o.Shot, o, run, planRun)
	o.Told.RegisterParts(c, planreport.Schema, func(args []string) (report.Content, error) {
		o.Shot.Shot = command.First(args)
		j, err := o.job()
		if err != nil {
			return nil, err
		}
		return format.Told(j), nil
	})
	return c
}

func planRun(o *PlanOptions) error {
	j, err := o.job()
	if err != nil {
		return err
	}
	return cmp.Or(o.Told.Tell(o.Streams, format.Told(j)), j.Unable())
}

func (o *PlanOptions) job() (*job.Job, error) {
	source := o.Shot.Source()
	source.Ahead = true
	return source.Job(o.Streams.In)
}
