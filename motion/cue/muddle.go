package cue

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// asOne, in s, is how near two tones are for the ear to hear one thing in them, and
// a hand not to know which was its own: a quarter of a second (common practice).
var asOne = exact.New(1, 4)

// Muddle is two counts that run into each other, to different hands.
type Muddle struct {
	One, Other string // names of the cues
	// Beats is how many each may be counted to with and be told apart; -1 where
	// even two single tones cannot.
	Beats int64
	Keys  []string // of the file, that say how many beats those have that have more
}

// Muddled lists the counts to different hands that are heard at once. Both hear
// both, and nobody can tell whose beat is whose; where they share their beats to
// the last, one count serves both.
func (s Sheet) Muddled() []Muddle {
	var out []Muddle
	for i, c := range s.Cues {
		for _, d := range s.Cues[i+1:] {
			if c.Hand != d.Hand && !s.hasty(c) && !s.hasty(d) && s.muddle(c, d) {
				m := Muddle{One: c.Name, Other: d.Name, Beats: s.clearer(c, d)}
				for _, x := range []Cue{c, d} {
					if x.Beats > m.Beats {
						m.Keys = append(m.Keys, x.Key("beats"))
					}
				}
				out = append(out, m)
			}
		}
	}
	return out
}

func (s Sheet) muddle(c, d Cue) bool {
	together := c.Now().Equal(d.Now()) && (c.Beat.Equal(d.Beat) || c.Beats == 0 && d.Beats == 0)
	return !together && s.overlap(c, d, c.Now().Add(asOne), d.Now().Add(asOne))
}

// clearer is the most beats with which both can be told apart.
func (s Sheet) clearer(c, d Cue) int64 {
	for n := max(c.Beats, d.Beats) - 1; n >= 0; n-- {
		c.Beats, d.Beats = min(c.Beats, n), min(d.Beats, n)
		if !s.muddle(c, d) {
			return n
		}
	}
	return -1
}

// Cure says what would do.
func (m Muddle) Cure() string {
	switch {
	case m.Beats < 0:
		return "another time for one of them"
	case m.Beats == 0:
		return "beats = 0 for both: a single tone each"
	}
	return fmt.Sprintf("beats = %d at most, for both", m.Beats)
}

// String says what is wrong and what would do.
func (m Muddle) String() string {
	return fmt.Sprintf("the counts to %s and to %s run into each other: nobody can tell whose beat is whose; %s would do", m.One, m.Other, m.Cure())
}
