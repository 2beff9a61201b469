package judge

import (
	"fmt"
	"math/big"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/picture"
	"seamrail/motion/edit/selects"
)

// cadence judges how evenly captured frames fall on the timeline. Where they fall
// unevenly, the picture of timeline frame i is that of captured frame floor(i p)
// in place of i p: it hangs back by up to a frame less a part, by turns.
func (c Case) cadence() picture.Verdict {
	k := c.Plan.Loop.Clock.Cadence()
	v := picture.Verdict{Check: "cadence", Level: picture.Good, Text: k.Text}
	if k.Even {
		return v
	}
	v.Level = picture.Poor
	v.Text += ": it stutters"
	if px, known := c.stutter(); known {
		v.Figures = append(v.Figures, picture.Figure{Name: "stutter", Value: px, Unit: "px"})
		v.Text += fmt.Sprintf(", by up to %s px", short(px))
		if px <= c.bounds().StepPixels {
			v.Level = picture.Fair
			v.Text = k.Text + fmt.Sprintf(": the move stutters by %s px at most, which is not seen; what moves by itself may", short(px))
		}
	}
	v.Cures = c.evenRetimes()
	return v
}

// stutter is how far off its even way the picture is at the worst, in px, and
// whether that is known.
func (c Case) stutter() (float64, bool) {
	if c.Picture == nil || c.Shot.Scene == nil || !c.Shot.Scene.Camera.PixelsWide.Given {
		return 0, false
	}
	v, _ := c.Picture.Find("screen speed")
	widths, ok := v.Figure("speed")
	if !ok || v.Level == picture.Unknown {
		return 0, false
	}
	k := c.Plan.Loop.Clock
	per := k.PerScreen() // captured frames a timeline frame
	parts, _ := new(big.Float).SetInt(per.Den()).Float64()
	frame := widths * c.Shot.Scene.Camera.PixelsWide.Value / k.Playback.Float() / per.Float() // px a captured frame
	return frame * (1 - 1/parts), true
}

// evenRetimes are the next retimes on either side with which every captured frame
// is shown equally often, or every nth is, and which the rig can do.
func (c Case) evenRetimes() fault.Cures {
	k := c.Plan.Loop.Clock
	per, one := k.PerScreen(), exact.Int(1)
	lower, upper := per.Floor(), per.Ceil()
	if per.Less(one) {
		lower, upper = per.Inv().Ceil().Inv(), per.Inv().Floor().Inv()
	}
	var out fault.Cures
	for _, even := range []exact.Rat{lower, upper} {
		retime := even.Mul(k.Playback).Quo(k.Capture)
		if even.Sign() <= 0 {
			continue
		}
		one := cure("clock.retime", retime.String(), "retime = %q, %s", retime, pace(retime))
		if x, ok := c.after(one); ok && x.Plan.Loop.Clock.Cadence().Even {
			one.Words += ": " + x.Plan.Loop.Clock.Cadence().Text
			out = append(out, one)
		}
	}
	return out
}

// handles judges whether the take holds the frames beside the cut that the shot
// asks for, at pace; none where it asks for none.
func (c Case) handles() []picture.Verdict {
	if c.Plan.Handles == 0 {
		return nil
	}
	v := picture.Verdict{Check: "handles", Level: picture.Good, Text: "the take holds the frames beside the cut that the shot asks for"}
	if !c.holds() {
		v.Level, v.Text = picture.Poor, "the take holds fewer frames beside the cut, at pace, than the shot asks for"
		for n := c.Plan.Rounds + 1; n <= maxRounds; n++ {
			if x, ok := c.after(rounds(int64(n), "")); ok && x.holds() {
				v.Cures = fault.Cures{rounds(int64(n), "")}
				break
			}
		}
	}
	return []picture.Verdict{v}
}

func (c Case) holds() bool {
	s := selects.Of(c.Plan, nil).Kept[0]
	return s.Before >= c.Plan.Handles && s.After >= c.Plan.Handles
}

// pace says how the picture's speed stands to life's.
func pace(retime exact.Rat) string {
	switch retime.Cmp(exact.Int(1)) {
	case 0:
		return "as fast as life"
	case -1:
		return retime.Inv().Decimal(3) + " times slower than life"
	}
	return retime.Decimal(3) + " times faster than life"
}
