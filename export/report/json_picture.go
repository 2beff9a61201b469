package report

import (
	"seamrail/motion/picture"
	"seamrail/motion/plan"
)

// Picture is what the move does to the picture.
type Picture struct {
	Worst   string         `json:"worst"` // the worst level of any check
	Checks  []PictureCheck `json:"checks"`
	Assumed []string       `json:"assumed"`
	Points  []string       `json:"points"` // that smear and speed were followed at
	Lacks   []PictureLack  `json:"would_tell"`
}

// PictureCheck is one question about the picture and its answer.
type PictureCheck struct {
	Check   string          `json:"check"`
	Level   string          `json:"level"` // "unknown", "good", "fair", "poor", "block"
	Words   string          `json:"words"`
	Paced   bool            `json:"paced"` // a longer or a shorter loop may change it
	Figures []PictureFigure `json:"figures"`
	When    *When           `json:"when"` // of the worst value
	Missing []string        `json:"missing"`
	Cures   []string        `json:"cures"`
}

// PictureFigure is one number beside an answer.
type PictureFigure struct {
	Name  string   `json:"name"`
	Value *float64 `json:"value"`
	Unit  string   `json:"unit"`
}

// PictureLack is a number that is missing and the checks it would tell of.
type PictureLack struct {
	Number string   `json:"number"`
	Checks []string `json:"checks"`
}

func pictureOf(p *plan.Plan, r *picture.Report) *Picture {
	if r == nil {
		return nil
	}
	out := &Picture{
		Worst: r.Worst().String(), Checks: []PictureCheck{}, Lacks: []PictureLack{},
		Assumed: append([]string{}, r.Assumed...), Points: append([]string{}, r.Points...),
	}
	for _, v := range r.Verdicts {
		out.Checks = append(out.Checks, checkOf(p, v))
	}
	for _, l := range lacking(r) {
		out.Lacks = append(out.Lacks, PictureLack{l.number, l.checks})
	}
	return out
}

func checkOf(p *plan.Plan, v picture.Verdict) PictureCheck {
	out := PictureCheck{
		Check: v.Check, Level: v.Level.String(), Words: v.Text, Paced: v.Paced, Figures: []PictureFigure{},
		Missing: append([]string{}, v.Missing...), Cures: append([]string{}, v.Cures...),
	}
	if v.When != nil {
		at := instant(p.Loop.Clock, v.When.Seconds)
		out.When = &at
	}
	for _, f := range v.Figures {
		out.Figures = append(out.Figures, PictureFigure{f.Name, told(f.Value), f.Unit})
	}
	return out
}

// told is a number as JSON holds it, to the digits that are told.
func told(v float64) *float64 {
	if finite(v) == nil {
		return nil
	}
	v = rounded(v, expectedDigits)
	return &v
}
