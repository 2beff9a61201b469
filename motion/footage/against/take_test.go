package against

import (
	"math"
	"math/rand/v2"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
	"seamrail/motion/law"
)

// leg is a part of an axis's round: from where it was, in so many frames, by a law.
type leg struct {
	frames float64
	to     float64
	law    law.Law // nil: it stands, or jumps nowhere
}

// round is a motion over one loop, that repeats.
func round(start float64, legs ...leg) (at func(frame float64) float64, loop float64) {
	for _, l := range legs {
		loop += l.frames
	}
	return func(frame float64) float64 {
		u := frame - loop*math.Floor(frame/loop)
		was := start
		for _, l := range legs {
			if u < l.frames {
				if l.law == nil {
					return was
				}
				return was + (l.to-was)*l.law.At(u/l.frames).S
			}
			u -= l.frames
			was = l.to
		}
		return was
	}, loop
}

// taking is how a take is made: what is true of it beside its plan.
type taking struct {
	frames  int
	zero    float64 // the frame of the recording that shows frame 0 of the plan
	noise   float64 // px
	outlier float64 // share of frames
	lost    float64 // share of frames of which nothing is known
	hidden  [2]int  // frames of which nothing is known
	smear   float64 // by how many times the noise grows in the fastest frames of a move, and poses say so
	doubt   float64 // px: what poses say of themselves
	seed    uint64
	gains   [][4]float64                                 // px to the right, px down, degrees, logarithm: a unit of each axis
	time    func(planned float64) float64                // the planned frame that is really shown
	axis    func(axis int, planned, pos float64) float64 // where an axis really is
	more    func(frame int, planned float64) [2]float64  // px on top
	motion  []func(frame float64) float64                // instead of the plan's
}

// fastest is how far fern's rail goes in a frame at most, mm: 15/8 of its mean speed, by its law.
const fastest = 100.0 / 60 * 15 / 8

// film makes the take.
func (k taking) film(p Plan) footage.Course {
	rng := rand.New(rand.NewPCG(k.seed, 1))
	c := footage.Course{About: footage.About{Width: 1920, Height: 1080}}
	rate, last := p.CaptureRate.Float(), float64(p.end()+p.RunOut)
	for i := range k.frames {
		planned := float64(i) - k.zero
		shown := planned
		if k.time != nil {
			shown = k.time(planned)
		}
		shown = min(max(shown, -float64(p.RunUp)), last)
		var sum [4]float64
		for a, axis := range p.Axes {
			pos := axis.At(shown / rate)
			if k.motion != nil {
				pos = k.motion[a](shown)
			}
			if k.axis != nil {
				pos = k.axis(a, shown, pos)
			}
			for w, g := range k.gains[a] {
				sum[w] += g * pos
			}
		}
		if k.more != nil {
			m := k.more(i, planned)
			sum[0], sum[1] = sum[0]+m[0], sum[1]+m[1]
		}
		noise := k.noise
		if k.smear > 0 {
			noise *= 1 + (k.smear-1)*math.Abs(p.Axes[0].At((shown+0.5)/rate)-p.Axes[0].At((shown-0.5)/rate))/fastest
		}
		pose := footage.Pose{X: 100 + sum[0] + noise*rng.NormFloat64(), Y: -40 + sum[1] + noise*rng.NormFloat64(), Known: true, Shared: 1}
		pose.Doubt = footage.Doubt{X: k.doubt, Y: k.doubt}
		if k.smear > 0 {
			pose.Doubt = footage.Doubt{X: noise, Y: noise}
		}
		arm := math.Sqrt((1920*1920 + 1080*1080) / 12.)
		pose.Turn = sum[2] + noise*rng.NormFloat64()/arm*180/math.Pi/2
		pose.Scale = math.Exp(sum[3] + noise*rng.NormFloat64()/arm/2)
		if rng.Float64() < k.outlier {
			pose.X, pose.Y = pose.X+100*rng.NormFloat64(), pose.Y+100*rng.NormFloat64()
		}
		if k.lost > 0 && rng.Float64() < k.lost || i >= k.hidden[0] && i < k.hidden[1] {
			pose = footage.Pose{}
		}
		c.Frames = append(c.Frames, footage.Frame{FromFirst: pose})
	}
	return c
}

// fern is the plan of the tests: a rail that goes there and back with a rest at each end, a round
// of 144 frames at 24 a second, three rounds; 8 px a mm.
func fern() (Plan, taking) {
	at, loop := round(0, leg{60, 100, law.MinimumJerk()}, leg{12, 100, nil}, leg{60, 0, law.MinimumJerk()}, leg{12, 0, nil})
	p := Plan{CaptureRate: exact.Int(24), Loop: int64(loop), Rounds: 3, RunUp: 12, RunOut: 24}
	p.Axes = []Axis{{Name: "rail", At: seconds(once(at, p)), Gain: &Gain{X: 8, Y: 0.4, Share: 0.01}}}
	return p, taking{frames: 490, zero: 31.3, noise: 0.05, seed: 7, gains: [][4]float64{{8, 0.4, 0, 0}}}
}

func mustLaw(name string) law.Law {
	l, err := law.Named(name)
	if err != nil {
		panic(err)
	}
	return l
}

// once is a motion in the rounds of a take; before and after them it stands.
func once(at func(float64) float64, p Plan) func(float64) float64 {
	end := float64(p.end())
	return func(frame float64) float64 {
		if frame < 0 || frame >= end {
			return at(0)
		}
		return at(frame)
	}
}
