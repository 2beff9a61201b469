package logbook

import (
	"fmt"
	"strings"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/passes"
	"seamrail/motion/edit/selects"
)

// Group reads the takes of a group from the log of a shot: those on a rig of metal, or the
// virtual ones.
func Group(shotFile, group string, virtual bool) ([]passes.Filmed, error) {
	var out []passes.Filmed
	_, _, err := Walk(NameOf(shotFile), func(t takelog.Take) error {
		if t.Begin.Group == group && t.Virtual() == virtual {
			out = append(out, PassOf(t))
		}
		return nil
	})
	return out, err
}

// Groups names the groups of the log of a shot, in the order they were begun.
func Groups(shotFile string) (out []string, err error) {
	seen := map[string]bool{}
	_, _, err = Walk(NameOf(shotFile), func(t takelog.Take) error {
		if g := t.Begin.Group; g != "" && !seen[g] {
			seen[g] = true
			out = append(out, g)
		}
		return nil
	})
	return out, err
}

// PassOf is a take as a pass of its group.
func PassOf(t takelog.Take) passes.Filmed {
	f := passes.Filmed{
		Take: t.Number, Pass: t.Begin.Pass, Plan: t.Begin.Plan, Clip: t.Clip, Rounds: t.End.Rounds, Planned: t.Planned(), Took: t.End.Executed, OutBy: t.End.Uncertainty,
		Held: t.End.Held, Cut: t.Cut, Keep: t.Keep, Why: t.Why,
	}
	f.Marks = MarksOf(t)
	if t.FrameByFrame() {
		f.Stills = &passes.Stills{From: t.Begin.Frames, Exposed: t.Frames, Of: t.Begin.Of}
	}
	if !t.Cut && t.End.Outcome != drive.Finished.String() {
		f.Ended = t.End.Outcome
	}
	for _, w := range t.End.Worst {
		f.Off = append(f.Off, selects.Off{Axis: w.Axis, Unit: w.Unit, Value: w.Value})
	}
	if s := t.Begin.Start; s != nil {
		capture, _ := exact.Parse(s.Capture) // what is no number is 0, which no rate is
		f.Start = passes.Start{Capture: capture, Frames: s.Frames, RunUp: s.RunUp}
		for _, a := range s.Axes {
			f.Start.Axes = append(f.Start.Axes, passes.Place{Axis: a.Axis, Unit: a.Unit, Planned: a.Planned, Stood: a.Stood, From: a.From, Low: a.Low, High: a.High})
		}
	}
	return f
}

// joins is an error where a take of a plan would not match the passes that a group has: it
// is another plan. What differs is said.
func joins(shotFile, group string, virtual bool, next passes.Filmed) error {
	takes, err := Group(shotFile, group, virtual)
	if err != nil || len(takes) == 0 {
		return err
	}
	first := takes[0]
	differs := passes.Differs(first, next)
	if len(differs) == 0 {
		return nil
	}
	return fmt.Errorf("the passes of %s would not match: take %d of it was filmed by plan %s, and this is plan %s: %s; put the shot back as it was, or begin another group",
		group, first.Take, first.Plan, next.Plan, strings.Join(differs, "; "))
}
