package spin

import (
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/search"
	"seamrail/export/report/spinreport"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
	"seamrail/plot/chart/spinplot"
)

// Options is what the spin command was asked.
type Options struct {
	Streams command.Streams
	Shot    command.ShotFlags
	search.Spin
	JSON   bool
	Output string // a picture as well; "" for none
}

// NewCmdSpin returns the spin command. A nil run means the real one.
func NewCmdSpin(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s}
	c := command.OfFile(&cobra.Command{
		Use:   "spin [SHOT]",
		Short: "Find loops in which a display stand and the carriage close together",
		Long: `Find the loops, in whole captured frames, after which the carriage is home and
the product on a stand that turns by itself looks as it did, best first.

Give the stand's period and how well it is known, or time some turns and give
what the stopwatch said; after how many captured frames a mark was back says it
better, since it goes by the camera's own clock. With a SHOT whose rig has
stands nothing else is needed. A turntable that the rig commands closes always;
of one, this tells the speed, the steps and what is left of a step; --turns and
--loop say otherwise than the shot.

Give --period or --timed more than once for a stand with several speeds or for
several readings of one. --also adds another thing that must close with it.`,
		Example: `  seamrail spin --period "7.3 s" --uncertainty "0.01 s" --symmetry 6 --between "4 s,12 s"
  seamrail spin --timed "20 turns in 146.2 s" --timed "30 turns in 219.1 s" --symmetry 6
  seamrail spin --timed "3 turns in 2626 frames" --radius "45 mm" --pixels-per-mm 12
  seamrail spin --period "7.3 s" --also "period 11 s, symmetry 4" --between "20 s,90 s"
  seamrail spin lantern.toml -o spin.png
  seamrail spin --turns 1/3`,
	}, "one shot file", &o.Shot.Shot, o, run, spinRun)
	o.register(c)
	return c
}

func (o *Options) register(c *cobra.Command) {
	o.Shot.RegisterSome(c, "capture", "playback", "retime", "loop", "turns")
	f := c.Flags()
	f.StringArrayVar(&o.Periods, "period", nil, "`TIME` of one turn, such as \"20.4 s\"; once for each speed")
	f.StringVar(&o.Uncertainty, "uncertainty", "", "standard uncertainty of the period, as `TIME`")
	f.StringArrayVar(&o.Timed, "timed", nil, "`READING`, such as \"20 turns in 412.3 s\" or \"3 turns in 7338 frames\"")
	f.StringVar(&o.Reaction, "reaction", "", "standard uncertainty of one press of the stopwatch, as `TIME`")
	f.StringVar(&o.Direction, "direction", "", "`WAY` the stand turns, clockwise or anticlockwise from above")
	f.StringVar(&o.Drift, "drift", "", "`SHARE` by which its speed wanders, such as \"1 %\"")
	f.StringArrayVar(&o.Also, "also", nil, "another `THING` to close with it, such as \"period 11 s, symmetry 4\"")
	f.StringVar(&o.Symmetry, "symmetry", "", "`N` times in a turn the product looks the same")
	f.StringVar(&o.Radius, "radius", "", "`LENGTH` from the middle to the outermost point that shows")
	f.StringVar(&o.Pixels, "pixels-per-mm", "", "`N` pixels of the picture to a mm of the product")
	f.StringVar(&o.Within, "within", "", "`BOUND` of the closing error, such as \"0.5 px\" or \"0.1 deg\"")
	f.StringSliceVar(&o.Between, "between", nil, "shortest and longest loop on screen, as two `TIMES`")
	f.StringVar(&o.Cycles, "cycles", "", "the carriage goes there and back `N` times in a loop")
	f.StringSliceVar(&o.Offers, "offers", nil, "other capture `RATES` of the camera, with commas between")
	f.IntVar(&o.Most, "most", spin.DefaultMost, "list `N` loops")
	f.BoolVar(&o.JSON, "json", false, "report as JSON ("+spinreport.Schema+")")
	f.StringVarP(&o.Output, "output", "o", "", "draw it to `FILE` too, ending in .png, .svg or .pdf")
}

func spinRun(o *Options) error {
	kind, err := command.OptionalKind(o.Output)
	if err != nil {
		return err
	}
	d, own, err := o.find()
	if err != nil {
		return err
	}
	if kind != "" && len(d.Query.Products) == 0 {
		return exit.Misused("-o draws loops for a stand, and there is none; give --period or --timed")
	}
	if err := command.Tell(o.Streams, o.JSON, d); err != nil || kind == "" {
		return err
	}
	return command.DrawToo(o.Streams, o.Output, o.JSON, func(w io.Writer) error {
		return spinplot.Draw(w, kind, spinPicture(d, own))
	})
}

// find asks, of the shot unless flags describe a stand and name none. The plan is that
// of the shot, or nil.
func (o *Options) find() (d spinreport.Data, own *plan.Plan, err error) {
	if o.Shot.Shot != "" || !o.Described() {
		j, err := o.Shot.Job(o.Streams.In)
		if err != nil {
			return spinreport.Data{}, nil, err
		}
		own = j.Plan
	}
	o.Capture, _ = o.Shot.Given("capture")
	o.Playback, _ = o.Shot.Given("playback")
	o.Retime, _ = o.Shot.Given("retime")
	for _, flag := range []string{"loop", "turns", "rig"} {
		if _, ok := o.Shot.Given(flag); ok {
			o.OfShot = append(o.OfShot, flag)
		}
	}
	d, err = o.Find(own)
	return d, own, err
}
