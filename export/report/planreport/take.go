package planreport

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

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

// takeOf returns the take of a plan and the round of it that is delivered, 0-based.
func takeOf(p *plan.Plan) (t Take, round int64) {
	rounds, all := int64(p.Rounds), p.RoundFrames()
	round = shot.KeptRound(rounds)
	first := p.RunUp + round*all
	t = Take{
		Rounds: p.Rounds, RunUp: p.RunUp, RunOut: p.RunOut, Recorded: p.RunUp + rounds*all + p.RunOut,
		First: first, Last: first + p.Loop.Captured - 1, Handles: p.Handles,
		Start: p.Timecode.Label(p.Start), End: p.Timecode.Label(p.Start + p.Loop.Screen - 1),
	}
	if p.Back > 0 {
		t.Cut = &TakeCut{p.Back, all, p.Round(), p.Loop.Clock.FrameTime(t.Recorded)}
	}
	return t, round
}

func (p *page) take() {
	pl, c := p.pl, p.pl.Loop.Clock
	t, round := takeOf(pl)
	p.Section("TAKE")
	p.Field("record", plain.Count(t.Recorded, "frame")+": "+p.recording(" of real time"))
	p.Field("made of", takeParts(pl))
	if k := t.Cut; k != nil {
		p.Field("way back", fmt.Sprintf("%s (%s) after each round, unseen: cut them out", plain.Count(k.Back, "frame"), seconds(c.FrameTime(k.Back))))
		p.Field("each round", fmt.Sprintf("%s of real time, %s of it shown", seconds(k.RoundSeconds), seconds(pl.Loop.Real())))
		p.Field("whole take", fmt.Sprintf("%s for %s", seconds(k.TakeSeconds), plain.Count(t.Rounds, "round")))
	}
	p.Field("keep", fmt.Sprintf("round %d: recorded frames %d to %d, counted from 0", round+1, t.First, t.Last))
	after := (int64(t.Rounds)-1-round)*pl.RoundFrames() + pl.Back
	p.Field("handles", handleWords(t, min(round*pl.RoundFrames(), after)))
	p.Field("timecode", t.Start+" to "+t.End)
}

// recording says how long the camera runs, which it does not where frames are taken one by one.
func (p *page) recording(of string) string {
	if p.d.Schedule != nil {
		return "one by one"
	}
	t, _ := takeOf(p.pl)
	return seconds(p.pl.Loop.Clock.FrameTime(t.Recorded)) + of
}

func takeParts(pl *plan.Plan) string {
	words := fmt.Sprintf("%s of %s", plain.Count(pl.Rounds, "round"), plain.Count(pl.Loop.Captured, "frame"))
	if pl.Back > 0 {
		words += fmt.Sprintf(", each with %d more on the way back", pl.Back)
	}
	if pl.RunUp > 0 {
		words = fmt.Sprintf("run-up of %s, %s", plain.Count(pl.RunUp, "frame"), words)
	}
	if pl.RunOut > 0 {
		words += fmt.Sprintf(", run-out of %s", plain.Count(pl.RunOut, "frame"))
	}
	return words
}

// handleWords tells of the handles, where there are so many frames at pace on the
// shorter side of what is delivered.
func handleWords(t Take, there int64) string {
	words := plain.Count(t.Handles, "captured frame") + " on either side"
	switch {
	case t.Handles <= 0:
		return ""
	case t.Handles > there:
		return words + " is more than the take holds at pace; record more rounds"
	}
	return words + fmt.Sprintf(", recorded frames %d to %d", t.First-t.Handles, t.Last+t.Handles)
}
