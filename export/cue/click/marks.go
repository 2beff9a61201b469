package click

import (
	"io"

	"seamrail/motion/base/exact"
)

// Mark is a moment that is heard: what a hand did as the higher tone, and anything else,
// such as a cut, as the lower one, softly.
type Mark struct {
	At  exact.Rat // s from the beginning, at least 0 and not before the mark before it
	Cue bool
}

// WriteMarks writes a sound that lasts so many seconds with some moments in it, each on
// the sample nearest to it, on both sides. What sounds on at its end is cut off there. The
// error is that of Write.
func WriteMarks(w io.Writer, lasts exact.Rat, marks []Mark, about []string) error {
	i := 0
	p := newPlayer(func() (sound, bool) {
		if i == len(marks) {
			return sound{}, false
		}
		m := marks[i]
		i++
		s := sound{at: Sample(m.At), tone: warning(), gain: [channels]float64{loudness * behind, loudness * behind}}
		if m.Cue {
			s.tone, s.gain = now(), [channels]float64{loudness, loudness}
		}
		return s, true
	})
	return p.write(w, lasts.Mul(exact.Int(Rate)).Ceil(), about)
}
