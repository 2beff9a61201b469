package takes

import (
	"fmt"

	"github.com/spf13/pflag"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/unit"
)

// Filmed is how a take was filmed that is logged by hand.
type Filmed struct {
	Rounds   int64 // 0 = as many as the shot has
	Took     string
	Pass     string
	Operator string
}

func (f *Filmed) register(flags *pflag.FlagSet) {
	flags.Int64Var(&f.Rounds, "rounds", 0, "with --log: `N` rounds were filmed; without it as many as the shot has")
	flags.StringVar(&f.Took, "took", "", "with --log: the `TIME` by a stopwatch from setting out to rest, such as \"36.4 s\"")
	flags.StringVar(&f.Pass, "pass", "", "with --log and --group: what of the group it is, a `NAME` such as \"clean plate\"")
	flags.StringVar(&f.Operator, "operator", "", "with --log: `NAME` of who drove; left out, who is logged in on this computer; \"nobody\" for none")
}

// log logs a take that was not driven from here. Marks are then of it.
func (o *Options) log(marks []takelog.Record) error {
	f := o.Filmed
	if o.Shot == "" {
		return exit.Misused("name the shot that was filmed")
	}
	h := logbook.ByHand{Rounds: f.Rounds, Group: o.Group, Pass: f.Pass}
	for _, m := range marks {
		if m.Take != 0 {
			return exit.Misused("with --log all marks are of the take that is logged: leave the number %d out, or mark that take by itself", m.Take)
		}
	}
	if f.Took != "" {
		q, err := unit.ParseAs(f.Took, unit.Time)
		if err == nil && q.Value.Sign() <= 0 {
			err = fmt.Errorf("%q must be above 0 s", f.Took)
		}
		if err != nil {
			return fmt.Errorf("--took: %w", err)
		}
		h.Took = q.Value.Float()
	}
	var err error
	if h.Driver, err = logbook.Operator(f.Operator, false); err != nil {
		return err
	}
	j, err := job.Source{Shot: o.Shot}.Job(o.Streams.In)
	if err != nil {
		return fmt.Errorf("how the take was filmed follows from the shot: %w", err)
	}
	_, err = logbook.LogByHand(o.Shot, j, h, o.Now())
	return err
}

// unlogged is an error where something is said of a take that is to be logged, and none is.
func (o *Options) unlogged() error {
	f := o.Filmed
	for _, said := range []struct {
		flag string
		is   bool
	}{{"--rounds", f.Rounds != 0}, {"--took", f.Took != ""}, {"--pass", f.Pass != ""}, {"--operator", f.Operator != ""}} {
		if said.is && !o.Log {
			return exit.Misused("%s is of a take that is logged: add --log", said.flag)
		}
	}
	return nil
}
