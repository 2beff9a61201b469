package fitreport

import (
	"io"
	"math"

	"seamrail/export/picturewords"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/loopsearch"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-fit/1"

// Document is the JSON report.
type Document struct {
	Schema   string               `json:"schema"`
	Title    string               `json:"title"`
	Between  [2]int64             `json:"between"` // timeline frames
	Laws     []string             `json:"laws"`
	Accept   string               `json:"accept"`
	Tried    int                  `json:"tried"`
	Quickest *Loop                `json:"quickest"`
	Gentlest *Loop                `json:"gentlest"`
	Kept     map[string]int       `json:"held_back"` // loops, by what held them back
	Standing []picturewords.Check `json:"standing"`  // what no pace changes
	Unknown  []picturewords.Check `json:"unknown"`   // what a number is missing for
}

// Loop is one loop that keeps every bound.
type Loop struct {
	Screen   int64                  `json:"timeline_frames"`
	Captured int64                  `json:"captured_frames"`
	Seconds  exact.Rat              `json:"screen_seconds"`
	Law      string                 `json:"law"`
	Strain   float64                `json:"strain"` // greatest share of an acceleration or jerk limit
	Command  string                 `json:"command"`
	Picture  *picturewords.Document `json:"picture"`
}

// WriteJSON writes the report as one indented JSON document and a newline. The
// error is the writer's.
func WriteJSON(w io.Writer, d Data) error {
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	a := d.Answer
	return e.Encode(Document{
		Schema: Schema, Title: d.Title, Between: [2]int64{d.Question.From, d.Question.To},
		Laws: append([]string{}, lawNames(d)...), Accept: d.Question.Accept.String(), Tried: a.Tried,
		Quickest: d.loop(a.Quickest), Gentlest: d.loop(a.Gentlest), Kept: a.Kept,
		Standing: checksOf(a.Standing), Unknown: checksOf(a.Unknown),
	})
}

func (d Data) loop(f *loopsearch.Found) *Loop {
	if f == nil {
		return nil
	}
	l := f.Shot.Loop
	return &Loop{
		Screen: l.Screen, Captured: l.Captured, Seconds: l.OnScreen(), Law: f.Law, Strain: share(f.Strain),
		Command: Command(d.Command, *f), Picture: picturewords.DocumentOf(f.Report),
	}
}

// share rounds to a millionth: the rest differs between processors.
func share(v float64) float64 {
	const grain = 1e6
	return math.Round(v*grain) / grain
}

func checksOf(list []picture.Verdict) []picturewords.Check {
	out := []picturewords.Check{}
	for _, v := range list {
		out = append(out, picturewords.CheckOf(v))
	}
	return out
}
