package planreport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/shot"
)

// take is what is recorded and what of it is kept, in captured frames counted
// from the first recorded one.
type take struct {
	recorded    int64
	round       int64 // the round that is delivered, 0-based
	first, last int64 // delivered
	handles     int64 // kept on either side
	short       bool  // the handles reach past what was recorded at pace
}

func takeOf(p *plan.Plan) take {
	c, rounds := p.Loop.Captured, int64(p.Rounds)
	all := p.RoundFrames()
	t := take{recorded: p.RunUp + rounds*all + p.RunOut, round: shot.KeptRound(rounds), handles: p.Handles}
	t.first = p.RunUp + t.round*all
	t.last = t.first + c - 1
	after := (rounds-1-t.round)*all + p.Back
	t.short = p.Handles > t.round*all || p.Handles > after
	return t
}

func (p *page) take() {
	t, c := takeOf(p.pl), p.pl.Loop.Clock
	p.Section("TAKE")
	p.Field("record", fmt.Sprintf("%s: %s of real time", report.Counted(t.recorded, "frame"), seconds(c.FrameTime(t.recorded))))
	p.Field("made of", takeParts(p.pl))
	if back := p.pl.Back; back > 0 {
		p.Field("way back", fmt.Sprintf("%s (%s) after each round, unseen: cut them out", report.Counted(back, "frame"), seconds(c.FrameTime(back))))
		p.Field("each round", fmt.Sprintf("%s of real time, %s of it shown", seconds(p.pl.Round()), seconds(p.pl.Loop.Real())))
		p.Field("whole take", fmt.Sprintf("%s for %s", seconds(c.FrameTime(t.recorded)), report.Counted(p.pl.Rounds, "round")))
	}
	p.Field("keep", fmt.Sprintf("round %d: recorded frames %d to %d, counted from 0", t.round+1, t.first, t.last))
	p.Field("handles", handleWords(t))
	first, last := labels(p.pl)
	p.Field("timecode", first+" to "+last)
}

// labels are the timecodes of the first and the last frame that are delivered.
func labels(p *plan.Plan) (first, last string) {
	return p.Timecode.Label(p.Start), p.Timecode.Label(p.Start + p.Loop.Screen - 1)
}

func takeParts(pl *plan.Plan) string {
	words := fmt.Sprintf("%s of %s", report.Counted(pl.Rounds, "round"), report.Counted(pl.Loop.Captured, "frame"))
	if pl.RunUp > 0 {
		words = fmt.Sprintf("run-up of %s, %s", report.Counted(pl.RunUp, "frame"), words)
	}
	if pl.RunOut > 0 {
		words += fmt.Sprintf(", run-out of %s", report.Counted(pl.RunOut, "frame"))
	}
	return words
}

func handleWords(t take) string {
	words := report.Counted(t.handles, "captured frame") + " on either side"
	switch {
	case t.handles <= 0:
		return ""
	case t.short:
		return words + " is more than the take holds at pace; record more rounds"
	}
	return words + fmt.Sprintf(", recorded frames %d to %d", t.first-t.handles, t.last+t.handles)
}

// Take holds what is recorded and what of it is delivered, in captured frames
// counted from the first recorded one.
type Take struct {
	Rounds   int    `json:"rounds"`
	RunUp    int64  `json:"run_up_frames"`
	RunOut   int64  `json:"run_out_frames"`
	Recorded int64  `json:"recorded_frames"`
	First    int64  `json:"deliver_first"`
	Last     int64  `json:"deliver_last"`
	Handles  int64  `json:"handle_frames"`
	Start    string `json:"timecode_first"`
	End      string `json:"timecode_last"`

	Cut *TakeCut `json:"cut,omitempty"` // of a loop that is cut back to its first frame
}

// TakeCut is the way back of a loop that is cut back to its first frame.
type TakeCut struct {
	Back         int64     `json:"way_back_frames"`
	RoundFrames  int64     `json:"round_frames"`
	RoundSeconds exact.Rat `json:"round_seconds"`
	TakeSeconds  exact.Rat `json:"take_seconds"`
}

func takeFacts(p *plan.Plan) Take {
	t := takeOf(p)
	out := Take{
		Rounds: p.Rounds, RunUp: p.RunUp, RunOut: p.RunOut, Recorded: t.recorded,
		First: t.first, Last: t.last, Handles: t.handles,
	}
	out.Start, out.End = labels(p)
	if p.Back > 0 {
		out.Cut = &TakeCut{p.Back, p.RoundFrames(), p.Round(), p.Loop.Clock.FrameTime(t.recorded)}
	}
	return out
}
