package sheet

import (
	"strings"

	"seamrail/motion/cue"
)

// cues is a row for each thing that a hand does.
func cues(s cue.Sheet) Table {
	t := Table{Name: "Cues, in real seconds", Heads: []string{"what", "who", "is seen at", "the hand is told", "count", "in"}}
	for _, c := range s.Cues {
		t.Rows = append(t.Rows, []string{c.Name, cue.Called(c.Hand), s.Seen(c), c.Told(), c.Counted(), c.InRounds()})
		t.Notes = append(t.Notes, c.Name+": "+strings.Join(c.Because(), "; ")+".")
	}
	return t
}
