package picture

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

// seamSettings are where the loop ends and where it begins, the table reduced
// to what of its turn a picture can tell.
func (e *eye) seamSettings() (before, after setting) {
	return e.seamSetting(e.comingIn, 0), e.seamSetting(e.goingOut, 0)
}

func (e *eye) comingIn(i int) track.State {
	s := e.motion.Before(i, e.shownUntil().Float())
	if i == e.table {
		s.Pos = e.motion.State(i, 0).Pos + e.residual(s.Pos-e.motion.State(i, 0).Pos)
	}
	return s
}

// shownUntil is when the last frame of the loop is over: a round, unless the
// loop is cut back there and the rig comes back unseen.
func (e *eye) shownUntil() exact.Rat { return e.motion.FrameSeconds(e.motion.Captured()) }

func (e *eye) goingOut(i int) track.State { return e.motion.State(i, 0) }

// residual is what is left of a turn when as much of it is taken away as the
// product looks the same after, in degrees.
func (e *eye) residual(turned float64) float64 {
	return math.Remainder(turned, 360/float64(e.scene.Product.Symmetry()))
}

// seamSetting carries every axis on at its speed for sec.
func (e *eye) seamSetting(state func(int) track.State, sec float64) setting {
	return e.settingOf(func(i int) float64 {
		s := state(i)
		return s.Pos + s.Vel*sec
	})
}

// seamVerdict tells the jump of place and of speed in the picture where the
// loop closes.
func (e *eye) seamVerdict() Verdict {
	const check = "seam in the picture"
	if !e.scaled() {
		return unknown(check, "how far the picture jumps", e.missing...)
	}
	jump, kick := e.seamJumps()
	v := Verdict{Check: check, Level: Good, When: e.moment(0)}
	v.figure("jump", jump, "px")
	v.figure("kick", kick, "px/frame")
	v.gauge = math.Max(jump/e.bounds.SeamJump, kick/e.bounds.SeamKick)
	v.Text = fmt.Sprintf("at the seam the picture jumps %s px and its speed %s px a frame: ", short(calmed(jump, "px")), short(calmed(kick, "px/frame")))
	seen := jump > e.bounds.SeamJump || kick > e.bounds.SeamKick
	hides, known := e.hides()
	switch {
	case seen && e.lampsDown():
		v.Text += "hidden, as the lamps are down"
	case seen && hides:
		v.Text += "hidden by the dark"
	case seen && !known:
		v.Level = Unknown
		v.Text += "whether the dark hides it is not known"
	case jump > e.bounds.SeamJump && e.shownUntil().Less(e.motion.Period()):
		v.Level = Fair
		v.Text += "cut back by design, and seen unless something passes before the lens"
	case jump > e.bounds.SeamJump:
		v.Level = Poor
		v.Text += "seen as a cut"
	case kick > e.bounds.SeamKick:
		v.Level = Poor
		v.Text += "seen as a kick"
	default:
		v.Text += "not seen"
	}
	v.partly(e.leftOut(e.seen()...))
	return v
}

// seamJumps follows every spot of frame 0 on both sides of the seam.
func (e *eye) seamJumps() (jump, kick float64) {
	h := e.frame * speedSpan / 2
	look := func(state func(int) track.State) [3]view {
		var out [3]view
		for k := range out {
			out[k] = e.view(e.seamSetting(state, float64(k-1)*h))
		}
		return out
	}
	in, out := look(e.comingIn), look(e.goingOut)
	for _, s := range e.spotsIn(e.seamSetting(e.goingOut, 0)) {
		a, _ := in[1].see(s)
		b, _ := out[1].see(s)
		jump = math.Max(jump, a.to(b))
		va, vb := speedOf(in, s), speedOf(out, s)
		kick = math.Max(kick, va.to(vb)*e.frame/(2*h))
	}
	return jump, kick
}

// speedOf is how far a spot goes from the first to the last of three views.
func speedOf(v [3]view, s spot) pixel {
	a, _ := v[0].see(s)
	b, _ := v[2].see(s)
	return pixel{b.x - a.x, b.y - a.y}
}
