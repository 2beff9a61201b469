package cli

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"seamrail/export/drive/takelog"
	"seamrail/motion/cue"
)

// habitual is the sheet with what the log of the shot says of its hands.
func (j job) habitual(shotFile string) (cue.Sheet, error) {
	log, err := pickLog(logName(shotFile), isTimed)
	if err != nil {
		return j.cues, err
	}
	return j.cues.WithHabits(habits(log, j.cues.Hands())), nil
}

// warn says what the log of the shot tells of hands that it does not have.
func (j job) warn(w io.Writer, shotFile string) error {
	log, err := pickLog(logName(shotFile), isTimed)
	if err != nil {
		return err
	}
	for _, text := range strange(log, j.cues.Hands()) {
		if _, err := fmt.Fprintln(w, text); err != nil {
			return err
		}
	}
	return nil
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

// shifts is by how much each hand is told earlier, for the log.
func shifts(s cue.Sheet) map[string]float64 {
	out := map[string]float64{}
	for _, c := range s.Cues {
		if by := c.Habit.Shift(); by.Sign() != 0 {
			out[c.Hand] = by.Float()
		}
	}
	return out
}
