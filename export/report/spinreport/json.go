package spinreport

import (
	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/turntable/spin"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-spin/1"

// Document is the JSON report. Exact numbers are strings such as "24000/1001";
// lengths are mm, angles degrees, times seconds; what is not known is null.
type Document struct {
	Schema     string           `json:"schema"`
	Title      string           `json:"title"`
	Capture    exact.Rat        `json:"capture"`
	Playback   exact.Rat        `json:"playback"`
	Retime     exact.Rat        `json:"retime"`
	Between    [2]exact.Rat     `json:"between"` // on-screen seconds
	Considered int64            `json:"considered"`
	Closing    int64            `json:"closing"`
	Loops      []Loop           `json:"loops"` // best first
	Own        *Loop            `json:"own_loop"`
	Fits       []Fit            `json:"fits"`
	Measured   []MeasuredPeriod `json:"measured"`
	Tables     []TableTurn      `json:"tables"`
	Defaults   []report.Default `json:"defaults"`
}

// Loop is one loop of the search.
type Loop struct {
	Length
	Cycle  exact.Rat `json:"cycle_frames"` // captured frames of one cycle of the carriage
	Alike  int64     `json:"alike"`        // rounds that look the same in the loop
	Closes bool      `json:"closes"`
	Sure   bool      `json:"closes_for_sure"`
	Seams  []Seam    `json:"seams"`
}

// Length is how long a loop is.
type Length struct {
	Capture  exact.Rat `json:"capture"`
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
}

// LengthOf returns the length of a loop.
func LengthOf(l spin.Loop) Length {
	return Length{l.Clock.Capture, l.Screen, l.Captured, l.OnScreen()}
}

// Seam is how a loop closes for one product.
type Seam struct {
	Stand     string    `json:"stand"`
	Speed     string    `json:"speed"`
	Direction string    `json:"direction"`
	Period    exact.Rat `json:"period"`
	Sigma     exact.Rat `json:"period_uncertainty"`
	OffMatch
	Spread    float64   `json:"uncertainty_degrees"`
	Bound     float64   `json:"bound_degrees"`
	Percent   float64   `json:"one_percent_faster_degrees"`
	Rounds    *int64    `json:"rounds_until_it_shows"` // null: never
	ByWatch   *int64    `json:"turns_to_time_by_stopwatch"`
	ByPicture *int64    `json:"turns_to_time_in_the_picture"`
	Apparent  float64   `json:"apparent_degrees_a_picture"` // below 0 backwards
	Reversal  exact.Rat `json:"reversal_period"`
}

// OffMatch is how far off its match a product is when a loop comes round.
type OffMatch struct {
	Symmetry    int64     `json:"symmetry"`
	Match       int64     `json:"match"` // faces turned at the match
	Turns       exact.Rat `json:"turns"` // made in the loop
	Error       exact.Rat `json:"error_turns"`
	Degrees     float64   `json:"error_degrees"`
	Frames      float64   `json:"error_frames"` // captured frames
	Millimetres *float64  `json:"error_mm"`     // null without a radius
	Pixels      *float64  `json:"error_pixels"` // null without a scale
}

// OffMatchOf returns what JSON holds of that.
func OffMatchOf(s spin.Seam) OffMatch {
	out := OffMatch{
		Symmetry: s.Product.Symmetry, Match: s.Match, Turns: s.Turns, Error: s.Error,
		Degrees: Degrees(s.Error), Frames: kept.Of(s.Frames().Float()),
	}
	if s.Product.Radius.Sign() > 0 {
		out.Millimetres = kept.OrNull(s.Millimetres())
		if s.Product.Scale.Sign() > 0 {
			out.Pixels = kept.OrNull(s.Pixels())
		}
	}
	return out
}

// Fit is a change that would make a loop close.
type Fit struct {
	Kind string `json:"kind"`
	Text string `json:"text"`
	Loop *Loop  `json:"loop"`
}

// MeasuredPeriod is a period worked out from readings.
type MeasuredPeriod struct {
	Stand    string    `json:"stand"`
	Speed    string    `json:"speed"`
	Period   exact.Rat `json:"period"`
	Sigma    exact.Rat `json:"uncertainty"`
	Ratio    float64   `json:"scatter"` // 0: one reading
	Readings []Reading `json:"readings"`
}

// Reading is one timing.
type Reading struct {
	Text  string    `json:"text"`
	Turns exact.Rat `json:"turns"`
	Took  exact.Rat `json:"seconds"`
	Late  float64   `json:"late"`
}

// TableTurn is a turntable that the rig commands.
type TableTurn struct {
	Name   string    `json:"name"`
	Turns  exact.Rat `json:"turns"`
	Speed  float64   `json:"degrees_a_second"`
	Steps  exact.Rat `json:"steps_a_round"`
	Part   exact.Rat `json:"part_of_a_step"`
	Rounds int64     `json:"rounds_to_whole_steps"`
	RunUp  int64     `json:"run_up_frames"`
	RunOut int64     `json:"run_out_frames"`
}

// kept is what numbers keep.
var kept = report.Rounding{Digits: 9}

// Degrees are turns as JSON holds them in degrees.
func Degrees(turns exact.Rat) float64 { return kept.Of(turns.Mul(exact.Int(360)).Float()) }

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	q, a := d.Query, d.Answer
	return Document{
		Schema: Schema, Title: d.Title, Capture: q.Clock.Capture, Playback: q.Clock.Playback, Retime: q.Clock.Retime,
		Between: [2]exact.Rat{q.From, q.To}, Considered: a.Considered, Closing: a.Closing,
		Loops: report.Each(a.Loops, func(l spin.Loop) Loop { return *d.loop(&l) }), Own: d.loop(d.Own),
		Fits:     report.Each(a.Fits, func(f spin.Fit) Fit { return Fit{f.Kind, f.Text, d.loop(f.Loop)} }),
		Measured: report.Each(d.Measured, measuredOf), Defaults: report.Each(d.Defaults, report.DefaultOf),
		Tables: report.Each(d.Tables, func(t Table) TableTurn {
			r := t.Remainder
			return TableTurn{t.Name, t.Turns, kept.Of(t.Speed.Float()), r.Steps, r.Part, r.Rounds, t.RunUp, t.RunOut}
		}),
	}
}

func (d Data) loop(l *spin.Loop) *Loop {
	if l == nil {
		return nil
	}
	return &Loop{
		Length: LengthOf(*l), Cycle: l.Cycle, Alike: l.Alike, Closes: l.Closes(), Sure: l.Certain(),
		Seams: report.Each(l.Seams, func(s spin.Seam) Seam { return d.seam(s, l.Clock) }),
	}
}

func (d Data) seam(s spin.Seam, c clock.Clock) Seam {
	strobe := spin.StrobeOf(s.Speed.Period, c.Pictures(), s.Product.Symmetry)
	assume := d.Assume
	assume.Capture = c.Capture
	out := Seam{
		Stand: s.Product.Stand.Name, Speed: s.Speed.Name, Direction: s.Product.Stand.Direction.String(),
		Period: s.Speed.Period, Sigma: s.Speed.Sigma, OffMatch: OffMatchOf(s),
		Spread: Degrees(s.Spread), Bound: Degrees(s.Bound), Percent: Degrees(s.Off(OnePerCent)),
		Apparent: Degrees(strobe.Apparent), Reversal: strobe.Reversal,
		ByWatch: needed(s, assume.ByStopwatch()), ByPicture: needed(s, assume.ByPicture()),
	}
	if n, ever := s.Shows(); ever {
		out.Rounds = &n
	}
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
	out := MeasuredPeriod{Stand: m.Stand, Speed: m.Speed, Period: m.Period, Sigma: m.Sigma, Ratio: kept.Of(m.Ratio)}
	for i, r := range m.Readings {
		out.Readings = append(out.Readings, Reading{r.Text, r.Turns, r.Seconds, kept.Of(m.Late[i])})
	}
	return out
}
