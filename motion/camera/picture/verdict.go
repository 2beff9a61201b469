package picture

import (
	"fmt"

	"seamrail/motion/base/fault"
	"seamrail/motion/scene"
)

// Level is how a check came out.
type Level int

// The levels, from what is not known to what must not be run.
const (
	Unknown Level = iota // a number is missing
	Good
	Fair  // will do, with what the text says
	Poor  // will not look right
	Block // must not be driven
)

// String names the level.
func (l Level) String() string {
	return [...]string{"unknown", "good", "fair", "poor", "block"}[l]
}

// Moment is an instant of the loop.
type Moment struct {
	Frame    int64   // captured frame, from 0; below 0 in the run-up
	Seconds  float64 // real s from frame 0
	OnScreen float64 // s of the timeline from frame 0
}

// Figure is one number beside a verdict.
type Figure struct {
	Name  string
	Value float64
	Unit  string
}

// Verdict is the answer to one question about the picture.
type Verdict struct {
	Check   string // "smear", "screen speed", ...
	Level   Level
	Text    string // plain language
	Paced   bool   // a longer or a shorter loop may change it
	Figures []Figure
	When    *Moment     // of the worst value; nil where it has none
	Missing []string    // numbers that would tell, or tell more
	Cures   fault.Cures // what was tried and helps, each by itself, with what it then makes worse
	Failed  []string    // Lights nothing helps: what was tried, and what it would make worse
	Advice  []string    // what may help, and could not be tried

	remedies []remedy // what may cure it, until it is tried
	gauge    float64  // how bad it is: greater is worse; of the same check alone
	partial  bool     // it is as its words say as far as is known
}

// Row is one captured frame. What is not known is NaN.
type Row struct {
	Frame         int64
	Seconds       float64 // real s when its exposure begins
	Magnification float64 // of the product's near face
	Smear         Smear
	Speed         float64 // frame widths per on-screen second
	Focus         float64 // mm from the lens to the plane in focus
	Drift         float64 // mm that the near face stands beyond it
	Near, Far     float64 // mm from the lens: what is sharp; Far may be +Inf
	Blur          float64 // px across the spot of a point on the near face
	Clearance     float64 // mm between lens and product
	Light         float64 // lx on what faces the camera; of changing lamps alone
	Under         float64 // stops under the brightest frame; +Inf without light
	Kelvin        float64 // of what faces the camera
}

// Smear is how far, in px, image points travel in one exposure, by what moves
// them: each part alone, at the point where it is greatest, and together as
// vectors at the point where that is greatest.
type Smear struct {
	Sideways   float64 // carriage across the lens axis
	PushCentre float64 // carriage along the lens axis, at the near face
	PushEdge   float64 // the same where it is greatest: at the edge of the picture
	Table      float64
	Pan, Tilt  float64
	Focus      float64 // the picture breathing as focus is pulled
	Together   float64
	Point      string // Lights Together is greatest
}

// Report is everything told about a picture.
type Report struct {
	Verdicts []Verdict
	Rows     []Row // empty where the picture's scale is not known
	Every    int64 // rows are every so many captured frames; 1 but for very long loops
	Assumed  []string
	Points   []string     // the points that smear and speed were followed at
	Bounds   scene.Bounds // that were looked by, none 0
	Pulls    []Pulling    // what a hand does to the focus ring
	Fades    bool         // the level of some lamp changes: rows tell of light
}

// Blocks tells whether anything must keep the rig from being driven.
func (r Report) Blocks() bool { return r.Worst() == Block }

// Worst returns the worst level.
func (r Report) Worst() Level {
	worst := Unknown
	for _, v := range r.Verdicts {
		worst = max(worst, v.Level)
	}
	return worst
}

// Find returns the verdict on a check.
func (r Report) Find(check string) (Verdict, bool) {
	for _, v := range r.Verdicts {
		if v.Check == check {
			return v, true
		}
	}
	return Verdict{}, false
}

// Figure returns the figure of that name.
func (v Verdict) Figure(name string) (float64, bool) {
	for _, f := range v.Figures {
		if f.Name == name {
			return f.Value, true
		}
	}
	return 0, false
}

func (v *Verdict) figure(name string, value float64, unit string) {
	v.Figures = append(v.Figures, Figure{name, calmed(value, unit), unit})
}

// advise adds what may help and cannot be tried.
func (v *Verdict) advise(format string, args ...any) {
	v.Advice = append(v.Advice, fmt.Sprintf(format, args...))
}

// unknown is the verdict where numbers are missing.
func unknown(check, would string, missing ...string) Verdict {
	return Verdict{Check: check, Text: "not known: " + would, Missing: missing}
}
