package picturewords

import (
	"math"

	"seamrail/motion/camera/picture"
)

// Document is what a report found of a picture, as JSON.
type Document struct {
	Worst   string   `json:"worst"` // the worst level of any check
	Checks  []Check  `json:"checks"`
	Assumed []string `json:"assumed"`
	Points  []string `json:"points"` // that smear and speed were followed at
	Lacks   []Lack   `json:"would_tell"`
	Bounds  []Bound  `json:"bounds"` // that it was looked at by
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

// jsonDigits is how many digits numbers keep: the rest is rounding, which
// differs between processors.
const jsonDigits = 6

// DocumentOf returns what JSON holds of a report.
func DocumentOf(r picture.Report) *Document {
	out := &Document{
		Worst: r.Worst().String(), Checks: []Check{}, Lacks: Lacks(r), Bounds: Bounds(r),
		Assumed: append([]string{}, r.Assumed...), Points: append([]string{}, r.Points...),
	}
	for _, v := range r.Verdicts {
		out.Checks = append(out.Checks, CheckOf(v))
	}
	return out
}

// CheckOf returns what JSON holds of a verdict.
func CheckOf(v picture.Verdict) Check {
	out := Check{
		Check: v.Check, Level: v.Level.String(), Words: v.Text, Paced: v.Paced, Figures: []Figure{},
		Missing: append([]string{}, v.Missing...), Cures: append([]string{}, v.Cures...),
		Failed: append([]string{}, v.Failed...), Advice: append([]string{}, v.Advice...),
	}
	if v.When != nil {
		out.When = &When{rounded(v.When.Seconds, jsonDigits), rounded(v.When.OnScreen, jsonDigits), v.When.Frame}
	}
	for _, f := range v.Figures {
		out.Figures = append(out.Figures, Figure{f.Name, finite(f.Value), f.Unit})
	}
	return out
}

// finite returns a pointer to v, or nil where JSON has no number for it.
func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	v = rounded(v, jsonDigits)
	return &v
}
