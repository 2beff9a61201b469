package cli

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
	"seamrail/motion/unit"
	"seamrail/plot/compare"
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
		if a := &j.Plan.Axes[i]; a.Move.Move == shot.ThereAndBack {
			d := compareData(j.Plan, a, laws)
			return func(w io.Writer) error {
				return compare.Draw(w, format, d, compare.Options{Jerk: jerk})
			}, nil
		}
	}
	return nil, errors.New("--compare needs an axis that goes there and back, and the shot has none")
}

func compareData(p *plan.Plan, a *plan.Axis, laws []law.Law) compare.Data {
	m := a.Move
	travel := math.Abs(m.To.Float() - m.From.Float())
	out := wayOut(p, m)
	return compare.Data{
		Title: fmt.Sprintf("%s: %s to %s", a.Rig.Name, m.From, m.To),
		Lines: []string{fmt.Sprintf("%s from rest to rest, %s s on screen", unit.Format(out.Float(), unit.Time),
			out.Quo(p.Loop.Clock.Retime).Decimal(3))},
		Unit: a.Rig.Unit(), Travel: travel, Seconds: out.Float(), Laws: laws,
		Speed: a.Rig.MaxSpeed, Acc: a.Rig.MaxAcc, Jerk: a.Rig.MaxJerk,
	}
}

// wayOut returns the real seconds of one way out: the share of a cycle's
// moving time that it has.
func wayOut(p *plan.Plan, m shot.AxisMove) exact.Rat {
	cycle := p.Loop.Real().Quo(exact.Int(int64(m.Cycles)))
	return cycle.Sub(m.DwellFar).Sub(m.DwellNear).Mul(m.OutShare)
}
