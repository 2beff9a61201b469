package groupreport

import (
	"seamrail/export/report"
	"seamrail/motion/edit/passes"
)

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-group/1"

// Document is the JSON report: places in mm or degrees, times in real seconds, the picture
// in px of the near face.
type Document struct {
	Schema  string    `json:"schema"`
	Group   string    `json:"group"`
	Virtual bool      `json:"virtual"` // on a rig made of software: nothing was filmed
	Alike   bool      `json:"alike"`   // two or more passes, filmed alike
	Within  *float64  `json:"within_px"`
	OutBy   *float64  `json:"within_out_by_px"`
	Unseen  float64   `json:"unseen_px"` // up to which they match
	Answer  string    `json:"answer"`    // matches, not-sure, differ, not-known
	Camera  Camera    `json:"camera"`
	Passes  []Pass    `json:"passes"`
	Against []Against `json:"against_first"` // each pass but the first
	LeftOut []LeftOut `json:"left_out"`
}

// Camera is what no log tells: its clock does not run with the rig's.
type Camera struct {
	Seconds float64  `json:"up_to_seconds"`
	Pixels  *float64 `json:"up_to_px"` // where the picture moves fastest
}

// Pass is the take of a pass that counts.
type Pass struct {
	Take   int     `json:"take"`
	Pass   string  `json:"pass"`
	Plan   string  `json:"plan"`
	Clip   string  `json:"clip"` // the camera's file name, or card and clip number; "" where nobody has said
	Rounds int64   `json:"rounds"`
	From   *int64  `json:"from_frame"`   // of a take frame by frame; else null
	Frames *int64  `json:"frames"`       // exposed, those before from_frame among them
	Took   float64 `json:"took_seconds"` // 0 where that was not measured
	OutBy  float64 `json:"out_by_seconds"`
	Keep   bool    `json:"keep"`
}

// Against is how a pass differs from the first.
type Against struct {
	Take    int      `json:"take"`
	Differs []string `json:"differs"`      // why they cannot match
	Late    *float64 `json:"late_seconds"` // at the end; below 0 it was sooner
	Doubt   *float64 `json:"late_out_by_seconds"`
	Rate    *float64 `json:"rate_ppm"` // by which it went slower
	RateBy  *float64 `json:"rate_out_by_ppm"`
	Axes    []Axis   `json:"axes"`
	Pixels  *float64 `json:"px"` // at the worst, time taken in
	OutBy   *float64 `json:"px_out_by"`
	Align   *Align   `json:"align"` // null where sync marks do not tell
}

// Align is where to lay a recording on that of the first.
type Align struct {
	Frames float64 `json:"frames_later"` // captured; below 0 it goes sooner
	OutBy  float64 `json:"out_by_frames"`
	Seen   bool    `json:"from_first_frames"` // first frame on first frame before that; else the first of the mark on that
}

func alignOf(m passes.Match) *Align {
	if m.Align == nil {
		return nil
	}
	return &Align{Frames: kept.Of(-m.Align.Frames), OutBy: kept.Of(m.Align.Out), Seen: m.Align.Seen}
}

// Axis is how far apart two passes were along one.
type Axis struct {
	Axis  string   `json:"axis"`
	Unit  string   `json:"unit"`
	Start *float64 `json:"start"`      // null where it was not reported
	Way   *float64 `json:"on_the_way"` // at most
}

// LeftOut is a take that does not count.
type LeftOut struct {
	Take int    `json:"take"`
	Why  string `json:"why"`
}

// kept is what numbers keep: a nanosecond and a nanometre.
var kept = report.Rounding{Digits: 9, Grain: 1e-9}

func known(x float64, is bool) *float64 {
	if !is {
		return nil
	}
	return kept.OrNull(x)
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	g := d.Group
	px, outBy, ok := g.Within()
	sec, camera := g.Camera()
	return Document{
		Schema: Schema, Group: d.Name, Virtual: d.Virtual, Alike: g.Whole(), Within: known(px, ok), OutBy: known(outBy, ok),
		Unseen: passes.Unseen, Answer: g.Answer().String(),
		Camera:  Camera{kept.Of(sec), known(camera, g.Scale.Known())},
		Passes:  report.Each(g.Passes, passOf),
		Against: report.Each(g.Matches, againstOf),
		LeftOut: report.Each(g.LeftOut, func(l passes.LeftOut) LeftOut { return LeftOut(l) }),
	}
}

func passOf(f passes.Filmed) Pass {
	out := Pass{Take: f.Take, Pass: f.Pass, Plan: f.Plan, Clip: f.Clip, Rounds: f.Rounds, Took: f.Took, OutBy: f.OutBy, Keep: f.Keep}
	if f.Stills != nil {
		out.From, out.Frames = &f.Stills.From, &f.Stills.Exposed
	}
	return out
}

func againstOf(m passes.Match) Against {
	return Against{
		Take: m.Take.Take, Differs: report.List(m.Differs), Late: known(m.Late, m.LateKnown), Doubt: known(m.Doubt, m.LateKnown),
		Rate: known(m.Rate()*1e6, m.LateKnown), RateBy: known(m.RateDoubt()*1e6, m.LateKnown), Axes: report.Each(m.Axes, axisOf), Pixels: known(m.PX, m.Known), OutBy: known(m.OutBy, m.Known), Align: alignOf(m),
	}
}

func axisOf(a passes.Apart) Axis {
	return Axis{Axis: a.Axis, Unit: a.Unit, Start: known(a.Start, a.StartKnown), Way: known(a.Way, a.WayKnown)}
}
