package page

import (
	"slices"
	"time"

	"seamrail/export/drive"
)

// Call is one beat of a count: for a hand, or before the motion.
type Call struct {
	Number int     `json:"n"` // one more than that of the call before
	Hand   bool    `json:"hand"`
	Text   string  `json:"text"`
	Left   int64   `json:"left"` // beats still to come; 0 is now
	At     float64 `json:"at"`   // when it was called, in ms as browsers count them
}

// callsKept is how many calls a page finds that was held up: those of a second.
const callsKept = 10

// Coming is the hand whose count comes next.
type Coming struct {
	Text string  `json:"text"`
	In   float64 `json:"in"` // s until the first beat of it, or the next one where it has begun
}

// Seen is where the axes were at one instant, in mm or degrees, and where the plan has them
// then.
type Seen struct {
	Round    int64     `json:"round"`
	Frame    float64   `json:"frame"` // captured, within the round
	Back     bool      `json:"back"`
	Reported bool      `json:"reported"` // it is what the controller says, not the plan
	At       []float64 `json:"at"`
	Plan     []float64 `json:"plan"`
	Off      []float64 `json:"off"`     // null where nothing is said of that
	InRound  []float64 `json:"inRound"` // at, without what earlier rounds have turned on
}

func seenAs(s drive.Sighting) *Seen {
	if s.At == nil {
		return nil
	}
	return &Seen{s.Round, s.Frame, s.Back, s.Reported, slices.Clone(s.At), slices.Clone(s.Plan), slices.Clone(s.Off), slices.Clone(s.InRound)}
}

func comingAs(c *drive.Coming) *Coming {
	if c == nil {
		return nil
	}
	return &Coming{c.Text, c.In}
}

// Count counts in.
func (s *stage) Count(left int) {
	s.change(func(d *DriveState) {
		d.Count = left
		s.calls(d, Call{Text: "count-in", Left: int64(left)})
	})
}

// Called counts a hand to its moment.
func (s *stage) Called(b drive.Beat) {
	s.change(func(d *DriveState) { s.calls(d, Call{Hand: true, Text: b.Text, Left: b.Left}) })
}

// calls keeps a call. Pages hear of all of them: one may come while another is still told.
func (s *stage) calls(d *DriveState, c Call) {
	s.called++
	c.Number, c.At = s.called, float64(time.Now().UnixMicro())/1000
	d.Calls = append(d.Calls, c)
	d.Calls = d.Calls[max(len(d.Calls)-callsKept, 0):]
}
