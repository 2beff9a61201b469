package spinreport

import (
	"encoding/json"
	"io"
	"strconv"

	"seamrail/export/spinwords"
	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/source"
	"seamrail/motion/spin"
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
	Defaults   []Default        `json:"defaults"`
}

// Loop is one loop of the search.
type Loop struct {
	Capture  exact.Rat `json:"capture"`
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
	Cycle    exact.Rat `json:"cycle_frames"` // captured frames of one cycle of the carriage
	Alike    int64     `json:"alike"`        // rounds that look the same in the loop
	Closes   bool      `json:"closes"`
	Sure     bool      `json:"closes_for_sure"`
	Seams    []Seam    `json:"seams"`
}

// Seam is how a loop closes for one product.
type Seam struct {
	Stand       string    `json:"stand"`
	Speed       string    `json:"speed"`
	Direction   string    `json:"direction"`
	Period      exact.Rat `json:"period"`
	Sigma       exact.Rat `json:"period_uncertainty"`
	Symmetry    int64     `json:"symmetry"`
	Match       int64     `json:"match"`
	Turns       exact.Rat `json:"turns"`
	Error       exact.Rat `json:"error_turns"`
	Degrees     float64   `json:"error_degrees"`
	Frames      float64   `json:"error_frames"`
	Millimetres *float64  `json:"error_mm"`
	Pixels      *float64  `json:"error_pixels"`
	Spread      float64   `json:"uncertainty_degrees"`
	Bound       float64   `json:"bound_degrees"`
	Percent     float64   `json:"one_percent_faster_degrees"`
	Rounds      *int64    `json:"rounds_until_it_shows"` // null: never
	ByWatch     *int64    `json:"turns_to_time_by_stopwatch"`
	ByPicture   *int64    `json:"turns_to_time_in_the_picture"`
	Apparent    float64   `json:"apparent_degrees_a_picture"` // below 0 backwards
	Reversal    exact.Rat `json:"reversal_period"`
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

// Default is a value that was filled in.
type Default struct {
	Key   string `json:"key"`
	Value string `json:"value"`
	Why   string `json:"why"`
}

// WriteJSON writes the report as one indented JSON document and a newline. The
// error is the writer's.
func WriteJSON(w io.Writer, d Data) error {
	e := json.NewEncoder(w)
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
	strobe := spin.StrobeOf(s.Speed.Period, spinwords.Pictures(c.Capture, c.PerScreen()), s.Product.Symmetry)
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
