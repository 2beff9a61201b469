package planreport

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan"
	"seamrail/motion/plan/stepwise"
)

// ByFrame is a take frame by frame. Times are real seconds.
type ByFrame struct {
	Frames   int64     `json:"frames"`
	Every    exact.Rat `json:"every_seconds"`      // from one exposure to the next, where no hand is waited for
	Whole    float64   `json:"whole_seconds"`      // from the first exposure to the end of the last
	Waits    bool      `json:"waits_for_the_hand"` // each frame is waited for until it is told taken
	Output   string    `json:"output"`             // of the rig, that the release hangs on; "" for a hand
	Bulb     bool      `json:"bulb"`               // the release is held as long as the exposure
	Exposure exact.Rat `json:"exposure_seconds"`
	Card     exact.Rat `json:"card_seconds"`
	Settle   float64   `json:"settle_seconds"` // of the frame that needs most
	Most     int64     `json:"needs_most"`     // that frame
	Needs    float64   `json:"needs_seconds"`
}

func byFrameOf(s *stepwise.Schedule) *ByFrame {
	if s == nil {
		return nil
	}
	by := s.ByFrame()
	return &ByFrame{
		Frames: s.Frames(), Every: s.Every(), Whole: foretold.Of(Lasts(s)), Waits: by.Waits, Output: by.Output, Bulb: by.Bulb,
		Exposure: by.Exposure, Card: by.Card, Settle: foretold.Of(s.Needs.Settle), Most: s.Needs.Frame, Needs: foretold.Of(s.Needs.Seconds()),
	}
}

// byFrame tells how a take frame by frame passes.
func (p *page) byFrame() {
	if p.d.Schedule == nil {
		return
	}
	p.Named("by-frame", "FRAME BY FRAME")
	for _, f := range FrameFacts(p.d.Schedule) {
		p.Field(f.Label, f.Text)
	}
}

// Fact is something of a take in words.
type Fact struct{ Label, Text string }

// FrameFacts say how a take frame by frame passes.
func FrameFacts(s *stepwise.Schedule) []Fact {
	by := s.ByFrame()
	how := "the camera times it, told to begin by a pulse"
	switch {
	case by.Output == "":
		how = "by the hand that takes it"
	case by.Bulb:
		how = "for as long as the release is held"
	}
	settle := "as long as the rig's file foretells of the after-shake, by a model of one spring an axis"
	if !by.Foretold {
		settle = "as the shot states"
	}
	side := "each axis comes to a frame as it comes"
	if by.OneSide {
		side = "an axis with play comes to each frame from the same side, beyond it and back where it has to"
	}
	return []Fact{
		{"frames", FramesPace(s)},
		{"needs most", fmt.Sprintf("frame %d, %s", s.Needs.Frame, s.Needs)},
		{"exposure", seconds(by.Exposure) + ", " + how},
		{"settling", settle},
		{"approach", side},
		{"after a break", "a take goes on at any frame: seamrail drive --go-on, or --from-frame"},
	}
}

// FramesPace says in words how far apart frames are, how long all of them take, and who
// takes them.
func FramesPace(s *stepwise.Schedule) string {
	by, frames := s.ByFrame(), plain.Count(s.Frames(), "frame")
	switch {
	case by.Waits:
		return fmt.Sprintf("%s, each taken by a hand that is waited for: %s", frames, allOf(s))
	case by.Output == "":
		return fmt.Sprintf("%s, one every %s by hand: %s in all", frames, seconds(s.Every()), plain.Spell(Lasts(s)))
	}
	return fmt.Sprintf("%s, one every %s by output %s: %s in all", frames, seconds(s.Every()), by.Output, plain.Spell(Lasts(s)))
}

// allOf says how long all frames take.
func allOf(s *stepwise.Schedule) string {
	text := plain.Spell(Lasts(s))
	if s.ByFrame().Waits {
		text += ", and what the hand takes"
	}
	return text
}

// Lasts is how long a take frame by frame is, s; where a hand is waited for, without what
// that takes.
func Lasts(s *stepwise.Schedule) float64 {
	if s.ByFrame().Waits {
		return s.Least()
	}
	return s.Seconds()
}

// longTake is from how many s on a take is long for batteries and daylight.
const longTake = 600

// frameDangers are those of a rig that rests for each frame.
func frameDangers(p *plan.Plan, s *stepwise.Schedule) []string {
	if s == nil {
		return nil
	}
	out := []string{"It rests for each frame, and then moves again without a word: it has not ended before the program says so."}
	if c, by := p.Rig.Controller, s.ByFrame(); by.Bulb && c.ExposureDwell(by.Exposure.Float()) == 0 {
		out = append(out, fmt.Sprintf("An exposure of %s is no whole number of the %g ms that the board dwells in: the program alone ends it, and the shutter stays open where that dies or the wire is lost.",
			seconds(by.Exposure), c.DwellGrain*1000))
	}
	if Lasts(s) > longTake {
		out = append(out, fmt.Sprintf("This takes %s: daylight changes, lamps warm, batteries and cards run out, and the last frame meets the first. Feed the camera from a supply, shut out the day, and do not leave the rig alone.", allOf(s)))
	}
	return out
}
