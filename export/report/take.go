package report

import (
	"fmt"

	"seamrail/motion/plan"
)

func (p *page) take(pl *plan.Plan) {
	t := takeOf(pl)
	c := pl.Loop.Clock
	p.Section("TAKE")
	p.Field("record", fmt.Sprintf("%s: %s of real time", counted(t.recorded, "frame"), seconds(c.FrameTime(t.recorded))))
	p.Field("made of", takeParts(pl))
	p.cut(pl)
	p.Field("keep", fmt.Sprintf("round %d: recorded frames %d to %d, counted from 0", t.round+1, t.first, t.last))
	if t.handles > 0 {
		p.Field("handles", handleWords(t))
	}
	first, last := pl.Start, pl.Start+pl.Loop.Screen-1
	p.Field("timecode", fmt.Sprintf("%s to %s", pl.Timecode.Label(first), pl.Timecode.Label(last)))
}

func takeParts(pl *plan.Plan) string {
	words := fmt.Sprintf("%s of %s", counted(int64(pl.Rounds), "round"), counted(pl.Loop.Captured, "frame"))
	if pl.RunUp > 0 {
		words = fmt.Sprintf("run-up of %s, %s", counted(pl.RunUp, "frame"), words)
	}
	if pl.RunOut > 0 {
		words += fmt.Sprintf(", run-out of %s", counted(pl.RunOut, "frame"))
	}
	return words
}

func handleWords(t take) string {
	words := fmt.Sprintf("%s on either side, recorded frames %d to %d",
		counted(t.handles, "captured frame"), t.first-t.handles, t.last+t.handles)
	if t.short {
		words = fmt.Sprintf("%s on either side is more than the take holds at pace; record more rounds",
			counted(t.handles, "captured frame"))
	}
	return words
}
