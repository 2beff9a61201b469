package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/export/frames"
	"seamrail/export/gcode"
	"seamrail/export/report"
	"seamrail/export/steps"
	"seamrail/export/ticks"
	"seamrail/motion/exact"
	"seamrail/motion/kept"
	"seamrail/motion/unit"
)

// ExportOptions is what the export command was asked.
type ExportOptions struct {
	Streams Streams
	Shot    ShotFlags
	What    string // one of exports
	Output  string // file name; "-" is standard output
	Unit    string // of step times: "ns" or "us"
	Tick    string // with its unit: "1 ms"
	CountIn int    // gcode: s from cycle start to the motion, at least
	NoStop  bool   // gcode: do not wait before the take
	Handles bool   // frames before and after the loop as well
	Force   bool
}

// exports lists what can be exported.
var exports = slices.Concat([]string{"frames", "steps", "ticks", "gcode", pictureExport, "json"}, handoffs)

// NewCmdExport returns the export command. A nil run means the real one.
func NewCmdExport(s Streams, run func(*ExportOptions) error) *cobra.Command {
	o := &ExportOptions{Streams: s}
	if run == nil {
		run = exportRun
	}
	c := &cobra.Command{
		Use:   "export " + strings.Join(exports, "|") + " [SHOT]",
		Short: "Write the plan as a table, G-code or JSON",
		Long: `Write the plan in one of these forms:

  frames  CSV, one row a captured frame: where every axis is and how fast
  steps   CSV, one row a motor step: when, which axis, which way
  ticks   CSV, every axis' step count at a fixed beat
  gcode   a program for a controller that reads RS-274/NGC
  picture CSV, one row a captured frame: smear, focus, clearance and the rest
  json    the report, for other programs
  selects CSV, one row a kept take: which frames of it to use, and the retime
  otio    the same as a timeline, in OpenTimelineIO JSON
  gltf    camera and turntable as an animation, in binary glTF 2.0
  motion  JSON, every axis and the lens at each captured frame

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
		ValidArgs: exports,
		RunE: func(_ *cobra.Command, args []string) error {
			o.What, o.Shot.Shot = args[0], first(args[1:])
			return run(o)
		},
	}
	o.Shot.register(c)
	f := c.Flags()
	f.StringVarP(&o.Output, "output", "o", stdout, "write to `FILE`; - is standard output")
	f.StringVar(&o.Unit, "unit", "ns", "steps: count times in `UNIT`, ns or us")
	f.StringVar(&o.Tick, "tick", "1 ms", "ticks: one row each `TIME`")
	f.IntVar(&o.CountIn, "count-in", countIn, "gcode: count `N` seconds in, or more where a cue needs it")
	f.BoolVar(&o.NoStop, "no-stop", false, noStopHelp)
	f.BoolVar(&o.Handles, "handles", false, "frames: the handles before and after the loop too")
	f.BoolVar(&o.Force, "force", false, "write a plan that the rig cannot do all the same")
	return c
}

func exportArgs(_ *cobra.Command, args []string) error {
	choices := strings.Join(exports, ", ")
	switch {
	case len(args) == 0:
		return misused("needs what to export: %s", choices)
	case !slices.Contains(exports, args[0]):
		return misused("cannot export %q; it must be one of %s", args[0], choices)
	case len(args) > 2:
		return misused("takes what to export and one shot file; %q is too much", args[2])
	}
	return nil
}

// exportSettings are the options understood.
type exportSettings struct {
	unit    steps.Unit
	tick    exact.Rat
	handles bool
	takes   kept.Takes
	countIn int
	noStop  bool
}

const noStopHelp = "gcode: go on from the start of the take without waiting for the operator"

func (o *ExportOptions) settings() (exportSettings, error) {
	out := exportSettings{handles: o.Handles, countIn: o.CountIn, noStop: o.NoStop}
	if err := tooLong(o.CountIn); err != nil {
		return out, err
	}
	switch o.Unit {
	case "ns":
	case "us":
		out.unit = steps.Microseconds
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
	out.tick = tick.Value
	return out, nil
}

func exportRun(o *ExportOptions) error {
	set, err := o.settings()
	if err != nil {
		return err
	}
	j, err := o.Shot.prepare(o.Streams.In)
	if err != nil {
		return err
	}
	if err := j.exportable(o.What); err != nil {
		return err
	}
	if set.takes, err = o.Shot.kept(j); err != nil {
		return err
	}
	trouble := j.trouble
	if o.What == "gcode" {
		trouble = j.unable
	}
	if err := refuse(trouble(), o.Force); err != nil {
		return err
	}
	if slices.Contains(handoffs, o.What) {
		warnLeftOut(o.Streams.Err, set.takes)
	}
	return deliver(o.Streams, o.Output, j.exporter(o.What, set))
}

// exportable is an error that says what is missing for an export.
func (j job) exportable(what string) error {
	switch what {
	case pictureExport:
		return j.pictured()
	case gltfExport:
		_, _, err := j.lens()
		return err
	}
	return nil
}

// exporter returns what writes the plan in a form. Tables and programs of
// motion hold the whole take, run-up and run-out included.
func (j job) exporter(what string, set exportSettings) func(io.Writer) error {
	t, v := j.trajectory, j.told()
	return func(w io.Writer) error {
		switch what {
		case "frames":
			return frames.Write(w, t, v, frames.Options{Handles: set.handles})
		case "steps":
			return steps.Write(w, t, v, steps.Options{Unit: set.unit, Ramps: true})
		case "ticks":
			return ticks.Write(w, t, v, ticks.Options{Tick: set.tick, Ramps: true})
		case "gcode":
			beats, err := j.countIn(set.countIn)
			if err != nil {
				return err
			}
			opt := gcode.Options{CountIn: beats, NoStop: set.noStop}
			if opt.Segmenter, err = j.blocksOpened(opt.Opening()); err != nil {
				return err
			}
			return gcode.Write(w, t, v, opt)
		case pictureExport:
			return j.pictureTable(w)
		case selectsExport, otioExport, gltfExport, motionExport:
			return j.handoff(w, what, set.takes)
		}
		return report.WriteJSON(w, t, v, j.reportOptions())
	}
}
