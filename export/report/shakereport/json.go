package shakereport

import (
	"seamrail/export/report"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/survey"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-shake/1"

// Document is the JSON report. Lengths are mm or degrees, as Unit says; times
// real seconds.
type Document struct {
	Schema   string     `json:"schema"`
	Title    string     `json:"title"`
	Axis     string     `json:"axis"`
	Unit     string     `json:"unit"`
	Spring   Spring     `json:"spring"`
	PerUnit  float64    `json:"pixels_per_unit"` // 0 where it is not known
	Move     *Move      `json:"move"`            // null where nothing can be told
	Words    string     `json:"words"`           // why not; or what is surprising
	Laws     []Law      `json:"laws"`
	Shapers  []Shaper   `json:"shapers"`
	Clean    []Duration `json:"clean_ways"`
	Loops    []Offer    `json:"loops"`
	Dwells   []Offer    `json:"dwells"`
	Frames   []float64  `json:"frames"` // units beside the carriage
	Every    int64      `json:"frames_apart"`
	Captured int64      `json:"captured_frames"`
}

// Spring is how the axis swings; uncertainties are standard, 0 where unknown.
type Spring struct {
	Frequency     float64 `json:"frequency_hz"`
	FrequencySure float64 `json:"frequency_uncertainty_hz"`
	Damping       float64 `json:"damping"`
	DampingSure   float64 `json:"damping_uncertainty"`
	Source        string  `json:"source"`
}

// Move is what a move does.
type Move struct {
	Worst   float64 `json:"worst"`
	At      float64 `json:"worst_at_seconds"`
	Shake   float64 `json:"worst_shake"`
	Left    float64 `json:"left"`
	Acc     float64 `json:"acceleration"`
	Within  bool    `json:"within_limits"`
	Rests   []Rest  `json:"rests"`
	Settles int     `json:"settles_after_rounds"`
}

// Rest is a dwell.
type Rest struct {
	From  float64 `json:"from_seconds"`
	To    float64 `json:"to_seconds"`
	Swing float64 `json:"swing"`
	Left  float64 `json:"left"`
}

// Law is the move under another law.
type Law struct {
	Law    string   `json:"law"`
	Alone  float64  `json:"one_way_alone"`
	Left   float64  `json:"left"`
	Acc    *float64 `json:"acceleration"` // null where it has no bound
	Within bool     `json:"within_limits"`
}

// Shaper is the move shaped.
type Shaper struct {
	Shaper string   `json:"shaped"`
	Left   float64  `json:"left"`
	Off    float64  `json:"left_5_percent_off"`
	Acc    *float64 `json:"acceleration"`
	Within bool     `json:"within_limits"`
	Why    string   `json:"words,omitempty"`
}

// Duration is a clean duration of one way.
type Duration struct {
	Frames  int64   `json:"captured_frames"`
	Seconds float64 `json:"real_seconds"`
	Left    float64 `json:"left"` // units, of one way alone
}

// Offer is another loop or dwell.
type Offer struct {
	Loop  int64   `json:"timeline_frames"`
	Dwell *int64  `json:"dwell_far_frames,omitempty"`
	Left  float64 `json:"left"`
	Acc   float64 `json:"acceleration"`
}

// kept is what numbers keep: no spring is known to more digits, and below a
// millionth of a unit all is rounding.
var kept = report.Rounding{Digits: 6, Grain: 1e-6}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	s, m, at := d.Subject, d.Measured, kept.Of
	leg, _ := s.Leg()
	out := Document{
		Schema: Schema, Title: d.Title, Axis: s.Axis.Name, Unit: s.Axis.Unit(), PerUnit: kept.Of(d.PerUnit),
		Spring: Spring{at(m.Spring.Frequency), at(m.FrequencySure), at(m.Spring.Damping), at(m.DampingSure), d.Source},
		Words:  d.Surprise, Captured: s.Loop.Captured, Every: 1, Frames: report.Each(d.Frames, kept.Of),
		Laws: report.Each(d.Laws, func(l survey.Law) Law {
			return Law{l.Law.Name(), kept.Of(l.Alone), kept.Of(l.Left), kept.OrNull(l.Acc), l.Within}
		}),
		Shapers: report.Each(d.Shapers, shaperOf), Loops: report.Each(d.Loops, offerOf), Dwells: report.Each(d.Dwells, offerOf),
		Clean: report.Each(d.Clean, func(c vibration.Clean) Duration {
			return Duration{c.Frames, kept.Of(c.Seconds.Float()), kept.Of(c.Left * leg.Travel)}
		}),
	}
	if d.Why != "" {
		out.Words = d.Why
	} else {
		out.Move = moveOf(d.Own, d.Settles)
	}
	if n := int64(len(d.Frames)); n > 0 {
		out.Every = (s.Loop.Captured + n - 1) / n
	}
	return out
}

func moveOf(f survey.Found, settles int) *Move {
	m := &Move{
		Worst: kept.Of(f.Worst.Value), At: kept.Of(f.Worst.Time), Shake: kept.Of(f.Ring.Value), Left: kept.Of(f.Left),
		Within: f.Within, Settles: settles,
		Rests: report.Each(f.Rests, func(r vibration.Rest) Rest {
			return Rest{kept.Of(r.From), kept.Of(r.To), kept.Of(r.Swing), kept.Of(r.Left)}
		}),
	}
	if acc := kept.OrNull(f.Acc); acc != nil {
		m.Acc = *acc
	}
	return m
}

func shaperOf(s survey.Shaped) Shaper {
	if s.Why != "" {
		return Shaper{Shaper: s.Shaper.String(), Why: s.Why}
	}
	return Shaper{s.Shaper.String(), kept.Of(s.Left), kept.Of(s.Off), kept.OrNull(s.Acc), s.Within, ""}
}

func offerOf(o survey.Offer) Offer {
	x := Offer{Loop: o.Loop.Screen, Left: kept.Of(o.Left), Acc: kept.Of(o.Acc)}
	if o.Dwell >= 0 {
		x.Dwell = &o.Dwell
	}
	return x
}
