package laid

import (
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/rushes"
	"seamrail/export/report/footagereport"
	"seamrail/motion/cue"
	"seamrail/motion/footage/hands"
)

// spread is how far a hand may be from the beat that it was counted to, s: most beats are met
// within a twentieth, and nearly all within a tenth (common practice).
const spread = 0.1

// acted tells what was seen of what hands were to do, in all rounds of the take.
func acted(d footagereport.Data, take *rushes.Take, j *job.Job, wide int) []footagereport.Hand {
	var out []footagereport.Hand
	var asked []hands.Cue
	var of []int // which of out each is
	at, sure, by := ZeroOf(d)
	run, rate := Runs(d), j.Trajectory.Clock().Capture.Float()
	for round := range j.Trajectory.Rounds() {
		for _, c := range j.Cues.Cues {
			if !c.In(round + 1) {
				continue
			}
			h := footagereport.Hand{Cue: c.Name, Hand: c.Hand, Round: int(round)}
			if h.Seen.Why = unseen(c); h.Seen.Why == "" && by == "" {
				h.Seen.Why = "where frame 0 is, is not known"
			}
			if h.Seen.Why == "" && d.Plan.Timeline {
				h.Seen.Why = "these are the timeline's frames"
			}
			begins := at + float64(round*j.Trajectory.RoundFrames()) + run(round).Late
			h.Opens, h.Closes = begins+rate*(c.Moves().Float()-spread), begins+rate*(c.Lands.Add(c.Busy).Float()+spread)
			if h.Seen.Why == "" {
				first := float64(d.First)
				asked = append(asked, hands.Cue{Opens: h.Opens - first, Closes: h.Closes - first, Sure: sure, Region: hands.Whole()})
				of = append(of, len(out))
			}
			out = append(out, h)
		}
	}
	if len(asked) == 0 {
		return out
	}
	rounds := hands.Rounds{Zero: at - float64(d.First), Each: float64(j.Trajectory.RoundFrames()), Count: int(j.Trajectory.Rounds())}
	for n, s := range take.Acted(wide, rounds, rate, asked) {
		if s.First > 0 {
			s.First, s.Last = s.First+d.First, s.Last+d.First
		}
		out[of[n]].Seen = s
	}
	return out
}

// unseen says why what a hand does is not looked for in the picture; "" where it is.
func unseen(c cue.Cue) string {
	switch {
	case c.Dims != nil:
		return "what a hand does at a dimmer changes all of the picture"
	case c.Ring:
		return "what a hand does at the focus ring changes all of the picture"
	}
	return ""
}
