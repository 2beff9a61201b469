package picture

import (
	"fmt"
	"math"
	"slices"
)

// approachLooks is how many times the way of one axis to the start is looked at.
const approachLooks = 200

// approach is the way from where every axis is at home to where a take begins:
// one axis after the other, in their order, as programs and the driver go.
func (e *eye) approach() []stretch {
	up, _ := e.motion.RampFrames()
	begin := -float64(up) * e.frame
	var home, start []float64
	for axis := range e.motion.AxisCount() {
		home = append(home, e.motion.Axis(axis).Home)
		start = append(start, e.motion.TakeState(axis, 1, begin).Pos)
	}
	var out []stretch
	for axis := range home {
		if home[axis] != start[axis] {
			out = append(out, e.alone(axis, home, start))
		}
		home = slices.Clone(home)
		home[axis] = start[axis]
	}
	return out
}

// alone is one axis on its way, as a share of it, while all others stay.
func (e *eye) alone(axis int, from, to []float64) stretch {
	return stretch{at: func(share float64) setting {
		return e.settingOf(func(i int) float64 {
			if i != axis {
				return from[i]
			}
			return from[i] + share*(to[i]-from[i])
		})
	}, from: 0, to: 1, n: approachLooks}
}

// approachVerdict tells whether the lens is clear of all the product may turn to
// before a take begins.
func (e *eye) approachVerdict() Verdict {
	const check = "way to the start"
	missing := e.bodyMissing()
	if _, ok := e.scene.Product.Outline(); !ok {
		missing = append(missing, "shape and size of the product")
	}
	if len(missing) > 0 {
		return unknown(check, "whether the lens is clear on its way from home", missing...)
	}
	least := math.Inf(1)
	for _, s := range e.approach() {
		gap, _ := s.least(e.sweptGapAt)
		least = math.Min(least, gap)
	}
	v := Verdict{Check: check, Level: Good}
	if math.IsInf(least, 1) {
		v.Text = "every axis begins at home"
		return v
	}
	v.figure("gap to swept circle", least, "mm")
	v.gauge = -least
	v.Text = fmt.Sprintf("the lens keeps %s from all the product turns through on its way from home", mm(least))
	switch {
	case least <= 0:
		v.Level = Block
		v.Text = fmt.Sprintf("on its way from home the lens strikes what the product turns through, %s deep: do not drive", mm(-least))
		e.tryBack(&v, e.bounds.Clearance-least)
		v.advise("a home, in the rig file, from which the way is clear")
	case least < e.bounds.Clearance:
		v.Level = Fair
		v.Text += ": put the product there afterwards"
	}
	return v
}
