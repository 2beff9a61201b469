package plan

import (
	"math"

	"seamrail/motion/fault"
	"seamrail/motion/shot"
)

// A loop that is cut back from its last frame to its first is filmed in rounds
// of which only the loop is shown: then every axis goes, unseen, to where it is
// at frame 0, and is there at its speed. That takes the least whole number of
// captured frames in which all of them can, by jerk-limited moves.

// stretches bounds how often a way back is given a quarter more time for the
// sake of an axis that follows: eight fold its speed by six.
const stretches = 8

// addReturns gives a loop with a cut its way back, and every axis its run-up
// and run-out.
func (p *Plan) addReturns() fault.List {
	if !p.cut() {
		p.addRamps()
		return nil
	}
	shown := append([]Axis(nil), p.Axes...)
	var faults fault.List
	for _, share := range shares {
		p.RunUp, p.RunOut = 0, 0
		faults = p.comeBack(shown, share)
		if len(faults) > 0 || !p.leavesTravelUnseen() {
			break
		}
	}
	return faults
}

// cut tells whether the loop is cut back to its first frame.
func (p *Plan) cut() bool {
	for i := range p.Axes {
		if p.Axes[i].Move.Move == shot.Through {
			return true
		}
	}
	return false
}

// unseen tells whether a time of the take, in real seconds from frame 0, is on
// a way back.
func (p *Plan) unseen(sec float64) bool {
	return p.Back > 0 && math.Mod(sec, p.Period()) > p.Loop.Real().Float()*(1+limitSlack)
}

func (p *Plan) leavesTravelUnseen() bool {
	for _, b := range p.Breaches() {
		if b.Quantity == Position && b.Phase != "loop" {
			return true
		}
	}
	return false
}

// comeBack makes rounds of the loop shown, with so much of the limits.
func (p *Plan) comeBack(shown []Axis, share float64) fault.List {
	w := wayBack{plan: p, share: share}
	for i := range shown {
		if shown[i].Move.Move != shot.Aim {
			w.axes = append(w.axes, w.bound(&shown[i]))
		}
	}
	if faults := w.settled(); len(faults) > 0 {
		return faults
	}
	frames, err := w.least()
	for range stretches {
		if err == nil {
			err = w.lay(frames)
		}
		if err != nil {
			f := fault.Fault{File: p.ShotFile, Quantity: "the way back: " + err.Error()}
			return fault.List{f}
		}
		if faults := p.aim(); len(faults) > 0 {
			return faults
		}
		if !p.followersHurry() {
			break
		}
		frames, err = w.atLeast(frames + (frames+3)/4)
	}
	p.addRamps()
	return nil
}

// followersHurry tells whether an axis that aims is past its limits unseen,
// where more time would help.
func (p *Plan) followersHurry() bool {
	for i := range p.Axes {
		a := &p.Axes[i]
		if a.Move.Move != shot.Aim {
			continue
		}
		for _, c := range p.checks(a, a.Extremes) {
			if p.unseen(c.peak.Time) && over(c.peak.Value, c.bound) {
				return true
			}
		}
	}
	return false
}
