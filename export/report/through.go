package report

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
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

// neverWords names the frame after the last, which is the commonest hitch.
func neverWords(pl *plan.Plan) string {
	if pl.Back > 0 {
		return fmt.Sprintf("deliver frame %d or what follows: the rig is on its way back", pl.Loop.Captured)
	}
	return fmt.Sprintf("deliver frame %d: it is frame 0 again, and the loop would hitch", pl.Loop.Captured)
}

// quickest tells how far the quickest pace is from what no pace can pass.
func (p *page) quickest(pl *plan.Plan) {
	if pl.Bound > 0 {
		p.Field("at least", fmt.Sprintf("%.3f s along the same way within speed and acceleration, whatever the jerk; the quickest with it is not proven: of random paths nearly all came within 3 %% of the best found otherwise, the worst within 14 %%", pl.Bound))
	}
}
