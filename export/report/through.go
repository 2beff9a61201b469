package report

import (
	"fmt"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
)

// cut tells of a loop that is cut back how the rig comes back unseen, and how
// long the operator has to wait for all of it.
func (p *page) cut(pl *plan.Plan) {
	if pl.Back == 0 {
		return
	}
	c := pl.Loop.Clock
	p.Field("way back", fmt.Sprintf("%s (%s) after each round, unseen: cut them out", counted(pl.Back, "frame"), seconds(c.FrameTime(pl.Back))))
	p.Field("each round", fmt.Sprintf("%s of real time, %s of it shown", seconds(pl.Round()), seconds(pl.Loop.Real())))
	p.Field("whole take", fmt.Sprintf("%s for %s", seconds(takeSeconds(pl)), counted(int64(pl.Rounds), "round")))
}

// takeSeconds is how long the rig moves in a take.
func takeSeconds(pl *plan.Plan) exact.Rat {
	return pl.Loop.Clock.FrameTime(takeOf(pl).recorded)
}

// TakeCut is the way back of a loop that is cut back to its first frame.
type TakeCut struct {
	Back         int64     `json:"way_back_frames"`
	RoundFrames  int64     `json:"round_frames"`
	RoundSeconds exact.Rat `json:"round_seconds"`
	TakeSeconds  exact.Rat `json:"take_seconds"`
}

func takeCut(pl *plan.Plan) *TakeCut {
	if pl.Back == 0 {
		return nil
	}
	return &TakeCut{pl.Back, pl.RoundFrames(), pl.Round(), takeSeconds(pl)}
}

func throughWords(m shot.AxisMove) string {
	words := fmt.Sprintf("through from %s to %s, by the %s law", m.From, m.To, m.Law.Name())
	if m.Even.Sign() != 0 {
		words += fmt.Sprintf(", %s of the way at an even speed", m.Even)
	}
	return words + "; cut back to its beginning"
}

func aimWords(m shot.AxisMove) string {
	what := "keeps the point centred"
	if m.As == shot.Focus {
		what = fmt.Sprintf("keeps the point sharp with a lens of %s", m.Focal)
	}
	return fmt.Sprintf("%s from the %s: straight ahead at %s, %s away, %s up", what, clean(m.Follow), m.Point[0], m.Point[1], m.Point[2])
}

func arcWords(m shot.AxisMove, c clock.Clock) string {
	return fmt.Sprintf("round a point at %s, %s away, the heading %s", m.Point[0], m.Point[1], thereAndBackWords(m, c))
}

// neverWords names the frame after the last, which is the commonest hitch.
func neverWords(pl *plan.Plan) string {
	if pl.Back > 0 {
		return fmt.Sprintf("deliver frame %d or what follows: the rig is on its way back", pl.Loop.Captured)
	}
	return fmt.Sprintf("deliver frame %d: it is frame 0 again, and the loop would hitch", pl.Loop.Captured)
}

// feelWords tells how keys are come to and left.
func feelWords(m shot.AxisMove) string {
	eased, tight, near := m.Felt()
	words := ""
	for _, f := range []struct {
		n    int64
		what string
	}{{eased, "eased to rest"}, {tight, "held back by tension"}, {near, "passed near rather than through"}} {
		if f.n > 0 {
			words += fmt.Sprintf(", %s %s", counted(f.n, "key"), f.what)
		}
	}
	return words
}

// quickest tells how far the quickest pace is from what no pace can pass.
func (p *page) quickest(pl *plan.Plan) {
	if pl.Bound > 0 {
		p.Field("at least", fmt.Sprintf("%.3f s along the same way within speed and acceleration, whatever the jerk; the quickest with it is not proven: of random paths nearly all came within 3 %% of the best found otherwise, the worst within 14 %%", pl.Bound))
	}
}
