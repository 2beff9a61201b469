package verify

import (
	"context"
	"fmt"
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/verify/trace"
)

// samplesPerFrame is how many times a frame the motion is looked at. Sixteen
// keep a law's peak between two looks within a ten-thousandth of the true one.
const samplesPerFrame = 16

// Bounds on the number of samples in a loop: enough for a loop of few frames
// to show its peaks, few enough for an hour of frames to be checked in a
// second.
const (
	minSamples = 4096
	maxSamples = 400_000
)

// limitTolerance is the share by which a measured peak may exceed a limit. A
// difference quotient of a smooth motion never exceeds its true peak, so this
// only has to cover rounding.
const limitTolerance = 1e-6

// machineNoise is the rounding of one float64 operation.
const machineNoise = 2.3e-16

// peaks are the extremes seen on a fine grid, from positions alone.
type peaks struct {
	lo, hi           float64
	speed, acc, jerk float64
	noise            [4]float64 // what rounding alone adds to each derivative
}

func measure(ctx context.Context, m Motion, i int) peaks {
	n := int(min(max(m.Captured()*samplesPerFrame, minSamples), maxSamples))
	h := m.Period().Float() / float64(n)
	p := peaks{lo: math.Inf(1), hi: math.Inf(-1)}
	adv := m.Advance(i).Float()
	x := make([]float64, n+3)
	for k := range x {
		if ctx.Err() != nil {
			return p
		}
		round, rest := k/n, k%n
		x[k] = m.Position(i, float64(rest)*h) + float64(round)*adv
	}
	end := m.Position(i, m.Period().Float())
	for k := 0; k < n; k++ {
		p.lo, p.hi = math.Min(p.lo, x[k]), math.Max(p.hi, x[k])
		p.speed = math.Max(p.speed, math.Abs(x[k+1]-x[k])/h)
		p.acc = math.Max(p.acc, math.Abs(x[k+2]-2*x[k+1]+x[k])/(h*h))
		p.jerk = math.Max(p.jerk, math.Abs(x[k+3]-3*x[k+2]+3*x[k+1]-x[k])/(h*h*h))
	}
	p.lo, p.hi = math.Min(p.lo, end), math.Max(p.hi, end)
	size := math.Max(math.Abs(p.lo), math.Abs(p.hi)) + math.Abs(adv)
	for d, weight := range []float64{1, 2, 4, 8} {
		p.noise[d] = weight * machineNoise * size * 4 / math.Pow(h, float64(d))
	}
	return p
}

func checkLimits(m Motion, i int, p peaks) []Finding {
	a := m.Limits(i)
	out := []Finding{checkTravel(a, p, m.Advance(i).Float()*float64(m.Rounds()-1)),
		checkPeak(a, "speed", p.speed, a.MaxSpeed, p.noise[1], dims(a)[1]),
		checkPeak(a, "acceleration", p.acc, a.MaxAcc, p.noise[2], dims(a)[2])}
	if a.MaxJerk > 0 {
		out = append(out, checkPeak(a, "jerk", p.jerk, a.MaxJerk, p.noise[3], dims(a)[3]))
	}
	return out
}

func dims(a trace.Axis) [4]unit.Dimension {
	if a.Rotary {
		return [4]unit.Dimension{unit.Angle, unit.AngularSpeed, unit.AngularAcceleration, unit.AngularJerk}
	}
	return [4]unit.Dimension{unit.Length, unit.Speed, unit.Acceleration, unit.Jerk}
}

// checkTravel holds the way over all rounds to the travel: gained is how far the
// axis has come by the start of the last.
func checkTravel(a trace.Axis, p peaks, gained float64) Finding {
	d := dims(a)[0]
	p.lo, p.hi = p.lo+math.Min(gained, 0), p.hi+math.Max(gained, 0)
	f := Finding{Axis: a.Name, Check: "travel", OK: true}
	f.Text = fmt.Sprintf("from %s to %s", unit.Format(p.lo, d), unit.Format(p.hi, d))
	if a.Endless {
		f.Text += ", endless"
		return f
	}
	slack := limitTolerance * (a.Max - a.Min)
	f.OK = p.lo >= a.Min-slack && p.hi <= a.Max+slack
	f.Text += fmt.Sprintf(" within %s to %s", unit.Format(a.Min, d), unit.Format(a.Max, d))
	if !f.OK {
		f.Text = fmt.Sprintf("from %s to %s leaves the travel %s to %s", unit.Format(p.lo, d),
			unit.Format(p.hi, d), unit.Format(a.Min, d), unit.Format(a.Max, d))
	}
	return f
}

func checkPeak(a trace.Axis, what string, value, bound, noise float64, d unit.Dimension) Finding {
	f := Finding{Axis: a.Name, Check: what}
	f.OK = value <= bound*(1+limitTolerance)+noise
	word := "within"
	if !f.OK {
		word = "exceeds"
	}
	f.Text = fmt.Sprintf("%s %s %s", unit.Format(value, d), word, unit.Format(bound, d))
	return f
}
