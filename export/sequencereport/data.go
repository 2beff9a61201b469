// Package sequencereport tells how shots join into a clip, in which order to
// film them and what that takes, as text and as JSON.
package sequencereport

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan/judge"
)

// Data is what a report tells.
type Data struct {
	Clip     *sequence.Clip
	Defaults []source.Default // of the sequence file
	Troubles []Trouble
	Heads    []Head
}

// Head is the headline of a shot's own plan.
type Head struct {
	File     string
	Headline judge.Headline
}

// Trouble is what a shot's own plan breaks.
type Trouble struct {
	File string `json:"file"`
	Text string `json:"text"`
}

// Options says how the report is dressed.
type Options struct {
	Colour bool
}

func counted(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Time is a real time as a person reads it: "41.2 s", "12 min 5 s",
// "1 h 12 min", to the nearest.
func Time(s exact.Rat) string {
	if s.Less(exact.Int(60)) {
		return s.Decimal(1) + " s"
	}
	const hour = 3600
	if !s.Less(exact.Int(hour)) {
		minutes := s.Quo(exact.Int(60)).Round().Whole()
		return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
	}
	whole := s.Round().Whole()
	if whole%60 == 0 {
		return fmt.Sprintf("%d min", whole/60)
	}
	return fmt.Sprintf("%d min %d s", whole/60, whole%60)
}
