package words

import (
	"strconv"

	"seamrail/motion/trajectory"
	"seamrail/motion/word"
)

// axis is what the controller has been told of an axis, and is to be told.
type axis struct {
	word.Place
	letter   byte
	maxSpeed float64 // units/s
	told     int64   // counts, where the controller has been told to be
	target   int64   // counts, where it is to be
	// toldSteps and targetSteps are the motor steps nearest to these.
	toldSteps, targetSteps int64
}

func newAxis(t *trajectory.Trajectory, i, decimals int) axis {
	a := t.Axis(i)
	return axis{
		Place:  word.NewPlace(decimals, a.StepsPerUnit.Float(), t.Advance(i)),
		letter: a.Letter[0], maxSpeed: a.MaxSpeed,
	}
}

func (a *axis) aim(pos float64) {
	a.target = a.Counts(pos)
	a.targetSteps = a.Steps(a.target)
}

func (a *axis) reach() { a.told, a.toldSteps = a.target, a.targetSteps }

// steps tells whether any motor steps, and any word changes, on the way from
// where the controller has been told to be to where the axes are to be.
func (p *Program) steps() bool {
	for i := range p.axes {
		if a := &p.axes[i]; a.target != a.told && a.targetSteps != a.toldSteps {
			return true
		}
	}
	return false
}

// astray tells whether any word changes on that way.
func (p *Program) astray() bool {
	for i := range p.axes {
		if p.axes[i].target != p.axes[i].told {
			return true
		}
	}
	return false
}

// word appends the axis word of the target: "X40.000", never "-0".
func (a *axis) word(buf []byte, decimals int) []byte {
	buf = append(buf, a.letter)
	n := a.target
	if n < 0 {
		buf = append(buf, '-')
		n = -n
	}
	start := len(buf)
	buf = strconv.AppendInt(buf, n, 10)
	for len(buf)-start <= decimals {
		buf = append(buf, 0)
		copy(buf[start+1:], buf[start:])
		buf[start] = '0'
	}
	if decimals == 0 {
		return buf
	}
	point := len(buf) - decimals
	buf = append(buf, 0)
	copy(buf[point+1:], buf[point:])
	buf[point] = '.'
	return buf
}
