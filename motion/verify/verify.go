// Package verify checks a finished trajectory against the rig. It shares no
// code with the planner: it sees positions and step times alone, takes its own
// derivatives by finite differences, and forms its own opinion of limits, seam
// and steps.
package verify

import (
	"context"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// Motion is what the verifier looks at. A *trajectory.Trajectory is one.
type Motion interface {
	StepRate() float64 // steps/s; 0 = not stated
	AxisCount() int
	Limits(i int) trace.Axis
	Rounds() int64                       // rounds in a take, at least 1
	Captured() int64                     // frames in the loop shown
	Shown() exact.Rat                    // real seconds of a round that are shown
	Period() exact.Rat                   // real seconds of a round, those of a way back too
	Cut(i int) trace.Cut                 // what the axis does at the end of what is shown
	Advance(i int) exact.Rat             // units gained a round
	Position(i int, sec float64) float64 // 0 <= sec <= period
	StepsAlong(rounds int64) func() (trace.Step, bool)
	StepIndex(i int, round int64) int64
	FrameSeconds(k int64) exact.Rat
}

// Finding is one thing that was checked.
type Finding struct {
	Axis  string // empty where it concerns the whole loop
	Check string // "frames", "travel", "speed", "steps close", ...
	OK    bool
	Text  string // what was found, with numbers
}

// Verdict is the verifier's word on a trajectory.
type Verdict struct {
	OK       bool
	Findings []Finding
	Seam     []AxisSeam
	Steps    []AxisSteps

	// Fails and Unknown name checks beside those of Findings, the picture's among
	// them, that fail or could not be made. Check leaves them out: it sees none of them.
	Fails, Unknown []string
}

// With is the verdict with what others have found, in the same words as its own.
func (v Verdict) With(more ...Finding) Verdict {
	v.Findings = slices.Clone(v.Findings)
	v.add(more...)
	return v
}

// Beside is the verdict with the names of what else fails or is not known.
func (v Verdict) Beside(fails, unknown []string) Verdict {
	v.Fails, v.Unknown = fails, unknown
	return v
}

// AxisSteps counts what one axis steps in a round.
type AxisSteps struct {
	Axis     string
	Forward  int64     // steps towards greater positions
	Backward int64     // steps towards lesser positions
	Gain     exact.Rat // exact steps gained a round, whole or not
	Rate     float64   // greatest steps a second, from the closest two
}

// Failed returns the findings that are not in order.
func (v Verdict) Failed() []Finding {
	var out []Finding
	for _, f := range v.Findings {
		if !f.OK {
			out = append(out, f)
		}
	}
	return out
}

// String is "verified" or "rejected".
func (v Verdict) String() string {
	if v.OK {
		return "verified"
	}
	return "rejected"
}

// Check verifies a motion. It never fails: what cannot be verified is a
// finding that is not OK.
func Check(m Motion) Verdict {
	v, _ := CheckUntil(context.Background(), m)
	return v
}

// CheckUntil is Check until ctx ends, whose error it then returns.
func CheckUntil(ctx context.Context, m Motion) (Verdict, error) {
	v := Verdict{OK: true}
	v.add(checkFrames(ctx, m))
	seen := make([]peaks, m.AxisCount())
	for i := range seen {
		seen[i] = measure(ctx, m, i)
		p := seen[i]
		v.add(checkLimits(m, i, p)...)
		seam := measureSeam(m, i, p)
		v.add(seam.finding())
		if cutBack(m) {
			seam = measureCut(m, i, p)
			v.add(seam.cutFinding(m.Cut(i).Follows))
		}
		v.Seam = append(v.Seam, seam)
	}
	steps, findings := checkSteps(ctx, m, seen)
	v.Steps = steps
	v.add(findings...)
	v.add(checkStands(ctx, m)...)
	return v, ctx.Err()
}

func (v *Verdict) add(findings ...Finding) {
	for _, f := range findings {
		v.OK = v.OK && f.OK
		v.Findings = append(v.Findings, f)
	}
}
