package planreport

import (
	"seamrail/export/report"
	"seamrail/export/report/musicreport"
	"seamrail/export/report/picturereport"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// Schema names the layout of the JSON report. It changes when a key changes
// its meaning or goes; keys may be added.
const Schema = "seamrail-plan/1"

// Document is the JSON report. Exact numbers are strings such as "24000/1001";
// lengths are mm, angles degrees, times seconds. A number that has no bound,
// such as the jerk of a move whose acceleration jumps, is null.
type Document struct {
	Schema     string                  `json:"schema"`
	Title      string                  `json:"title"`
	Plan       string                  `json:"plan"` // hash of the motion
	Rig        string                  `json:"rig"`
	Verdict    Verdict                 `json:"verdict"`
	Clock      Clock                   `json:"clock"`
	Loop       Loop                    `json:"loop"`
	Music      *musicreport.Music      `json:"music,omitempty"`
	Take       Take                    `json:"take"`
	SyncMark   *SyncMark               `json:"sync_mark,omitempty"`
	ByFrame    *ByFrame                `json:"by_frame,omitempty"` // of a shot taken frame by frame
	Axes       []Axis                  `json:"axes"`
	Lamps      []Lamp                  `json:"lamps,omitempty"`   // that change over the loop
	ByHand     *ByHand                 `json:"by_hand,omitempty"` // of a rig that is set and started by hand
	Motors     []Motor                 `json:"motors,omitempty"`
	Controller *Controller             `json:"controller,omitempty"`
	Others     []picturereport.Check   `json:"other_checks"` // that are none of the picture's
	Picture    *picturereport.Document `json:"picture,omitempty"`
	Shakes     []Shake                 `json:"after_shake,omitempty"`
	Stands     []Stand                 `json:"stands"`
	Closing    *Closing                `json:"closing_loops,omitempty"`
	SetUp      *SetUp                  `json:"set_up,omitempty"`
	Findings   []Finding               `json:"findings"`
	LeftOut    []LeftOut               `json:"left_out,omitempty"` // what the shot file says and the plan goes without
	Defaults   []report.Default        `json:"defaults"`
	Cautions   []string                `json:"cautions"`
}

// Verdict tells whether the plan may run.
type Verdict struct {
	report.Verdict
	Breaches []Breach `json:"breaches"`
	Fits     []string `json:"fits"` // what would fit instead
}

// Breach is one limit that is broken.
type Breach struct {
	Axis     string   `json:"axis"`
	Quantity string   `json:"quantity"`
	Phase    string   `json:"phase"` // "loop", "return", "run-up", "run-out" or "take-up"
	Value    *float64 `json:"value"`
	Bound    float64  `json:"bound"`
	Unit     string   `json:"unit"`
	When     When     `json:"when"`
}

// When is an instant of the loop.
type When struct {
	Real   float64 `json:"real_seconds"`
	Screen float64 `json:"screen_seconds"`
	Frame  float64 `json:"captured_frame"`
}

// Clock holds the rates, exact.
type Clock struct {
	Capture  exact.Rat `json:"capture"`
	Playback exact.Rat `json:"playback"`
	Retime   exact.Rat `json:"retime"`
	Cadence  string    `json:"cadence"`
	Even     bool      `json:"even"`
}

// Loop holds what was asked and what it became.
type Loop struct {
	Asked    string    `json:"asked"`
	Rounded  bool      `json:"rounded"`
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
	Real     exact.Rat `json:"real_seconds"`
}

// Finding is one check and what it found.
type Finding struct {
	Axis  string `json:"axis,omitempty"`
	Check string `json:"check"`
	OK    bool   `json:"ok"`
	Text  string `json:"text"`
}

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	p, l := d.Plan, d.Plan.Loop
	take, _ := takeOf(p)
	cadence := l.Clock.Cadence()
	out := Document{
		Schema: Schema, Title: p.Title, Plan: p.Hash(), Rig: p.Rig.Name, Axes: []Axis{},
		Verdict: Verdict{report.VerdictOf(d.Headline), report.Each(p.Breaches(), d.breach), report.List(d.Fits)},
		Clock:   Clock{l.Clock.Capture, l.Clock.Playback, l.Clock.Retime, cadence.Text, cadence.Even},
		Loop:    Loop{l.Asked, l.Rounded, l.Screen, l.Captured, l.OnScreen(), l.Real()},
		Music:   musicreport.Of(p.Music, &p.Loop),
		Take:    take, ByFrame: byFrameOf(d.Schedule), SyncMark: markOf(d.Mark, int64(p.Rounds)), Lamps: d.lampsOf(), ByHand: byHandOf(p), Motors: motorsOf(p), Controller: controllerOf(d.Controller),
		Others: report.Each(d.Others, picturereport.CheckOf), Shakes: shakesOf(p, d.Shakes),
		Stands:  report.Each(p.Stands, func(s plan.Stand) Stand { return standOf(p, s) }),
		LeftOut: report.Each(p.LeftOut, func(l shot.LeftOut) LeftOut { return LeftOut(l) }),
		Closing: closingOf(p), SetUp: setUpOf(d.Laid), Cautions: Cautions(p, d.Schedule), Defaults: report.Each(p.Defaults, report.DefaultOf),
		Findings: report.Each(d.Verified.Findings, func(f verify.Finding) Finding { return Finding(f) }),
	}
	for i := range p.Axes {
		out.Axes = append(out.Axes, d.axis(i))
	}
	if d.Picture != nil {
		out.Picture = picturereport.DocumentOf(*d.Picture)
	}
	return out
}

func (d Data) breach(b plan.Breach) Breach {
	name := b.Dim.Unit()
	if b.Quantity == plan.StepRate {
		name = "steps/s"
	}
	return Breach{b.Axis, b.Quantity, b.Phase, peaks.OrNull(b.Value), peaks.Of(b.Bound), name, instant(d.Plan, b.Time)}
}

// What numbers keep. Nine digits of a peak are finer than any rig; what is foretold
// is no surer than six; the seam is measured by differences, of which five are good.
var (
	peaks    = report.Rounding{Digits: 9}
	foretold = report.Rounding{Digits: 6}
	jumps    = report.Rounding{Digits: 5}
)

// instant returns a time of the loop.
func instant(p *plan.Plan, real float64) When {
	c := p.Loop.Clock
	return When{peaks.Of(real), peaks.Of(real / c.Retime.Float()), peaks.Of(real * c.Capture.Float())}
}
