package shakereport

import (
	"io"
	"math"
	"strconv"

	"seamrail/motion/base/plain"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/survey"
)

// digits is how many digits numbers keep: no spring is known to more, and the
// rest is rounding, which differs between processors.
const digits = 6

// grain is what counts as nothing, in units: below it all is rounding.
const grain = 1e-6

func rounded(v float64) float64 {
	if math.Abs(v) < grain {
		return 0
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		return 0
	}
	return out
}

func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	v = rounded(v)
	return &v
}

// WriteJSON writes the report as one indented JSON document and a newline. The
// error is the writer's.
func WriteJSON(w io.Writer, d Data) error {
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(documentOf(d))
}

func documentOf(d Data) Document {
	s := d.Subject
	out := Document{
		Schema: Schema, Title: d.Title, Axis: s.Axis.Name, Unit: s.Axis.Unit(), PerUnit: rounded(d.PerUnit),
		Spring: Spring{
			rounded(d.Measured.Spring.Frequency), rounded(d.Measured.FrequencySure),
			rounded(d.Measured.Spring.Damping), rounded(d.Measured.DampingSure), d.Source,
		},
		Words: d.Surprise, Captured: s.Loop.Captured, Every: 1,
		Laws: []Law{}, Shapers: []Shaper{}, Clean: []Duration{}, Loops: offers(d.Loops), Dwells: offers(d.Dwells), Frames: []float64{},
	}
	if d.Why != "" {
		out.Words = d.Why
	} else {
		out.Move = moveOf(d.Own, d.Settles)
	}
	d.rows(&out)
	for _, f := range d.Frames {
		out.Frames = append(out.Frames, rounded(f))
	}
	if n := int64(len(d.Frames)); n > 0 {
		out.Every = (s.Loop.Captured + n - 1) / n
	}
	return out
}

func moveOf(f survey.Found, settles int) *Move {
	m := &Move{
		Worst: rounded(f.Worst.Value), At: rounded(f.Worst.Time), Shake: rounded(f.Ring.Value), Left: rounded(f.Left),
		Within: f.Within, Rests: []Rest{}, Settles: settles,
	}
	if acc := finite(f.Acc); acc != nil {
		m.Acc = *acc
	}
	for _, r := range f.Rests {
		m.Rests = append(m.Rests, restOf(r))
	}
	return m
}

func restOf(r vibration.Rest) Rest {
	return Rest{rounded(r.From), rounded(r.To), rounded(r.Swing), rounded(r.Left)}
}

func (d Data) rows(out *Document) {
	for _, l := range d.Laws {
		out.Laws = append(out.Laws, Law{l.Law.Name(), rounded(l.Alone), rounded(l.Left), finite(l.Acc), l.Within})
	}
	for _, s := range d.Shapers {
		row := Shaper{Shaper: s.Shaper.String(), Why: s.Why}
		if s.Why == "" {
			row.Left, row.Off, row.Acc, row.Within = rounded(s.Left), rounded(s.Off), finite(s.Acc), s.Within
		}
		out.Shapers = append(out.Shapers, row)
	}
	leg, _ := d.Subject.Leg()
	for _, c := range d.Clean {
		out.Clean = append(out.Clean, Duration{c.Frames, rounded(c.Seconds.Float()), rounded(c.Left * leg.Travel)})
	}
}

func offers(all []survey.Offer) []Offer {
	out := []Offer{}
	for _, o := range all {
		x := Offer{Loop: o.Loop.Screen, Left: rounded(o.Left), Acc: rounded(o.Acc)}
		if o.Dwell >= 0 {
			x.Dwell = &o.Dwell
		}
		out = append(out, x)
	}
	return out
}
