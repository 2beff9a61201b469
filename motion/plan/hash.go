package plan

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
)

// hashDigits is how many hexadecimal digits of the digest are shown: sixteen
// tell any two plans of one lifetime apart and fit on a header line.
const hashDigits = 16

// hashGrain is how many parts of a unit the hash tells apart. A millionth of a
// millimetre is far below a step, and coarse enough that processors which
// round the last bit of a product differently agree on the hash.
const hashGrain = 1e6

// Hash identifies the motion: the clock, the loop, the stands, the limits and steps of
// each axis and its position at every captured frame, run-up and run-out. Two
// plans with the same hash move the rig the same way; titles, comments and how
// the controller is told do not count.
func (p *Plan) Hash() string {
	h := sha256.New()
	c := p.Loop.Clock
	fmt.Fprintf(h, "seamrail plan 1\nclock %s %s %s\nloop %d %d\nramps %d %d\n",
		c.Capture, c.Playback, c.Retime, p.Loop.Screen, p.Loop.Captured, p.RunUp, p.RunOut)
	if p.Back > 0 {
		fmt.Fprintf(h, "back %d\n", p.Back)
	}
	if f := p.ByFrame; f != nil {
		fmt.Fprintf(h, "frame by frame, from one side %v\n", f.OneSide)
	}
	fmt.Fprintf(h, "step rate %v\n", p.Rig.Controller.StepRate)
	for i := range p.Axes {
		p.hashAxis(h, &p.Axes[i])
	}
	p.hashStands(h)
	return hex.EncodeToString(h.Sum(nil))[:hashDigits]
}

func (p *Plan) hashAxis(h io.Writer, a *Axis) {
	r := a.Rig
	fmt.Fprintf(h, "axis %s %v %s %v %v %v %v %v %v %s %v %s\n", r.Name, r.Kind, r.Letter,
		r.Min, r.Max, r.Endless, r.MaxSpeed, r.MaxAcc, r.MaxJerk, r.StepsPerUnit, r.Reverse, a.Track.Advance())
	for k := range p.RoundFrames() {
		pos := a.Track.At(p.Loop.Clock.FrameTime(k).Float()).Pos
		fmt.Fprintf(h, "%.0f\n", pos*hashGrain)
	}
}
