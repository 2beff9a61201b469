package judge

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/turntable/spin"
)

// ClosingOf begins the name of the check on how a display stand comes round.
const ClosingOf = "closing of "

// closings judges whether the display stands come round as they set out.
func (c Case) closings() []picture.Verdict {
	var out []picture.Verdict
	for _, s := range c.Plan.Stands {
		v := closing(s)
		if !s.Seam.Closes() {
			v.Cures = c.closingLoops()
		}
		out = append(out, v)
	}
	return out
}

func closing(s plan.Stand) picture.Verdict {
	m := s.Seam
	v := picture.Verdict{Check: ClosingOf + s.Rig.Name}
	v.Figures = append(v.Figures, picture.Figure{Name: "off", Value: m.Degrees().Abs().Float(), Unit: "deg"},
		picture.Figure{Name: "known to", Value: doubt(m).Float() * 360, Unit: "deg"},
		picture.Figure{Name: "may be", Value: m.Bound.Float() * 360, Unit: "deg"})
	name := s.Rig.Name
	switch {
	case m.Certain():
		v.Level, v.Text = picture.Good, name+" comes round as it was, within the bound, however far its speed may be off"
	case !m.Closes():
		v.Level = picture.Poor
		v.Text = fmt.Sprintf("%s comes round %s deg off, and may be %s off: the picture jumps at every repeat", name,
			short(m.Degrees().Abs().Float()), short(m.Bound.Float()*360))
	case s.Refuses():
		v.Level = picture.Poor
		v.Text = name + " is not known to keep the bound that the shot states, " + m.Product.Bound().String()
	default:
		v.Text = fmt.Sprintf("%s is off by %s deg and known to %s%s, and may be %s off: whether it comes round as it was is not known", name,
			short(m.Degrees().Abs().Float()), short(doubt(m).Float()*360), undrifted(m), short(m.Bound.Float()*360))
	}
	return v
}

// undrifted says what doubt leaves out.
func undrifted(m spin.Seam) string {
	if m.Product.Stand.Regulated {
		return ""
	}
	return " without its drift, which the rig file does not state"
}

// doubt is how many turns a stand may be off beside its error, as far as anyone
// has said.
func doubt(m spin.Seam) exact.Rat {
	return m.Spread.Mul(exact.Int(spin.Coverage)).Add(m.Off(m.Product.Stand.Regulation))
}

// closingLoops are the loops next to this one in which every stand closes and the
// rig can do it.
func (c Case) closingLoops() fault.Cures {
	var out fault.Cures
	for _, l := range c.Plan.Nearest() {
		one := aLoop(l.Screen, " ("+l.OnScreen().Decimal(3)+" s)")
		if x, ok := c.after(one); ok && x.Plan.ClosesAt(x.Plan.Loop) {
			out = append(out, one)
		}
	}
	return out
}
