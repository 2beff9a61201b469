package verify

import (
	"context"
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/verify/trace"
)

// Turning is a Motion with display stands beside its axes: they take no steps
// and have no limits, only an angle at each frame and a promise for the seam.
type Turning interface {
	StandCount() int
	Stand(i int) trace.Stand
	StandAngle(i int, frame int64) exact.Rat // degrees
}

// standLooks is at how many frames of a loop a stand is looked at, at the most: each
// of some minutes. Of a longer loop every so many are, and that is said.
const standLooks = 20_000

// checkStands looks at every stand of a motion that has any.
func checkStands(ctx context.Context, m Motion) []Finding {
	t, ok := m.(Turning)
	if !ok {
		return nil
	}
	var out []Finding
	for i := range t.StandCount() {
		out = append(out, checkEven(ctx, m, t, i), checkFace(m, t, i))
	}
	return out
}

// checkEven wants the angle to grow by the same at every frame, and by what the
// stand's speed says.
func checkEven(ctx context.Context, m Motion, t Turning, i int) Finding {
	s := t.Stand(i)
	f := Finding{Check: "stand " + s.Name + ", turning", OK: true}
	start := t.StandAngle(i, 0)
	stride := max(1, (m.Captured()+standLooks-1)/standLooks)
	for k := int64(0); k <= m.Captured() && ctx.Err() == nil; k += stride {
		want := s.Rate.Mul(m.FrameSeconds(k))
		if off := t.StandAngle(i, k).Sub(start).Sub(want); off.Sign() != 0 {
			f.OK = false
			f.Text = fmt.Sprintf("frame %d finds it %s from where its speed puts it", k, degrees(off))
			return f
		}
	}
	f.Text = degrees(s.Rate) + "/s at every frame"
	if stride > 1 {
		f.Text = fmt.Sprintf("%s/s at one frame in %d", degrees(s.Rate), stride)
	}
	return f
}

// checkFace works out anew how far the stand is from a face of its product when
// the loop comes round, and compares that with what the plan says.
func checkFace(m Motion, t Turning, i int) Finding {
	s := t.Stand(i)
	f := Finding{Check: "stand " + s.Name + ", seam"}
	turned := t.StandAngle(i, m.Captured()).Sub(t.StandAngle(i, 0)).Abs()
	faces := turned.Quo(s.Face).Round()
	where := ""
	if faces.Sign() == 0 { // it has to turn to be back by turning
		faces = exact.Int(1)
		where = fmt.Sprintf("not half of the %s to the first face", degrees(s.Face))
	}
	off := turned.Sub(faces.Mul(s.Face))
	if where == "" {
		where = fmt.Sprintf("%s from face %s", degrees(off), faces)
	}
	doubt := turned.Mul(s.Doubt)
	f.Text = fmt.Sprintf("turns %s, %s, known to %s%s; the bound is %s", degrees(turned), where, degrees(doubt), untold(s), degrees(s.Bound))
	switch {
	case !off.Equal(s.Off):
		f.Text += "; the plan says " + degrees(s.Off)
	case !s.Hard:
		f.OK = true
		f.Text += ", which the shot does not state"
	case s.Bound.Less(off.Abs()):
		f.Text += ", as the shot states it"
	case !s.Bound.Add(s.Bound).Less(s.Face):
		f.OK = true // further off is the next face
	case !s.Known || s.Bound.Less(off.Abs().Add(doubt)):
		f.Text += ", as the shot states it, and is not known to be kept"
	default:
		f.OK = true
	}
	return f
}

// untold says what is not in what a stand is known to.
func untold(s trace.Stand) string {
	if s.Known {
		return ""
	}
	return " without its drift, which nothing is known of"
}

func degrees(v exact.Rat) string { return unit.Format(v.Float(), unit.Angle) }
