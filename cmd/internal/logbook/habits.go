package logbook

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"seamrail/export/drive/takelog"
	"seamrail/motion/cue"
)

// Habitual is a sheet of cues with what the log of its shot says of its hands.
func Habitual(sheet cue.Sheet, shotFile string) (cue.Sheet, error) {
	log, err := pick(NameOf(shotFile), isTimed)
	if err != nil {
		return sheet, err
	}
	return WithHabits(sheet, log), nil
}

// WithHabits is a sheet of cues with what a log says of its hands.
func WithHabits(sheet cue.Sheet, log takelog.Log) cue.Sheet {
	return sheet.WithHabits(habits(log, sheet.Hands()))
}

// Strange says what the log of a shot tells of hands that its sheet does not have.
func Strange(sheet cue.Sheet, shotFile string) ([]string, error) {
	log, err := pick(NameOf(shotFile), isTimed)
	if err != nil {
		return nil, err
	}
	return strange(log, sheet.Hands()), nil
}

// strange says which takes were timed of hands that the shot does not have.
func strange(log takelog.Log, hands []string) []string {
	var out []string
	for _, t := range log.Takes {
		for _, hand := range slices.Sorted(maps.Keys(t.Late)) {
			switch {
			case slices.Contains(hands, hand):
			case hand != "":
				out = append(out, fmt.Sprintf("Take %d: %q is no hand of the shot, whose hands are %s; what was timed is passed over.", t.Number, hand, strings.Join(hands, ", ")))
			case len(hands) > 1:
				out = append(out, fmt.Sprintf("Take %d was timed without --hand, and the shot has %d hands; it is passed over.", t.Number, len(hands)))
			}
		}
	}
	return out
}

// habits sums up how late each hand was in the takes of a log. A mark that
// names no hand is of the only one there is.
func habits(log takelog.Log, hands []string) map[string]cue.Habit {
	late := map[string][]float64{}
	for _, t := range log.Takes {
		for hand, s := range t.Late {
			if hand == "" && len(hands) == 1 {
				hand = hands[0]
			}
			late[hand] = append(late[hand], s+t.Begin.Shift[hand])
		}
	}
	out := map[string]cue.Habit{}
	for _, hand := range hands {
		out[hand] = cue.HabitOf(late[hand])
	}
	return out
}

// Shifts is by how much each hand is told earlier, for the log.
func Shifts(s cue.Sheet) map[string]float64 {
	out := map[string]float64{}
	for _, c := range s.Cues {
		if by := c.Habit.Shift(); by.Sign() != 0 {
			out[c.Hand] = by.Float()
		}
	}
	return out
}
