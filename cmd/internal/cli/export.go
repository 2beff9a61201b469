package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/report/filesreport"
	"seamrail/export/table/steps"
	"seamrail/motion/base/unit"
)

// ExportOptions is what the export command was asked.
type ExportOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	What    string // what a format is called
	Output  string // file name; "-" is standard output
	Unit    string // of step times: "ns" or "us"
	Tick    string // with its unit: "1 ms"
	CountIn int    // gcode: s from cycle start to the motion, at least
	NoStop  bool   // gcode: do not wait before the take
	Handles bool   // frames before and after the loop as well
	Force   bool
	Told    command.Told
}

// NewCmdExport returns the export command. A nil run means the real one.
func NewCmdExport(s command.Streams, run func(*ExportOptions) error) *cobra.Command {
	o := &ExportOptions{Streams: s}
	c := &cobra.Command{
		Use:   "export " + strings.Join(format.Names(), "|") + " [SHOT]",
		Short: "Write the plan as a table, G-code or JSON",
		Long: `Write the plan in one of these forms:

` + format.Help() + `
Kept takes are those marked in the shot's log of takes; without any, the take
that the plan foresees stands in.

A plan that the rig cannot do is not written, unless --force is given; the
file then says so at its top. Files are written whole or not at all.`,
		Example: `  seamrail export frames lantern.toml -o frames.csv
  seamrail export steps --unit us --rounds 10 -o steps.csv
  seamrail export ticks --tick "1 ms"
  seamrail export gcode lantern.toml -o loop.ngc
  seamrail export gltf lantern.toml -o motion.glb`,
		Args:      exportArgs,
		ValidArgs: format.Names(),
		RunE: func(_ *cobra.Command, args []string) error {
			o.What, o.Shot.Shot = args[0], command.First(args[1:])
			return command.Or(run, exportRun)(o)
		},
	}
	o.Shot.Register(c)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", command.Stdout, "write to `FILE`; - is standard output")
	f.StringVar(&o.Unit, "unit", "ns", "steps: count times in `UNIT`, ns or us")
	f.StringVar(&o.Tick, "tick", "1 ms", "ticks: one row each `TIME`")
	f.IntVar(&o.CountIn, "count-in", job.CountIn, "gcode: count `N` seconds in, or more where a cue needs it")
	f.BoolVar(&o.NoStop, "no-stop", false, command.NoStopHelp)
	f.BoolVar(&o.Handles, "handles", false, "frames: the handles before and after the loop too")
	f.BoolVar(&o.Force, "force", false, "write a plan that the rig cannot do all the same")
	o.Told.RegisterFiles(c)
	return c
}

func exportArgs(_ *cobra.Command, args []string) error {
	choices := strings.Join(format.Names(), ", ")
	switch {
	case len(args) == 0:
		return exit.Misused("needs what to export: %s", choices)
	case !slices.Contains(format.Names(), args[0]):
		return exit.Misused("cannot export %q; it must be one of %s", args[0], choices)
	case len(args) > 2:
		return exit.Misused("takes what to export and one shot file; %q is too much", args[2])
	}
	return nil
}

// options are those of the command.PictureKinds.
func (o *ExportOptions) options() (format.Options, error) {
	out := format.Options{Handles: o.Handles, CountIn: o.CountIn, NoStop: o.NoStop}
	if err := command.TooLong(o.CountIn); err != nil {
		return out, err
	}
	switch o.Unit {
	case "ns":
	case "us":
		out.Unit = steps.Microseconds
	default:
		return out, fmt.Errorf("--unit %q must be ns or us", o.Unit)
	}
	tick, err := unit.ParseAs(o.Tick, unit.Time)
	if err != nil {
		return out, fmt.Errorf("--tick: %w", err)
	}
	if tick.Value.Sign() <= 0 {
		return out, fmt.Errorf("--tick %q must be above 0; such as \"1 ms\"", o.Tick)
	}
	out.Tick = tick.Value
	return out, nil
}

func exportRun(o *ExportOptions) error {
	what, err := format.Named(o.What)
	if err != nil {
		return err
	}
	if o.Told.JSON && o.Output == command.Stdout {
		return exit.Misused("--json tells of a file; name one with -o")
	}
	opt, err := o.options()
	if err != nil {
		return err
	}
	j, err := o.Shot.Job(o.Streams.In)
	if err != nil {
		return err
	}
	of := format.New(j, opt)
	if err := what.Missing(of); err != nil {
		return err
	}
	if of.Takes, err = logbook.Kept(o.Shot.Shot, j.Plan); err != nil {
		return err
	}
	if err := what.Refused(j, o.Force); err != nil {
		return err
	}
	if what.Takes {
		command.WarnLeftOut(o.Streams.Err, of.Takes.Synced(j.Mark))
	}
	if err := command.Deliver(o.Streams, o.Output, func(w io.Writer) error { return what.Write(of, w) }); err != nil || !o.Told.JSON {
		return err
	}
	return o.Told.Wrote(o.Streams, "", func() filesreport.Document { return format.Wrote(j, o.Output) })
}
