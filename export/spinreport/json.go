package spinreport

import (
	"io"
	"strconv"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/turntable/spin"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-spin/1"

// WriteJSON writes the report as one indented JSON document and a newline. The
// error is the writer's.
func WriteJSON(w io.Writer, d Data) error {
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(document(d))
}

func document(d Data) Document {
	c := d.Query.Clock
	out := Document{
		Schema: Schema, Title: d.Title, Capture: c.Capture, Playback: c.Playback, Retime: c.Retime,
		Between: [2]exact.Rat{d.Query.From, d.Query.To}, Considered: d.Answer.Considered, Closing: d.Answer.Closing,
		Loops: []Loop{}, Fits: []Fit{}, Measured: []MeasuredPeriod{}, Tables: []TableTurn{}, Defaults: []Default{},
		Own: d.loop(d.Own),
	}
	for i := range d.Answer.Loops {
		out.Loops = append(out.Loops, *d.loop(&d.Answer.Loops[i]))
	}
	for _, f := range d.Answer.Fits {
		out.Fits = append(out.Fits, Fit{f.Kind, f.Text, d.loop(f.Loop)})
	}
	for _, m := range d.Measured {
		out.Measured = append(out.Measured, measuredOf(m))
	}
	for _, t := range d.Tables {
		out.Tables = append(out.Tables, TableTurn{t.Name, t.Turns, rounded(t.Speed.Float()), t.Remainder.Steps,
			t.Remainder.Part, t.Remainder.Rounds, t.RunUp, t.RunOut})
	}
	for _, x := range d.Defaults {
		out.Defaults = append(out.Defaults, defaultOf(x))
	}
	return out
}

func defaultOf(x source.Default) Default { return Default{x.Key, x.Value, x.Why} }

func (d Data) loop(l *spin.Loop) *Loop {
	if l == nil {
		return nil
	}
	out := Loop{
		Capture: l.Clock.Capture, Screen: l.Screen, Captured: l.Captured, Seconds: l.OnScreen(),
		Cycle: l.Cycle, Alike: l.Alike, Closes: l.Closes(), Sure: l.Certain(), Seams: []Seam{},
	}
	for _, s := range l.Seams {
		out.Seams = append(out.Seams, d.seam(s, l.Clock))
	}
	return &out
}

func (d Data) seam(s spin.Seam, c clock.Clock) Seam {
	strobe := spin.StrobeOf(s.Speed.Period, c.Pictures(), s.Product.Symmetry)
	out := Seam{
		Stand: s.Product.Stand.Name, Speed: s.Speed.Name, Direction: s.Product.Stand.Direction.String(),
		Period: s.Speed.Period, Sigma: s.Speed.Sigma, Symmetry: s.Product.Symmetry, Match: s.Match,
		Turns: s.Turns, Error: s.Error, Degrees: rounded(s.Degrees().Float()), Frames: rounded(s.Frames().Float()),
		Spread: rounded(s.Spread.Float() * 360), Bound: rounded(s.Bound.Float() * 360),
		Percent:  rounded(s.Off(onePerCent).Float() * 360),
		Apparent: rounded(strobe.Apparent.Float() * 360), Reversal: strobe.Reversal,
	}
	if s.Product.Radius.Sign() > 0 {
		out.Millimetres = number(s.Millimetres())
		if s.Product.Scale.Sign() > 0 {
			out.Pixels = number(s.Pixels())
		}
	}
	if n, ever := s.Shows(); ever {
		out.Rounds = &n
	}
	assume := d.Assume
	assume.Capture = c.Capture
	out.ByWatch, out.ByPicture = needed(s, assume.ByStopwatch()), needed(s, assume.ByPicture())
	return out
}

func needed(s spin.Seam, sigma float64) *int64 {
	n, ok := s.TurnsToTime(sigma)
	if !ok {
		return nil
	}
	return &n.Turns
}

func measuredOf(m Measured) MeasuredPeriod {
	out := MeasuredPeriod{Stand: m.Stand, Speed: m.Speed, Period: m.Period, Sigma: m.Sigma, Ratio: rounded(m.Ratio)}
	for i, r := range m.Readings {
		out.Readings = append(out.Readings, Reading{r.Text, r.Turns, r.Seconds, rounded(m.Late[i])})
	}
	return out
}

// digits is how many a float keeps: what is beyond differs between processors.
const digits = 9

func rounded(v float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil || out == 0 {
		return 0 // never the negative zero
	}
	return out
}

func number(v float64) *float64 {
	v = rounded(v)
	return &v
}
