package cue

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
)

// places is how many decimals of a second people are told: a millisecond.
const places = 3

func seconds(t exact.Rat) string { return t.Decimal(places) + " s" }

// Seen says when it is to be seen: "frame 72 of 144, turnaround of rail".
func (s Sheet) Seen(c Cue) string {
	text := fmt.Sprintf("frame %s of %d", c.Screen.Decimal(2), s.Plan.Loop.Screen)
	if c.What == "" {
		return text
	}
	if c.After.Sign() != 0 {
		side, by := "after", screen(s.Plan.Loop.Clock, c.After)
		if by.Sign() < 0 {
			side = "before"
		}
		return fmt.Sprintf("%s, %s %s the %s", text, unit.Format(by.Abs().Float(), unit.Frames), side, c.What)
	}
	return text + ", " + c.What
}

// Told says when the hand is told, counted from frame 0 of the round.
func (c Cue) Told() string {
	if c.Now().Sign() < 0 {
		return seconds(c.Now().Neg()) + " before frame 0"
	}
	return seconds(c.Now()) + " after frame 0"
}

// Because says what lies between the hand being told and what is seen, a part
// each.
func (c Cue) Because() []string {
	var out []string
	if c.Reaction.Sign() > 0 {
		out = append(out, "the hand reacts in "+seconds(c.Reaction))
	}
	if c.Habit.Shift().Sign() != 0 {
		out = append(out, c.Habit.String())
	}
	if c.Lead.Sign() > 0 {
		out = append(out, "it leaves the hand after "+seconds(c.Lead))
	}
	if c.Falls.Sign() > 0 {
		text := "it falls " + unit.Format(c.Fall.Float(), unit.Length)
		if c.Flow.Sign() > 0 {
			text += ", from " + unit.Format(c.Flow.Float(), unit.Speed) + ","
		}
		out = append(out, text+" in "+seconds(c.Falls))
	}
	if c.Measured.Sign() > 0 {
		out = append(out, "it lands "+seconds(c.Measured)+" after the hand's move, as measured")
	}
	switch {
	case len(out) > 0:
	case c.arrives():
		out = append(out, "the hand should be there by then")
	default:
		out = append(out, "it is seen as the hand moves")
	}
	return out
}

// arrives tells whether a cue is of a hand that should be where it went by then.
func (c Cue) arrives() bool { return (c.Ring || c.Dims != nil) && c.Busy.Sign() == 0 }

// Counted says how the hand is counted to it.
func (c Cue) Counted() string {
	switch c.Beats {
	case 0:
		return "not counted: a single tone says now"
	case 1:
		return "one beat, " + seconds(c.Beat) + " before now"
	}
	return fmt.Sprintf("%d beats of %s, then now", c.Beats, seconds(c.Beat))
}

// InRounds says in which rounds it happens.
func (c Cue) InRounds() string {
	if c.Rounds == nil {
		return "each round"
	}
	names := list.Map(c.Rounds, func(r int64) string { return fmt.Sprint(r) })
	if len(names) == 1 {
		return "round " + names[0]
	}
	return "rounds " + strings.Join(names, ", ")
}

// String says how late the hand usually is, and what follows.
func (h Habit) String() string {
	if h.Takes == 0 {
		return "nothing is known of how late this hand is"
	}
	side := "late"
	if h.Mean < 0 {
		side = "early"
	}
	text := fmt.Sprintf("this hand has been %s %s on average in %s", exact.FromFloat(h.Mean).Abs().Decimal(places)+" s", side, plain.Count(h.Takes, "take"))
	if h.Takes > 1 {
		text += ", give or take " + exact.FromFloat(h.Spread).Decimal(places) + " s"
	}
	shift := h.Shift()
	switch {
	case shift.Sign() > 0:
		text += ": told " + seconds(shift) + " earlier"
	case shift.Sign() < 0:
		text += ": told " + seconds(shift.Neg()) + " later"
	}
	return text
}
