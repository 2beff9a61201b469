package judge

import (
	"fmt"

	"seamrail/motion/camera/picture"
	"seamrail/motion/cue"
	"seamrail/motion/spec/shot"
)

const leavingOf = "remains of "

// hands judges what hands do: what of it is still there as the loop ends, and
// whether they can follow their counts.
func (c Case) hands() []picture.Verdict {
	var out []picture.Verdict
	for _, q := range c.Cues.Cues {
		if q.Dims == nil && !q.Ring {
			out = append(out, c.leaving(q))
		}
	}
	for _, h := range c.Cues.Hasty() {
		out = append(out, picture.Verdict{Check: "fade of " + h.Lamp + " by hand", Level: picture.Poor, Text: h.String(), Cures: c.unhasty(h)})
	}
	for _, m := range c.Cues.Clashes() {
		out = append(out, picture.Verdict{Check: "clash of " + m.One + " and " + m.Other, Level: picture.Poor, Text: m.String(), Cures: c.otherHand(m)})
	}
	for _, m := range c.Cues.Muddled() {
		out = append(out, picture.Verdict{
			Check: "counts to " + m.One + " and " + m.Other, Level: picture.Poor, Cures: c.told(m),
			Text: fmt.Sprintf("the counts to %s and to %s run into each other: nobody can tell whose beat is whose", m.One, m.Other),
		})
	}
	return out
}

// leaving judges what a cue leaves at the seam: what is there in the last frame
// and was not in the first.
func (c Case) leaving(q cue.Cue) picture.Verdict {
	keep := shot.KeptRound(int64(c.Plan.Rounds)) + 1
	v := picture.Verdict{Check: leavingOf + q.Name}
	again := ""
	if n := before(q, keep); n > 0 {
		again = fmt.Sprintf("; and it has happened %s before the round to keep, round %d", times(n), keep)
	}
	switch {
	case !q.In(keep):
		v.Level = picture.Fair
		v.Text = fmt.Sprintf("%s does not happen in the round to keep, round %d: it is not in the clip, and changes nothing at its seam", q.Name, keep)
	case q.Leaves == shot.Nothing:
		v.Level, v.Text = picture.Good, q.Name+" leaves nothing in the picture, as the shot says"
	case q.Leaves != "":
		v.Level = picture.Poor
		v.Text = fmt.Sprintf("%s leaves %s: it is there in the last frame and not in the first, and the loop jumps there%s", q.Name, q.Leaves, again)
	default:
		v.Missing = []string{"leaves of the cue " + q.Name}
		v.Text = fmt.Sprintf("what of %s is still in the picture as the loop ends is not said (leaves): the loop may jump there%s", q.Name, again)
	}
	return v
}

// before is how often a cue happens before a round.
func before(q cue.Cue, round int64) int {
	n := 0
	for r := int64(1); r < round && n < maxFrames; r++ {
		if q.In(r) {
			n++
		}
	}
	return n
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
