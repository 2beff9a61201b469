package picture

import (
	"math"
	"slices"

	"seamrail/motion/camera/light"
)

// Image speeds are taken from two places an eighth of a captured frame apart:
// near enough for a straight line, far enough from rounding.
const speedSpan = 1.0 / 8

// velocities returns how fast spots move through the picture at sec, in px a
// real second.
func (e *eye) velocities(sec float64, see func(spot, pixel)) {
	h := e.frame * speedSpan / 2
	before, after := e.view(e.at(sec-h)), e.view(e.at(sec+h))
	for _, s := range e.spotsIn(e.at(sec)) {
		a, ok1 := before.see(s)
		b, ok2 := after.see(s)
		if ok1 && ok2 {
			see(s, pixel{(b.x - a.x) / (2 * h), (b.y - a.y) / (2 * h)})
		}
	}
}

// speed is the greatest speed of any spot at sec, in frame widths per
// on-screen second; NaN where the width is not known.
func (e *eye) speed(sec float64) float64 {
	if !e.wide.Given {
		return math.NaN()
	}
	most := 0.0
	e.velocities(sec, func(_ spot, v pixel) { most = math.Max(most, math.Hypot(v.x, v.y)) })
	return most * e.retime / e.wide.Value
}

func (e *eye) speedVerdict(rows []Row) Verdict {
	const check = "screen speed"
	if !e.scaled() || !e.wide.Given {
		missing := append([]string{}, e.missing...)
		if !e.wide.Given {
			missing = append(missing, "pixels wide")
		}
		return unknown(check, "how fast things cross the picture", missing...)
	}
	k := greatest(rows, func(r Row) float64 { return r.Speed })
	if k < 0 {
		return unseen(check)
	}
	v := Verdict{Check: check, Level: Good, When: e.moment(rows[k].Seconds)}
	speed := rows[k].Speed
	v.gauge = speed
	v.figure("speed", speed, "widths/s")
	v.Text = "at most " + short(speed) + " picture widths a second on screen, at frame " + frameText(rows[k].Frame) + ": "
	switch {
	case speed > e.bounds.BriskSpeed:
		v.Level = Poor
		v.Text += "judders at the timeline's frame rate"
		e.calm(&v, speed/e.bounds.CalmSpeed)
	case speed > e.bounds.CalmSpeed:
		v.Level = Fair
		v.Text += "brisk, and fit for a soft background"
		e.calm(&v, speed/e.bounds.CalmSpeed)
	default:
		v.Text += "calm"
	}
	v.partly(e.leftOut(e.seen()...))
	return v
}

// calm adds what makes all in the picture some times as slow.
func (e *eye) calm(v *Verdict, times float64) {
	e.tryLonger(v, times)
	for _, i := range append(slices.Clone(e.slides), e.pan, e.tilt) {
		if i >= 0 {
			e.tryLess(v, i, 1/times)
		}
	}
	e.tryFarther(v, times)
}

// angleVerdict tells the shutter as an angle of the captured frame.
func (e *eye) angleVerdict() Verdict {
	const check = "shutter angle"
	if !e.shutter.Given {
		return unknown(check, "whether motion looks natural", "shutter")
	}
	if e.rests() {
		return Verdict{Check: check, Level: Good, Text: "every frame is crisp, as the rig rests in it; what is quick on screen stutters"}
	}
	angle := 360 * e.shutter.Value / e.frame
	v := Verdict{Check: check, Level: Good, Text: "shutter " + light.ShutterText(e.shutter.Value) + " is " + short(angle) + " degrees of a captured frame: "}
	v.figure("angle", angle, "deg")
	half := light.NoLonger(e.frame / 2)
	v.gauge = math.Abs(math.Log2(angle / 180))
	switch {
	case angle < e.bounds.LeastAngle:
		v.Level = Fair
		v.Text += "crisp, and fast things will stutter"
		e.trySeconds(&v, half, "about %s, the half circle")
	case angle > e.bounds.MostAngle:
		v.Level = Fair
		v.Text += "flowing, and fast things will run"
		e.trySeconds(&v, half, "about %s, the half circle")
	default:
		v.Text += "natural"
	}
	return v
}
