package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report/rampreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/law/rampfit"
)

// RampOptions is what the ramp command was asked.
type RampOptions struct {
	Streams command.Streams
	Takes   []string // file names
	Capture string   // frames a second, where the takes count frames
	Sure    float64  // standard uncertainty of a reading, in the unit of the takes; 0 = one of its last digit either way
	Told    command.Told
}

// NewCmdRamp returns the ramp command. A nil run means the real one.
func NewCmdRamp(s command.Streams, run func(*RampOptions) error) *cobra.Command {
	o := &RampOptions{Streams: s}
	c := &cobra.Command{
		Use:   "ramp TAKE...",
		Short: "Find by which law a rig goes that has a ramp of its own",
		Long: `Find by which motion law a rig goes on which two ends and a time are set, and how
long its ramps are, from positions read off a take of one way. The lines to keep in
the rig file are printed; where no law comes near enough, it says so and ends with 2.

A TAKE is a table of two columns: times in seconds, or captured frames under a head
that says "frame", and positions in any unit, such as millimetres off a ruler in the
picture or pixels. A comma, a semicolon or a tab parts them. Read a few frames before
it sets out, many while it gathers speed, and some after it has come to rest. Takes
with different times tell whether a ramp lasts as long in each.`,
		Example: `  seamrail ramp way.csv
  seamrail ramp way-5s.csv way-10s.csv --capture 119.88 --sure 0.2`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return exit.Misused("needs a table of times and positions, such as way.csv")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			o.Takes = args
			return command.Or(run, rampRun)(o)
		},
	}
	c.Flags().StringVar(&o.Capture, "capture", "", "capture `RATE` at which frames were counted, such as 119.88")
	c.Flags().Float64Var(&o.Sure, "sure", 0, "how sure a position is: its standard `UNCERTAINTY`, in the unit of the takes; left out, one of its last digit either way")
	o.Told.Register(c, rampreport.Schema)
	return c
}

func rampRun(o *RampOptions) error {
	var capture exact.Rat
	if o.Capture != "" {
		var err error
		if capture, err = clock.ParseRate(o.Capture); err != nil {
			return exit.Misused("--capture: %w", err)
		}
	}
	if !(o.Sure >= 0) {
		return exit.Misused("--sure must be above 0")
	}
	var d rampreport.Data
	for _, name := range o.Takes {
		f, err := rampOf(name, capture, o.Sure)
		if err != nil {
			return err
		}
		d.Takes = append(d.Takes, f)
	}
	if err := o.Told.Tell(o.Streams, d); err != nil || d.Fits() {
		return err
	}
	return errors.New("no law of the catalogue fits; the rig file has none to state")
}

func rampOf(name string, capture exact.Rat, sure float64) (rampfit.Found, error) {
	data, err := textfile.Read(name)
	if err != nil {
		return rampfit.Found{}, err
	}
	t, err := rampfit.Read(name, string(data), capture)
	if err != nil {
		return rampfit.Found{}, err
	}
	f, err := rampfit.Find(t, sure)
	if err != nil {
		return f, fmt.Errorf("%s: %w", name, err)
	}
	return f, nil
}
