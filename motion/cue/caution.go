package cue

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
)

// Needs returns how many beats of a second a count-in must have at least, so
// that every count to a cue is heard from its beginning, in a take of so many
// rounds; 0 rounds never end.
func (s Sheet) Needs(rounds int64) int64 {
	for b := range s.Beats(rounds) {
		early := s.Begins().Sub(b.At)
		if early.Sign() <= 0 {
			return 0
		}
		return early.Ceil().Whole() // the first is the earliest
	}
	return 0
}

// maxCautions is as many as anyone reads before a take.
const maxCautions = 32

// Cautions says what to mind about the cues of a take of so many rounds; 0
// rounds never end.
func (s Sheet) Cautions(rounds int64) []string {
	var out []string
	if slices.ContainsFunc(s.Cues, func(c Cue) bool { return c.Ring }) {
		out = append(out, "A hand on the focus ring rides along with the camera: keep fingers, sleeves and hair clear of belts, screws and the ends of the travel, and try it slowly first")
	}
	for i, c := range s.Cues {
		out = append(out, s.rounds(c, rounds)...)
		if again := s.again(c); again != "" && !s.hasty(c) {
			out = append(out, again)
		}
		for _, d := range s.Cues[i+1:] {
			if c.Hand == d.Hand && !oneThing(c, d) && !s.clash(c, d) && s.meet(c, d) {
				out = append(out, fmt.Sprintf("%s and %s are both counted to the %s at once: give one another hand, or fewer beats", c.Name, d.Name, Called(c.Hand)))
			}
		}
	}
	for _, h := range s.Hasty() {
		out = append(out, h.String()+"; "+h.Cure()+" would do")
	}
	for _, m := range s.Clashes() {
		out = append(out, m.String()+"; "+m.Cure()+" would do")
	}
	for _, m := range s.Muddled() {
		out = append(out, m.String())
	}
	return plain.Few(out, maxCautions, "cautions about cues")
}

// rounds says in which rounds of a cue there is no take.
func (s Sheet) rounds(c Cue, rounds int64) []string {
	var out []string
	for _, r := range c.Rounds {
		if rounds > 0 && r > rounds {
			out = append(out, fmt.Sprintf("%s is cued in round %d, and the take has %d", c.Name, r, rounds))
		}
	}
	return out
}

// again says where the hand has to move anew before what it let go has landed,
// or is counted to before it has moved.
func (s Sheet) again(c Cue) string {
	round := s.Plan.Round()
	twice := len(c.Rounds) == 0 && s.Plan.Rounds > 1
	for i := 1; i < len(c.Rounds); i++ {
		twice = twice || c.Rounds[i] == c.Rounds[i-1]+1
	}
	switch {
	case !twice:
		return ""
	case !c.Way.Less(round):
		return fmt.Sprintf("%s is let go each round before the last has landed", c.Name)
	case !c.Moves().Sub(c.First()).Less(round):
		return fmt.Sprintf("%s is counted to before the hand has moved for the round before: fewer beats, or every other round", c.Name)
	}
	return ""
}

// meet tells whether a count to c is heard while one to d still is, in any
// rounds: from its first beat until the hand moves.
func (s Sheet) meet(c, d Cue) bool { return s.overlap(c, d, c.Moves(), d.Moves()) }

// overlap tells whether the time from the first beat to c until some instant of
// its round has a part with that of d, in any rounds.
func (s Sheet) overlap(c, d Cue, untilC, untilD exact.Rat) bool {
	return s.share(c, d, [2]exact.Rat{c.First(), untilC}, [2]exact.Rat{d.First(), untilD})
}

// share tells whether a time of c's round and one of d's have a part in common, in any
// rounds in which both happen.
func (s Sheet) share(c, d Cue, ofC, ofD [2]exact.Rat) bool {
	round := s.Plan.Round()
	first := ofC[0].Sub(ofD[1]).Quo(round).Ceil().Whole()
	last := ofC[1].Sub(ofD[0]).Quo(round).Floor().Whole()
	for apart := first; apart <= last; apart++ {
		if happen(c, d, apart) {
			return true
		}
	}
	return false
}

// happen tells whether d happens so many rounds after a round in which c does.
func happen(c, d Cue, apart int64) bool {
	if c.Rounds == nil {
		c, d, apart = d, c, -apart
	}
	if c.Rounds == nil {
		return true
	}
	return slices.ContainsFunc(c.Rounds, func(r int64) bool { return r+apart >= 1 && d.In(r+apart) })
}

// Called is a hand in words: "left hand".
func Called(hand string) string {
	if hand == "hand" {
		return hand
	}
	return hand + " hand"
}
