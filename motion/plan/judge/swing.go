package judge

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/camera/picture"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration/survey"
)

const (
	shakeOf  = "after-shake of "
	settleOf = "settling of "
	atSeam   = " at the seam"
)

// A swing of half a pixel is not seen, and a pixel holds no more than one: the
// bounds of a seam's jump and of smear.
const (
	unseenSwing = 0.5
	seenSwing   = 1
)

// swings judges the after-shake of every axis that moves and is known to swing, and
// says of which others nothing is known.
func (c Case) swings() []picture.Verdict {
	known := map[string]bool{}
	var out []picture.Verdict
	for _, a := range c.Shakes {
		known[a.Name] = true
		out = append(out, c.swing(a)...)
	}
	var untold []string
	for _, a := range moved(c.Plan) {
		// What nothing speeds up swings in no way.
		if !known[a.Rig.Name] && a.Extremes.Acc.Value != 0 {
			untold = append(untold, a.Rig.Name)
		}
	}
	if len(untold) > 0 {
		out = append(out, picture.Verdict{
			Check: "after-shake", Missing: []string{"shake of " + strings.Join(untold, ", ")},
			Text: "how the camera swings on after a move is not known: the rig states no shake of " + strings.Join(untold, " and "),
		})
	}
	return out
}

func (c Case) swing(a survey.Axis) []picture.Verdict {
	if a.Why != "" {
		return []picture.Verdict{{Check: shakeOf + a.Name, Text: "not known: " + a.Why}}
	}
	if a.PixelsPerUnit == 0 {
		return []picture.Verdict{{
			Check: shakeOf + a.Name, Missing: []string{"pixels to a " + a.Unit + " of the picture"},
			Text: fmt.Sprintf("it swings by up to %s %s; what that is in the picture is not known", short(most(a)), a.Unit),
		}}
	}
	shaking := c.shaking(a)
	if shaking.Level == picture.Poor {
		shaking.Cures = c.calmer(a, func(x Case, b survey.Axis) bool { return x.shaking(b).Level < picture.Poor }, c.softer(a)...)
	}
	out := []picture.Verdict{shaking}
	if len(a.Rests) > 0 {
		out = append(out, c.settled(a))
	}
	return append(out, c.unlike(a))
}

// settled is settling with what would help.
func (c Case) settled(a survey.Axis) picture.Verdict {
	v := c.settling(a)
	if v.Level == picture.Poor {
		needs, _ := v.Figure("settles in")
		good := func(x Case, b survey.Axis) bool { return len(b.Rests) > 0 && x.settling(b).Level == picture.Good }
		v.Cures = c.calmer(a, good, slices.Concat(c.longer(a, needs), c.softer(a))...)
	}
	return v
}

// most is the greatest swing, in units: as a rest begins, or beside the lag of the
// move.
func most(a survey.Axis) float64 { return math.Max(math.Abs(a.Ring.Value), a.Left) }

// shaking judges the swing while it moves and as each rest begins.
func (c Case) shaking(a survey.Axis) picture.Verdict {
	px := a.Pixels(most(a))
	v := picture.Verdict{Check: shakeOf + a.Name, Figures: []picture.Figure{{Name: "swing", Value: px, Unit: "px"}}}
	v.Text = fmt.Sprintf("the load of %s swings by %s px, as a model of one spring has it: ", a.Name, short(px))
	switch {
	case px <= unseenSwing:
		v.Level = picture.Good
		v.Text += "not seen"
	case px <= seenSwing:
		v.Level = picture.Fair
		v.Text += "hardly seen"
	default:
		v.Level = picture.Poor
		v.Text += "seen"
	}
	return v
}

// softer are changes that may leave less after-shake.
func (c Case) softer(a survey.Axis) fault.Cures {
	path := source.Join("axis", a.Name) + ".shaped"
	out := fault.Cures{cure(path, "zv", `shaped = "zv"`), cure(path, "zvd", `shaped = "zvd"`)}
	for _, times := range []float64{1.1, 1.25, 1.5, 2, 3} {
		if n := c.wholeLoop(times); n > 0 {
			out = append(out, aLoop(n, ""))
		}
	}
	return out
}

// maxCures is as many as anyone weighs.
const maxCures = 2

// calmer are those changes that the rig can do and that are good enough.
func (c Case) calmer(a survey.Axis, good func(Case, survey.Axis) bool, all ...fault.Cure) fault.Cures {
	var out fault.Cures
	loops := false
	for _, x := range all {
		loop := x.Edits[0].Path == "clock.loop"
		if loop && loops || len(out) == maxCures {
			continue
		}
		y, ok := c.after(x)
		if !ok {
			continue
		}
		for _, b := range survey.OfPlan(y.Plan, a.PixelsPerUnit) {
			if b.Name == a.Name && b.Why == "" && good(y, b) {
				out = append(out, x)
				loops = loops || loop
			}
		}
	}
	return out
}

// longer are dwells at either end in which the load may settle.
func (c Case) longer(a survey.Axis, frames float64) fault.Cures {
	var out fault.Cures
	k := c.Plan.Loop.Clock
	for _, times := range []float64{1, 1.25, 1.5, 2} {
		n := fmt.Sprintf("%d frames", int64(math.Ceil(times*frames/k.PerScreen().Float())))
		for _, key := range []string{"dwell-far", "dwell-near"} {
			out = append(out, cure(source.Join("axis", a.Name)+"."+key, n, "%s = %q", key, n))
		}
	}
	return out
}

// settling judges whether each rest lasts until the swing is no longer seen.
func (c Case) settling(a survey.Axis) picture.Verdict {
	v := picture.Verdict{Check: settleOf + a.Name, Level: picture.Good}
	worst := a.Rests[0]
	for _, r := range a.Rests {
		if r.Left > worst.Left {
			worst = r
		}
	}
	left, rate := a.Pixels(worst.Left), c.Plan.Loop.Clock.Capture.Float()
	needs := math.Ceil(a.Measured.Spring.Fades(a.Pixels(worst.Swing), unseenSwing) * rate)
	v.Figures = []picture.Figure{{Name: "left", Value: left, Unit: "px"}, {Name: "settles in", Value: needs, Unit: "frames"}}
	if left <= unseenSwing {
		v.Text = fmt.Sprintf("every rest of %s is long enough for it to settle", a.Name)
		return v
	}
	v.Level = picture.Poor
	v.Text = fmt.Sprintf("a rest of %s lasts %s captured frames, and it takes %s to settle: it swings by %s px as it moves on",
		a.Name, short((worst.To-worst.From)*rate), short(needs), short(left))
	return v
}

// maxRounds is how many rounds are offered for a rig to settle in.
const maxRounds = 100

// unlike judges what of the beginning of the take is still there in the round to
// keep: its last frame then finds the load elsewhere than its first.
func (c Case) unlike(a survey.Axis) picture.Verdict {
	keep := shot.KeptRound(int64(c.Plan.Rounds))
	px := a.Pixels(a.Unlike(keep))
	v := picture.Verdict{Check: shakeOf + a.Name + atSeam, Level: picture.Good, Figures: []picture.Figure{{Name: "jump", Value: px, Unit: "px"}}}
	v.Text = fmt.Sprintf("at the seam of round %d the load of %s swings as it did a round before, to %s px", keep+1, a.Name, short(px))
	if px <= unseenSwing {
		return v
	}
	v.Level = picture.Poor
	v.Text = fmt.Sprintf("round %d still swings as the take began: its seam jumps by up to %s px on %s", keep+1, short(px), a.Name)
	for n := keep + 1; n <= maxRounds; n++ {
		if a.Pixels(a.Unlike(n)) <= unseenSwing {
			v.Cures = append(v.Cures, rounds(2*n, ", of which the one to keep has settled"))
			break
		}
	}
	return v
}
