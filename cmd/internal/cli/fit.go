package cli

import (
	"cmp"
	"fmt"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/search"
	"seamrail/export/report/fitreport"
	"seamrail/export/report/rigsreport"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/picture"
)

// FitOptions is what the fit command was asked.
type FitOptions struct {
	Streams command.Streams
	Shot    command.ShotFlags
	search.Fit
	JSON bool
}

// NewCmdFit returns the fit command. A nil run means the real one.
func NewCmdFit(s command.Streams, run func(*FitOptions) error) *cobra.Command {
	o := &FitOptions{Streams: s}
	c := command.OfFile(&cobra.Command{
		Use:   "fit [SHOT]",
		Short: "Find the quickest and the gentlest loop that keep the picture",
		Long: `Find the quickest and the gentlest loop that keep every bound of the picture
and every limit of the rig, its motors and its controller, by trying lengths and
motion laws on the axes that go there and back. Both were planned, verified and
looked at frame by frame.

The shot needs a [camera], and a [scene] where more than the camera is to be
looked at; its [picture] states bounds other than the usual. What no pace
changes, such as light, is told apart.

With --rig given more than once the shot is put on each of these rigs: whether it
holds as it stands, its quickest and its gentlest loop there, and what the rig
lacks. What it lacks is left out of the shot, as --without does.`,
		Example: `  seamrail fit lantern.toml
  seamrail fit lantern.toml --between "4 s,12 s" --laws 3-4-5,cycloidal
  seamrail fit lantern.toml --accept good --json
  seamrail fit lantern.toml --rig bench.toml --rig travel.toml`,
	}, "one shot file", &o.Shot.Shot, o, run, fitRun)
	o.Shot.SeveralRigs()
	o.Shot.RegisterSome(c, "capture", "playback", "retime", "loop", "from", "to", "dwell-far", "dwell-near", "cycles", "turns", "move", "at", "symmetry")
	f := c.Flags()
	f.StringSliceVar(&o.Between, "between", nil, "shortest and longest loop on screen, as two `TIMES`")
	f.StringSliceVar(&o.Laws, "laws", nil, "try these `LAWS` only, with commas between")
	f.StringVar(&o.Accept, "accept", picture.Fair.String(), "worst `LEVEL` that a check may have: good, fair or poor")
	f.BoolVar(&o.JSON, "json", false, "report as JSON ("+fitreport.Schema+", on several rigs "+rigsreport.Schema+")")
	_ = c.RegisterFlagCompletionFunc("laws", command.CompleteLaw)
	return c
}

func fitRun(o *FitOptions) error {
	if len(o.Shot.Rigs) > 1 {
		return fitRigs(o)
	}
	d, err := o.search()
	if err != nil {
		return err
	}
	if err := command.Tell(o.Streams, o.JSON, d); err != nil {
		return err
	}
	if d.Answer.Quickest == nil {
		return exit.Limited("no loop that was tried keeps the picture and the rig's limits")
	}
	return err
}

// fitRigs asks on each of several rigs.
func fitRigs(o *FitOptions) error {
	bar := command.NewProgress(o.Streams, -1)
	d, err := o.OnRigs(o.Shot.Source(), o.Shot.Rigs, o.Streams.In, func(file string, n int) {
		bar.Next(fmt.Sprintf("%s: %s tried", plain.Text(file), plain.Count(n, "loop")))
	})
	bar.Finish()
	if err != nil {
		return err
	}
	return cmp.Or(command.Tell(o.Streams, o.JSON, d), search.Holding(d))
}

// search asks for the loops, and shows how far it is.
func (o *FitOptions) search() (fitreport.Data, error) {
	s, r, err := o.Shot.Source().Load(o.Streams.In)
	if err != nil {
		return fitreport.Data{}, err
	}
	bar := command.NewProgress(o.Streams, -1)
	d, err := o.Find(s, r, o.Shot.Shot, func(n int) { bar.Next(plain.Count(n, "loop") + " tried") })
	bar.Finish()
	return d, err
}
