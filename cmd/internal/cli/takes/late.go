package takes

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/cue"
)

// maxLate is how far off a hand may be, in real s: beyond that it missed.
var maxLate = exact.Int(10)

// timed is the record of a hand that was late or early, if one was.
func (o *Options) timed() ([]takelog.Record, error) {
	text, flag := o.Late, "--late"
	if o.Early != "" {
		text, flag = o.Early, "--early"
	}
	if text == "" {
		if o.Hand != "" {
			return nil, exit.Misused("--hand says whose hand was late; add --late or --early")
		}
		return nil, nil
	}
	by, err := o.realTime(text)
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", flag, err)
	case maxLate.Less(by.Abs()):
		return nil, fmt.Errorf("%s %q must be within %s s of real time", flag, text, maxLate)
	case flag == "--early":
		by = by.Neg()
	}
	return []takelog.Record{{Kind: takelog.Timed, Hand: o.Hand, Late: by.Float()}}, nil
}

// realTime reads real seconds, or frames of the finished picture, for which it
// takes the shot's clock.
func (o *Options) realTime(text string) (exact.Rat, error) {
	q, err := unit.ParseAs(text, unit.Time, unit.Frames)
	if err != nil || q.Dim == unit.Time {
		return q.Value, err
	}
	if o.Shot == "-" {
		return q.Value, exit.Misused("frames of a shot from standard input are not known; give seconds")
	}
	s, _, err := job.Source{Shot: o.Shot}.Load(nil)
	if err != nil {
		return q.Value, fmt.Errorf("a frame is as long as the shot says: %w", err)
	}
	return q.Value.Quo(s.Clock.Playback).Mul(s.Clock.Retime), nil
}

// lateTexts say how late each hand was.
func lateTexts(late map[string]float64) []string {
	var out []string
	for _, hand := range slices.Sorted(maps.Keys(late)) {
		who, side, by := "hand", "late", late[hand]
		if hand != "" {
			who = cue.Called(hand)
		}
		if by < 0 {
			side = "early"
		}
		out = append(out, fmt.Sprintf("%s %.3f s %s", who, math.Abs(by), side))
	}
	return out
}
