package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report/softenreport"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/vibration/lawfit"
)

// SoftenOptions is what the soften command was asked.
type SoftenOptions struct {
	Streams   command.Streams
	Shot      command.ShotFlags
	Frequency string
	Damping   string
	Limits    string // share of the rig's
	Keep      string // an aim whose law goes into the shot file; "" for none
	JSON      bool
}

// NewCmdSoften returns the soften command. A nil run means the real one.
func NewCmdSoften(s command.Streams, run func(*SoftenOptions) error) *cobra.Command {
	o := &SoftenOptions{Streams: s}
	c := command.OfShot(&cobra.Command{
		Use:   "soften [SHOT]",
		Short: "Find the softest motion law for a move, with proof",
		Long: `Find, for a move there and back, the motion laws with the least acceleration,
the least jerk, the least smear, and the least after-shake, over the same travel
in the same time. Each comes with what no law can go below that begins and ends
without acceleration, and was planned and checked against the rig.

The first three keep to the limits of the rig, or to a share of them: a move of
little smear speeds up as hard as it may. The last two leave a rig that swings at
its frequency at rest, with the least jerk of all laws that do.

--keep writes a law into the shot file, every other byte of which stays as it is.`,
		Example: `  seamrail soften lantern.toml
  seamrail soften --limits "30 %"
  seamrail soften --frequency "6 Hz" --damping "3 %" --json
  seamrail soften lantern.toml --keep jerk`,
	}, &o.Shot, o, run, softenRun)
	f := c.Flags()
	f.StringVar(&o.Frequency, "frequency", "", "natural `FREQUENCY` of what the axis carries, such as \"6 Hz\"")
	f.StringVar(&o.Damping, "damping", "", "its damping, as a `SHARE` of critical, such as \"3 %\"")
	f.StringVar(&o.Limits, "limits", "", "use a `SHARE` of the rig's limits, such as \"50 %\"")
	f.StringVar(&o.Keep, "keep", "", "write the law of least `WHAT` into the shot: "+strings.Join(lawfit.Aims(), ", "))
	f.BoolVar(&o.JSON, "json", false, "report as JSON ("+softenreport.Schema+")")
	return c
}

func softenRun(o *SoftenOptions) error {
	if o.Keep != "" && !slices.Contains(lawfit.Aims(), o.Keep) {
		return exit.Misused("--keep %q must be one of %s", o.Keep, strings.Join(lawfit.Aims(), ", "))
	}
	s, r, err := o.Shot.Source().Load(o.Streams.In)
	if err != nil {
		return err
	}
	if err := job.Choosable(r); err != nil {
		return err
	}
	axis, _, err := job.Axis(s, r, o.Shot.Axis)
	if err != nil {
		return err
	}
	sub, err := lawfit.New(s, r, axis.Name)
	if err != nil {
		return err
	}
	if err := o.set(&sub); err != nil {
		return err
	}
	if o.Keep != "" {
		return o.keep(sub)
	}
	return command.Tell(o.Streams, o.JSON, softenreport.Data{Title: s.Title, Subject: sub, Offers: sub.Offers()})
}

// set reads the flags that are about the rig.
func (o *SoftenOptions) set(sub *lawfit.Subject) error {
	for _, f := range []struct {
		flag, text string
		want       unit.Dimension
		value      *float64
	}{
		{"--frequency", o.Frequency, unit.Frequency, &sub.Spring.Frequency},
		{"--damping", o.Damping, unit.Number, &sub.Spring.Damping},
		{"--limits", o.Limits, unit.Number, &sub.Share},
	} {
		if f.text == "" {
			continue
		}
		q, err := unit.ParseAs(f.text, f.want)
		if err != nil {
			return exit.Misused("%s: %v", f.flag, err)
		}
		*f.value = q.Float()
	}
	if !(sub.Share > 0 && sub.Share <= 1) {
		return exit.Misused("--limits %s must be above 0 and at most 100 %%", o.Limits)
	}
	if o.Frequency == "" && o.Damping != "" && !sub.Spring.Known() {
		return exit.Misused("--damping needs a --frequency")
	}
	if sub.Spring.Known() {
		if err := sub.Spring.Check(); err != nil {
			return exit.Misused("%v", err)
		}
	}
	return nil
}

const unsound = "not written, as the shot would not be one; take out by hand what the new law has no use for:\n"

// keep writes a law into the shot file, if what comes out is sound.
func (o *SoftenOptions) keep(sub lawfit.Subject) error {
	file := o.Shot.Shot
	if file == "" || file == "-" {
		return exit.Misused("--keep needs a shot file to write to: \"seamrail new\" makes one")
	}
	offer := sub.Offer(o.Keep)
	if offer.Name == "" {
		return exit.Limited("there is no such law: %s", offer.Why)
	}
	if !offer.Within {
		return exit.Limited("the rig cannot do it: %s", offer.Why)
	}
	var values []textfile.Value
	for _, k := range offer.Keys {
		values = append(values, textfile.Value{Path: source.Join("axis", sub.Axis.Name) + "." + k.Key, Text: k.Text})
	}
	err := textfile.Rewrite(file, unsound, func(data []byte) error {
		_, err := job.Files.Decode(file, data, nil)
		return err
	}, values...)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(o.Streams.Out, "axis %s: %s is now in %s\n", sub.Axis.Name, softenreport.Line(offer), plain.Text(file))
	return err
}
