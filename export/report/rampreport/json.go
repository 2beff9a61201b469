package rampreport

import (
	"seamrail/export/report"
	"seamrail/motion/law/rampfit"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-ramp/1"

// Document is the JSON report.
type Document struct {
	Schema string   `json:"schema"`
	Fits   bool     `json:"fits"`
	Words  string   `json:"words"`
	Law    string   `json:"law"`        // that fits every take; "" where none does
	Others []string `json:"other_laws"` // that fit every take as well, and are not told from it
	Takes  []Take   `json:"takes"`
	Keep   []string `json:"rig_file"` // lines
}

// Take is one take with every law that was laid through it, likeliest first.
type Take struct {
	File     string  `json:"file"`
	Readings int     `json:"readings"`
	Sure     float64 `json:"reading_uncertainty"`
	Laws     []Law   `json:"laws"`
}

// Law is one law laid through a take. Uncertainties are standard, 0 where the readings do
// not tell.
type Law struct {
	Law         string  `json:"law"`
	Fits        bool    `json:"fits"`
	Start       float64 `json:"start_seconds"`
	Way         float64 `json:"way_seconds"`
	WaySure     float64 `json:"way_uncertainty_seconds"`
	Ramp        float64 `json:"ramp_share"` // 0 of a law without ramps
	RampSure    float64 `json:"ramp_share_uncertainty"`
	Seconds     float64 `json:"ramp_seconds"`
	SecondsSure float64 `json:"ramp_uncertainty_seconds"`
	JerkShare   float64 `json:"jerk_share"`
	JerkSure    float64 `json:"jerk_share_uncertainty"`
	RMS         float64 `json:"left_over"`
	Worst       float64 `json:"left_over_worst"`
}

// kept is what numbers keep: no take knows more.
var kept = report.Rounding{Digits: 6, Grain: 1e-9}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	said, t := "", rampfit.Compare(d.Takes)
	if t.Law != "" {
		said = words(t)
	}
	at := kept.Of
	return Document{
		Schema: Schema, Fits: t.Law != "", Words: said, Law: t.Law, Others: report.List(t.Others), Keep: report.List(d.Keep()),
		Takes: report.Each(d.Takes, func(f rampfit.Found) Take {
			return Take{f.Take.File, len(f.Take.Readings), at(f.Sure), report.Each(f.All, func(x rampfit.Fit) Law {
				return Law{x.Law, x.Fits, at(x.Start), at(x.Way), at(x.WaySure), at(x.Ramp), at(x.RampSure), at(x.Seconds), at(x.SecondsSure),
					at(x.JerkShare), at(x.JerkSure), at(x.RMS), at(x.Worst)}
			})}
		}),
	}
}
