package judge

import (
	"fmt"
	"math"

	"seamrail/motion/base/fault"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// OwnRounds is the check on whether a rig that is started by hand comes round as the loop
// does.
const OwnRounds = ClosingOf + "the rig"

// byHand judges whether the rig's own round closes the loop: nothing tells it how fast the
// camera's clock runs.
func (c Case) byHand() []picture.Verdict {
	if c.Plan.Set == nil {
		return nil
	}
	v := c.ownRounds()
	if v.Level == picture.Poor {
		v.Cures = c.closer()
	}
	return []picture.Verdict{v}
}

// ownSeam is the jump of the seam that comes of the rig's own rounds, at the axis at which
// it is greatest, in units and in px; known tells whether the picture says how many of them.
func (c Case) ownSeam() (s plan.Slip, jump float64, axis *plan.Axis, px, kick float64, known bool) {
	s = c.Plan.Slip()
	scale := lensview.PixelsPerMM(c.Shot, c.Rig, trajectory.New(c.Plan))
	for _, a := range moved(c.Plan) {
		travel := a.Extremes.Max.Value - a.Extremes.Min.Value
		if axis == nil || s.Jump*travel > jump {
			jump, axis = s.Jump*travel, a
		}
		if a.Rig.Kind == rig.Linear {
			px, kick, known = math.Max(px, s.Jump*travel*scale), math.Max(kick, s.Kick*travel*scale), scale > 0
		}
	}
	return s, jump, axis, px, kick, known
}

func (c Case) ownRounds() picture.Verdict {
	s, jump, axis, px, kick, known := c.ownSeam()
	v := picture.Verdict{Check: OwnRounds, Level: picture.Good}
	off := s.Off.Float()
	v.Figures = []picture.Figure{{Name: "longer by", Value: off, Unit: "frames"}, {Name: "known to", Value: s.Spread, Unit: "frames"}}
	v.Text = fmt.Sprintf("the loop is longer than the rig's own round by %s captured frames", short(off))
	buttons := c.Rig.Controller.Buttons
	if !c.Plan.Set.Pressed && !buttons.Measured() {
		v.Level, v.Missing = picture.Unknown, []string{"controller.buttons.measured"}
		v.Text += fmt.Sprintf(", if its clock is right, and nobody has measured that: each thousandth that it is off by makes %s frames", short(c.Plan.Set.Round().Mul(c.Plan.Loop.Clock.Capture).Float()/1000))
		return v
	}
	v.Text += fmt.Sprintf(", known to %s", short(s.Spread))
	v.Figures = append(v.Figures, picture.Figure{Name: "jump", Value: jump, Unit: axis.Rig.Unit()})
	switch {
	case jump == 0 && kick == 0:
		v.Text += ": it rests at the seam all the same"
	case !known:
		v.Level = picture.Unknown
		v.Text += fmt.Sprintf(": the seam of the round to keep jumps by up to %s %s; what that is in the picture is not known", short(jump), axis.Rig.Unit())
	default:
		v.Figures = append(v.Figures, picture.Figure{Name: "in the picture", Value: px, Unit: "px"}, picture.Figure{Name: "kick", Value: kick, Unit: "px/frame"})
		v.Text += fmt.Sprintf(": the seam of the round to keep jumps by up to %s %s, %s px, and its speed by %s px a frame", short(jump), axis.Rig.Unit(), short(px), short(kick))
		if b := c.bounds(); px > b.SeamJump || kick > b.SeamKick {
			v.Level = picture.Poor
		}
	}
	return v
}

// closer is what would have the rig rest at the seam, or jump by less than is seen: one
// round a take, a longer rest at the near end, another loop that the buttons offer.
func (c Case) closer() fault.Cures {
	var out fault.Cures
	try := func(x fault.Cure) {
		if len(out) == maxCures {
			return
		}
		if y, ok := c.after(x); ok && y.ownRounds().Level < picture.Poor {
			out = append(out, x)
		}
	}
	if c.Plan.Rounds > 1 && !c.Plan.Set.Pressed {
		try(cure("take.rounds", "1", "takes of one round, started anew each time (take.rounds = 1)"))
	}
	for _, o := range c.Plan.Offers() {
		if !o.Loop.Clock.Capture.Equal(c.Plan.Loop.Clock.Capture) || o.Loop.Screen == c.Plan.Loop.Screen {
			continue
		}
		try(aLoop(o.Loop.Screen, ", with a way of "+o.Set.Way.Decimal(secondDigits)+" s"))
	}
	return out
}

// secondDigits is to what buttons are set at the finest.
const secondDigits = 2
