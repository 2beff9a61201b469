package verify

import (
	"fmt"
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/verify/trace"
)

// cutBack tells whether a round shows less than all of itself: the clip is then
// cut from its last frame to its first, and the rig comes back unseen.
func cutBack(m Motion) bool { return m.Shown().Less(m.Period()) }

// measureCut looks at the clip's seam, where the motion itself does not wrap:
// the end of what is shown against frame 0, what the cut takes back by design
// left out. Both sides are measured from inside what is shown.
func measureCut(m Motion, i int, p peaks) AxisSeam {
	c := m.Cut(i)
	s := wrap{m.Shown().Float(), c.Gain.Float() + c.Jump}.measure(m, i, p)
	s.Cut = c.Jump
	if s.Cut != 0 {
		s.Words = cutWords(s)
	}
	return s
}

func cutWords(s AxisSeam) string {
	d := dims(trace.Axis{Rotary: s.Rotary})[0]
	return fmt.Sprintf("cut back by %s, by design: the picture is elsewhere, and %s", unit.Format(math.Abs(s.Cut), d), carried(s.Highest))
}

func carried(highest int) string {
	switch {
	case highest < 0:
		return "not even where the cut would have it"
	case highest == 0:
		return "changes speed at once"
	case highest == 1:
		return "goes on at its speed, though not with the push behind it"
	}
	return "goes on at its speed and with the push behind it"
}

// cutFinding holds a cut to more than a seam: what jumps in place must not
// betray itself by its speed or its push. An axis that keeps a point centred
// from another place has another speed there, by geometry, and only has to be
// where it aims.
func (s AxisSeam) cutFinding(follows bool) Finding {
	f := s.finding()
	f.Check = "cut"
	switch {
	case s.Cut != 0 && follows:
		f.OK = s.Highest >= 0
	case s.Cut != 0:
		f.OK = s.Highest >= 2
	}
	return f
}
