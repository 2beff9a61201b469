package footagereport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/motion/footage/hands"
)

// Hand is what was seen of what a hand was to do, in a round of the take. Frames are those of the
// recording.
type Hand struct {
	Cue, Hand     string // how they are called; "" where they are not
	Round         int    // from 0
	Opens, Closes float64
	Seen          hands.Seen
}

// Called is a name for what is to be done.
func (h Hand) Called() string {
	switch {
	case h.Cue != "":
		return h.Cue
	case h.Hand != "":
		return h.Hand
	}
	return "a hand"
}

// Words tell how it was.
func (h Hand) Words() string {
	s := h.Seen
	words := ""
	switch s.Kind {
	case hands.NotTold:
		return "cannot be told: " + s.Why
	case hands.NotSeen:
		return fmt.Sprintf("not seen; what changes less than %s of white would not be", percent(s.Limit))
	case hands.Inside:
		words = "inside"
	case hands.Early:
		words = fmt.Sprintf("early by %d", s.By)
	case hands.Late:
		words = fmt.Sprintf("late by %d", s.By)
	}
	if s.After > 0 {
		words += fmt.Sprintf(", and goes on for %d", s.After)
	}
	return words
}

func (h Hand) tone() report.Tone {
	switch h.Seen.Kind {
	case hands.Inside:
		return report.Good
	case hands.Early, hands.Late:
		return report.Poor
	}
	return report.Fair
}

// hands tells of each cue when it was seen, beside its window.
func (d Data) hands(r *report.Report) {
	if len(d.Hands) == 0 {
		return
	}
	r.Named("hands", "WHAT HANDS DID")
	t := report.Table{Columns: []report.Column{
		{Head: "cue"}, {Head: "round", Right: true}, {Head: "window", Right: true}, {Head: "changed", Right: true}, {Head: "captured frames"},
	}}
	for _, h := range d.Hands {
		changed := "-"
		if h.Seen.First > 0 {
			changed = fmt.Sprintf("%d to %d", h.Seen.First, h.Seen.Last)
		}
		window := "-"
		if h.Opens != 0 || h.Closes != 0 {
			window = fmt.Sprintf("%.0f to %.0f", h.Opens, h.Closes)
		}
		t.Rows = append(t.Rows, report.Row{Verdict: h.tone(), Cells: []string{h.Called(), fmt.Sprint(h.Round + 1), window, changed, h.Words()}})
	}
	r.Add(t)
	r.Bullets(report.Dim, " ", "Where the picture changes beside the camera's motion is taken to be the hand, or what it lets go of: a model. A window is from when the hand is to move until it is seen, and a tenth of a second either way.")
}

// rank is how far a hand was from what it was to do: it was there in time, nobody can tell, it was
// not in time, or not there.
func (h Hand) rank() int {
	return map[hands.Kind]int{hands.Inside: 0, hands.NotTold: 1, hands.Early: 2, hands.Late: 2, hands.NotSeen: 3}[h.Seen.Kind]
}

// worst is the hand of which there is most to say; nil where there is none.
func (d Data) worst() *Hand {
	var out *Hand
	for n := range d.Hands {
		if h := &d.Hands[n]; out == nil || h.rank() > out.rank() || h.rank() == out.rank() && h.Seen.By > out.Seen.By {
			out = h
		}
	}
	return out
}

func (d Data) handsRank() int {
	if h := d.worst(); h != nil {
		return h.rank()
	}
	return 0
}

// handsWord is the worst of all cues in a word; "-" where there is none.
func (d Data) handsWord() string {
	h := d.worst()
	if h == nil {
		return "-"
	}
	word := h.Seen.Kind.String()
	if h.Seen.By > 0 {
		word += fmt.Sprintf(" by %d", h.Seen.By)
	}
	return word
}

// HandFact is what was seen of what a hand was to do.
type HandFact struct {
	Cue    string   `json:"cue"`
	Hand   string   `json:"hand"`
	Round  int      `json:"round"`        // from 1
	Opens  *float64 `json:"window_opens"` // frames of the recording
	Closes *float64 `json:"window_closes"`
	How    string   `json:"how"`        // "inside", "early", "late", "not seen" or "not told"
	By     int      `json:"off_frames"` // by which it was early or late
	First  *int     `json:"seen_from"`  // null where it was not seen
	Last   *int     `json:"seen_to"`
	After  int      `json:"goes_on_frames"` // after its window closed
	Left   *float64 `json:"left"`           // where, in shares of the picture; null where it was not seen
	Top    *float64 `json:"top"`
	Right  *float64 `json:"right"`
	Bottom *float64 `json:"bottom"`
	Why    string   `json:"why_not_told"`
}

func (d Data) handFacts() []HandFact {
	return report.Each(d.Hands, func(h Hand) HandFact {
		s := h.Seen
		out := HandFact{Cue: h.Cue, Hand: h.Hand, Round: h.Round + 1, How: s.Kind.String(), By: s.By, After: s.After, Why: s.Why}
		out.Opens, out.Closes = kept.OrNull(h.Opens), kept.OrNull(h.Closes)
		if s.First > 0 {
			out.First, out.Last = &s.First, &s.Last
			out.Left, out.Top, out.Right, out.Bottom = kept.OrNull(s.Where.Left), kept.OrNull(s.Where.Top), kept.OrNull(s.Where.Right), kept.OrNull(s.Where.Bottom)
		}
		return out
	})
}
