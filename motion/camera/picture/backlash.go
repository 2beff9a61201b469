package picture

import (
	"fmt"
	"math"

	"seamrail/motion/scene"
)

// looks is how many times a captured frame an axis is looked at for reversals.
const looks = 4

// Reversal is an instant at which an axis sets off the other way.
type Reversal struct {
	Axis    string
	Seconds float64 // real s from frame 0
	Pixels  float64 // that the picture lags there
}

// reversals finds where an axis turns round in the loop, the seam included: a
// dwell ends where it sets off again.
func (e *eye) reversals(axis int) []float64 {
	n := int(e.motion.Captured()) * looks
	if n > maxRows*looks {
		n = maxRows * looks
	}
	h := e.motion.Period().Float() / float64(n)
	way := func(k int) float64 {
		v := e.motion.State(axis, (float64(k)+0.5)*h).Vel
		if math.Abs(v) < moving {
			return 0
		}
		return math.Copysign(1, v)
	}
	last := 0.0
	for k := n - 1; k >= 0 && last == 0; k-- {
		last = way(k)
	}
	var out []float64
	for k := range n {
		if w := way(k); w != 0 {
			if w != last {
				out = append(out, e.sharpen(axis, (float64(k)-0.5)*h, h, w))
			}
			last = w
		}
	}
	return out
}

// sharpen halves its way to where the axis sets off the way w, within h after
// from.
func (e *eye) sharpen(axis int, from, h, w float64) float64 {
	lo, hi := math.Max(0, from), from+h
	for range 40 {
		if mid := (lo + hi) / 2; e.motion.State(axis, mid).Vel*w > moving {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// allReversals lists the reversals of an axis with backlash that are seen, in time
// order: those in shown frames, and at frame 0 what of the play is still to be taken
// up there of one before it, on the unseen way back or at the start of a run-up.
func (e *eye) allReversals(axis int) []Reversal {
	a := e.motion.Axis(axis)
	lost := e.scene.Backlash[a.Name]
	until, period := e.shownUntil().Float(), e.motion.Period().Float()
	var out []Reversal
	left := e.leftOfRunUp(axis, lost)
	for _, at := range e.reversals(axis) {
		if at < until-turnSlack {
			out = append(out, Reversal{a.Name, at, e.perUnit(at, axis, lost)})
			continue
		}
		// The last one on the way back is the one that counts.
		way := math.Abs(e.motion.Before(axis, period).Pos - e.motion.State(axis, at).Pos)
		left = math.Max(0, lost-way)
	}
	if left > 0 && until < period || left > 0 && e.motion.State(axis, 0).Vel != 0 {
		out = append([]Reversal{{a.Name, 0, e.perUnit(0, axis, left)}}, out...)
	}
	return out
}

// turnSlack is how near to the end of the shown frames, in s, an axis sets off with
// the way back: it is found by halving.
const turnSlack = 1e-9

// leftOfRunUp is how much play a run-up leaves: none where an axis comes from home
// the way that it is filmed going.
func (e *eye) leftOfRunUp(axis int, lost float64) float64 {
	up, _ := e.motion.RampFrames()
	begin := e.motion.TakeState(axis, 1, -float64(up)*e.frame).Pos
	now := e.motion.State(axis, 0)
	if up == 0 || math.Abs(now.Vel) < moving || (begin-e.motion.Axis(axis).Home)*now.Vel > 0 {
		return 0
	}
	return math.Max(0, lost-math.Abs(now.Pos-begin))
}

func (e *eye) backlashVerdict(axis int) Verdict {
	name := e.motion.Axis(axis).Name
	check := "backlash of " + name
	lost, known := e.scene.Backlash[name]
	if !known || !e.scaled() {
		missing := append([]string{}, e.missing...)
		if !known {
			missing = append(missing, "backlash of "+name)
		}
		return unknown(check, "how far the picture lags where "+name+" turns round", missing...)
	}
	all := e.allReversals(axis)
	if len(all) == 0 {
		text := name + " never turns round"
		if len(e.reversals(axis)) > 0 {
			text += " while it is filmed, and its play is taken up before frame 0"
		}
		return Verdict{Check: check, Level: Good, Text: text}
	}
	worst := all[0]
	for _, r := range all {
		if r.Pixels > worst.Pixels {
			worst = r
		}
	}
	v := Verdict{Check: check, Level: Good, When: e.moment(worst.Seconds)}
	v.figure("lag", worst.Pixels, "px")
	v.gauge = worst.Pixels
	v.figure("reversals", float64(len(all)), "")
	v.Text = fmt.Sprintf("%s turns round %d times; the picture lags by at most %s px there", name, len(all), short(worst.Pixels))
	if len(all) == 1 {
		v.Text = name + " turns round once; the picture lags by " + short(worst.Pixels) + " px there"
	}
	if all[0].Seconds == 0 && e.motion.State(axis, 0).Vel != 0 {
		v.Text += ", where play is still being taken up in frame 0"
	}
	if worst.Pixels <= e.bounds.Backlash {
		v.Text += ": not seen"
		v.partly(e.leftOut(axis))
		return v
	}
	v.Level = Poor
	u := e.motion.Axis(axis).Unit()
	v.Text += fmt.Sprintf(": seen as a halt while %s %s of play are taken up", short(lost), u)
	tight := lost * e.bounds.Backlash / worst.Pixels
	v.try(ofPlay, func(s *scene.Scene) { s.Backlash[name] = tight }, "%s tightened to %s %s of play", name, round(tight, 2), u)
	v.advise("a weight or a spring that %s always leans one way on", name)
	if worst.Seconds == 0 && e.motion.State(axis, 0).Vel != 0 {
		v.advise("a longer run-up of %s", name)
	} else {
		v.advise("a move of %s that does not turn round while it is filmed", name)
	}
	return v
}
