package judge

import (
	"fmt"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// rested judges what is left of the after-shake as frames are exposed that the rig rests
// in: by a model of one spring an axis, whose swings are in step at the worst.
func (c Case) rested() []picture.Verdict {
	perMM := lensview.PixelsPerMM(c.Shot, c.Rig, trajectory.New(c.Plan))
	var out []picture.Verdict
	for i, a := range c.Plan.Axes {
		if set := c.Frames.Abrupt(i); set > 0 {
			out = append(out, abrupt(a.Rig, set))
		}
		left, frame, known := c.Frames.Left(i)
		if !known || left == 0 {
			continue
		}
		v := picture.Verdict{Check: shakeOf + a.Rig.Name, Level: picture.Good}
		still, unit := c.Frames.Still(i), a.Rig.Unit()
		v.Text = fmt.Sprintf("as an exposure begins the load of %s swings by %s %s at most, at frame %d, as a model of one spring has it", a.Rig.Name, short(left), unit, frame)
		v.Figures = append(v.Figures, picture.Figure{Name: "left", Value: left, Unit: unit})
		if perMM > 0 && a.Rig.Kind == rig.Linear {
			v.Text += fmt.Sprintf(", %s px", short(left*perMM))
		}
		switch {
		case left <= still*(1+stillSlack):
			v.Text += ": no more than may be left"
		default:
			v.Level = picture.Poor
			v.Text += fmt.Sprintf(": more than %s %s", short(still), unit)
			v.Cures = fault.Cures{cure("frame-by-frame.settle", "foretold", `settle = "foretold"`)}
		}
		out = append(out, v)
	}
	if c.Rig.Controller.IdleDelay > 0 {
		out = append(out, picture.Verdict{
			Check: "motors at rest", Level: picture.Fair,
			Text:   "the controller takes the current off its motors while the rig rests: in an exposure it may sag, and be some steps elsewhere after it",
			Advice: []string{"motors that keep their current: its idle delay off, while this is filmed"},
		})
	}
	if n := c.Frames.Untold; len(n) > 0 {
		out = append(out, picture.Verdict{
			Check: "after-shake", Missing: []string{"shake of " + strings.Join(n, ", ")},
			Text: "how long the camera swings on after a move is not known: the rig states no shake of " + strings.Join(n, " and ") + ", and a second is waited; look at two frames in a row, or state settle",
		})
	}
	return out
}

// abrupt tells of an axis whose controller gives it more acceleration than it bears.
func abrupt(a rig.Axis, set float64) picture.Verdict {
	return picture.Verdict{
		Check: "ramps of " + a.Name, Level: picture.Fair,
		Text: fmt.Sprintf("between frames the controller makes the ramps of %s, at the %g %s/s2 that it is set to, and the axis is to have %g at most: it goes at a tenth of its speed, and every move begins with a small blow",
			a.Name, set, a.Unit(), a.MaxAcc),
		Advice: []string{fmt.Sprintf("an acceleration of %g %s/s2 in the controller's own settings, for as long as this is filmed", a.MaxAcc, a.Unit())},
	}
}

// stillSlack is rounding, as a share.
const stillSlack = 1e-9
