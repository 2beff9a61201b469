package plot

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/plot/chart/lawplot"
)

// comparison returns what draws laws together, over the way out of the first
// axis that goes there and back.
func comparison(j *job.Job, format string, names []string, jerk bool) (func(io.Writer) error, error) {
	laws := make([]law.Law, len(names))
	for i, n := range names {
		l, err := law.Named(strings.TrimSpace(n))
		if err != nil {
			return nil, fmt.Errorf("--compare: %w", err)
		}
		laws[i] = l
	}
	for i := range j.Plan.Axes {
		if m, ok := j.Plan.Axes[i].Move.Does.(move.Shuttle); ok {
			d := compareData(j.Plan, &j.Plan.Axes[i], m.Going(), laws)
			return func(w io.Writer) error {
				return lawplot.Draw(w, format, d, lawplot.Options{Jerk: jerk})
			}, nil
		}
	}
	return nil, errors.New("--compare needs an axis that goes there and back, and the shot has none")
}

func compareData(p *plan.Plan, a *plan.Axis, w move.Ways, laws []law.Law) lawplot.Data {
	out := w.WayOut(p.Loop.Real())
	return lawplot.Data{
		Title: fmt.Sprintf("%s: %s to %s", a.Rig.Name, w.From, w.To),
		Lines: []string{fmt.Sprintf("%s from rest to rest, %s s on screen", unit.Format(out.Float(), unit.Time),
			out.Quo(p.Loop.Clock.Retime).Decimal(3))},
		Unit: a.Rig.Unit(), Travel: w.Travel(), Seconds: out.Float(), Laws: laws,
		Speed: a.Rig.MaxSpeed, Acc: a.Rig.MaxAcc, Jerk: a.Rig.MaxJerk,
	}
}
