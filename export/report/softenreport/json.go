package softenreport

import (
	"seamrail/export/report"
	"seamrail/motion/vibration/lawfit"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-soften/1"

// Document is the JSON report: lengths in Unit, times in real seconds.
type Document struct {
	Schema string  `json:"schema"`
	Title  string  `json:"title"`
	Axis   string  `json:"axis"`
	Unit   string  `json:"unit"`
	Travel float64 `json:"travel"`
	Out    float64 `json:"out_seconds"`
	Back   float64 `json:"back_seconds"`
	Share  float64 `json:"share_of_limits"`
	Laws   []Law   `json:"laws"`
}

// Law is one law for the move; numbers are null where there is no law, no bound or
// nothing is known.
type Law struct {
	Least  string            `json:"least"` // "now" for the law it has
	Law    string            `json:"law"`
	Keys   map[string]string `json:"keys"` // of the shot file
	Speed  *float64          `json:"speed"`
	Acc    *float64          `json:"acceleration"`
	Jerk   *float64          `json:"jerk"`
	Bound  *float64          `json:"bound"`  // what no law goes below
	Excess *float64          `json:"excess"` // above it, as a share
	Left   *float64          `json:"left"`   // swinging, in Unit
	Within bool              `json:"within_limits"`
	Words  string            `json:"words"` // why not
}

// kept is what numbers keep; of those of a law, what is below a grain is rounding.
var (
	kept  = report.Rounding{Digits: 9}
	ofLaw = report.Rounding{Digits: 9, Grain: 1e-9}
)

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	s := d.Subject
	out, back := s.Ways()
	return Document{
		Schema: Schema, Title: d.Title, Axis: s.Axis.Name, Unit: s.Axis.Unit(), Travel: kept.Of(out.Travel),
		Out: kept.Of(out.Seconds), Back: kept.Of(back.Seconds), Share: s.Share, Laws: report.Each(d.Offers, lawOf),
	}
}

func lawOf(o lawfit.Offer) Law {
	l := Law{Least: o.Aim, Law: o.Name, Keys: map[string]string{}, Within: o.Within, Words: o.Why}
	if o.Name == "" {
		return l
	}
	for _, k := range o.Keys {
		l.Keys[k.Key] = k.Text
	}
	l.Speed, l.Acc, l.Jerk, l.Left = ofLaw.OrNull(o.Speed), ofLaw.OrNull(o.Acc), ofLaw.OrNull(o.Jerk), ofLaw.OrNull(o.Left)
	if o.Aim != lawfit.Now {
		l.Bound, l.Excess = ofLaw.OrNull(o.Bound), ofLaw.OrNull(max(0, o.Excess))
	}
	return l
}
