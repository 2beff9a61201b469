package shot

import (
	"seamrail/motion/exact"
	"seamrail/motion/track"
)

// through reads a pass: across once at speed, and cut back to its beginning.
func (r mover) through(m *AxisMove) {
	from, ok := r.position(r.raw.From, "from", "40 mm")
	to, ok2 := r.position(r.raw.To, "to", "280 mm")
	m.From, m.To = from, to
	if ok && ok2 {
		r.ends(from, to)
	}
	m.Law, _ = r.laws(Through)
	m.Even = r.even(*m)
}

// mostEven is past where any law of the catalogue would stand still in the
// middle; the law itself says where.
var mostEven = exact.Int(10)

func (r mover) even(m AxisMove) exact.Rat {
	if m.Law == nil || m.Law.At(0).V != 0 {
		if r.raw.Even.Set && m.Law != nil {
			r.Wrong(r.raw.Even, r.path+"even", "has no meaning for this law, which is even by itself", `it is for laws such as "3-4-5"`)
		}
		return exact.Rat{}
	}
	fits := func(s exact.Rat) bool { return s.Sign() >= 0 && s.Less(mostEven) }
	even := r.share(r.raw.Even, "even", exact.Rat{}, "by the law alone", fits, "0 or more, and below 10")
	if _, err := track.Even(m.Law, even.Float()); err != nil {
		r.Fail(r.raw.Even, r.path+"even", err)
	} else if l, _ := track.Even(m.Law, even.Float()); l.At(0).A != 0 {
		r.Wrong(r.raw.Law, r.path+"law", "pushes at both its ends, and would jump at the cut", `"uniform", "3-4-5" or "cycloidal" would do`)
	}
	return even
}

// pass returns the track of a through move.
func (m AxisMove) pass(period exact.Rat) (*track.Track, error) {
	l, err := track.Even(m.Law, m.Even.Float())
	if err != nil {
		return nil, err
	}
	return track.Through(period, track.ThroughSpec{From: m.From.Float(), To: m.To.Float(), Law: l})
}
