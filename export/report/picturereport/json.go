package picturereport

import (
	"seamrail/export/report"
	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
)

// Document is what a report found of a picture, as JSON.
type Document struct {
	Worst   string   `json:"worst"` // the worst level of any check
	Checks  []Check  `json:"checks"`
	Assumed []string `json:"assumed"`
	Points  []string `json:"points"` // that smear and speed were followed at
	Lacks   []Lack   `json:"would_tell"`
	Bounds  []Bound  `json:"bounds"`          // that it was looked at by
	Pulls   []Pull   `json:"pulls,omitempty"` // of a hand on the focus ring
}

// Pull is one way of a hand on the focus ring, in real seconds from frame 0.
type Pull struct {
	From   float64  `json:"from_seconds"`
	To     float64  `json:"to_seconds"`
	Begins float64  `json:"from_focus_mm"`
	Ends   float64  `json:"to_focus_mm"`
	Needs  float64  `json:"hand_needs_seconds"` // 0 where that is not known
	Peak   *float64 `json:"ring_deg_per_second"`
}

// Check is one question about the picture and its answer.
type Check struct {
	Check   string   `json:"check"`
	Level   string   `json:"level"` // "unknown", "good", "fair", "poor", "block"
	Words   string   `json:"words"`
	Paced   bool     `json:"paced"` // a longer or a shorter loop may change it
	Figures []Figure `json:"figures"`
	When    *When    `json:"when"` // of the worst value
	Missing []string `json:"missing"`
	Cures   []string `json:"cures"`  // that were tried and help, with what they make worse
	Failed  []string `json:"failed"` // that were tried and do not, where none does
	Advice  []string `json:"advice"` // what may help and could not be tried
}

// Figure is one number beside an answer.
type Figure struct {
	Name  string   `json:"name"`
	Value *float64 `json:"value"` // null where it has no bound
	Unit  string   `json:"unit"`
}

// When is an instant of the loop; below 0 in the run-up.
type When struct {
	Real   float64 `json:"real_seconds"`
	Screen float64 `json:"screen_seconds"`
	Frame  int64   `json:"captured_frame"`
}

// Lack is a number that is missing and the checks it would tell of.
type Lack struct {
	Number string   `json:"number"`
	Checks []string `json:"checks"`
}

// Bound is what parts a good picture from a poor one.
type Bound struct {
	Key    string  `json:"key"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Source string  `json:"source"`
	Own    bool    `json:"own"` // it is not the usual one
}

// kept is what numbers keep.
var kept = report.Rounding{Digits: 6}

// DocumentOf returns what JSON holds of a report.
func DocumentOf(r picture.Report) *Document {
	return &Document{
		Worst: r.Worst().String(), Checks: report.Each(r.Verdicts, CheckOf), Lacks: lacks(r), Bounds: bounds(r),
		Assumed: report.List(r.Assumed), Points: report.List(r.Points),
		Pulls: report.Each(r.Pulls, func(p picture.Pulling) Pull {
			return Pull{kept.Of(p.From), kept.Of(p.To), kept.Of(p.Begins), kept.Of(p.Ends), kept.Of(p.Needs), kept.OrNull(p.Peak)}
		}),
	}
}

// CheckOf returns what JSON holds of a verdict.
func CheckOf(v picture.Verdict) Check {
	out := Check{
		Check: v.Check, Level: v.Level.String(), Words: v.Text, Paced: v.Paced,
		Missing: report.List(v.Missing), Cures: report.List(v.Cures.Words()),
		Failed: report.List(v.Failed), Advice: report.List(v.Advice),
		Figures: report.Each(v.Figures, func(f picture.Figure) Figure {
			return Figure{f.Name, kept.OrNull(f.Value), f.Unit}
		}),
	}
	if v.When != nil {
		out.When = &When{kept.Of(v.When.Seconds), kept.Of(v.When.OnScreen), v.When.Frame}
	}
	return out
}

// bounds lists the bounds that a picture was looked at by.
func bounds(r picture.Report) []Bound {
	usual := scene.DefaultBounds()
	var out []Bound
	for _, i := range scene.BoundList() {
		if (i.OfFades() && !r.Fades || i.OfPulls() && len(r.Pulls) == 0) && *i.At(&r.Bounds) == *i.At(&usual) {
			continue
		}
		b := Bound{Key: i.Key, Value: kept.Of(*i.At(&r.Bounds)), Unit: i.Unit, Source: i.Source}
		if *i.At(&r.Bounds) != *i.At(&usual) {
			b.Source, b.Own = "the shot", true
		}
		out = append(out, b)
	}
	return out
}
