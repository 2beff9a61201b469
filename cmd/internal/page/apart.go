package page

import "seamrail/cmd/internal/apart"

// apartPath is the one question that has two texts in it.
const apartPath = apiPath + "apart"

type apartQuestion struct {
	Here  string `json:"here"`
	There string `json:"there"`
}

// Line is one line of a text, and whether the other does not have it there.
type Line struct {
	Text string `json:"text"`
	Own  bool   `json:"own"`
}

type apartAnswer struct {
	Here  []Line `json:"here"`
	There []Line `json:"there"`
}

// apart tells which lines of two texts only one of them has.
func (s *Server) apart(q apartQuestion) (apartAnswer, error) {
	here, there := apart.Lines(q.Here, q.There)
	line := func(l apart.Line) Line { return Line(l) }
	return apartAnswer{listOf(here, line), listOf(there, line)}, nil
}
