package softenreport

import (
	"io"
	"math"
	"strconv"

	"seamrail/motion/base/plain"
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

// WriteJSON writes one indented document and a newline. The error is the writer's.
func WriteJSON(w io.Writer, d Data) error {
	s := d.Subject
	out, back := s.Ways()
	doc := Document{
		Schema: Schema, Title: d.Title, Axis: s.Axis.Name, Unit: s.Axis.Unit(),
		Travel: rounded(out.Travel), Out: rounded(out.Seconds), Back: rounded(back.Seconds), Share: s.Share, Laws: []Law{},
	}
	for _, o := range d.Offers {
		doc.Laws = append(doc.Laws, lawOf(o))
	}
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(doc)
}

func lawOf(o lawfit.Offer) Law {
	l := Law{Least: o.Aim, Law: o.Name, Keys: map[string]string{}, Within: o.Within, Words: o.Why}
	if o.Name == "" {
		return l
	}
	for _, k := range o.Keys {
		l.Keys[k.Key] = k.Text
	}
	l.Speed, l.Acc, l.Jerk, l.Left = finite(o.Speed), finite(o.Acc), finite(o.Jerk), finite(o.Left)
	if o.Aim != lawfit.Now {
		l.Bound, l.Excess = finite(o.Bound), finite(max(0, o.Excess))
	}
	return l
}

// kept is how many digits numbers keep; grain is what is rounding below it.
const (
	kept  = 9
	grain = 1e-9
)

func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	if math.Abs(v) < grain {
		v = 0
	}
	v = rounded(v)
	return &v
}

func rounded(v float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', kept, 64), 64)
	if err != nil {
		return 0
	}
	return out
}
