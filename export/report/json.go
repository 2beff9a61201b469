package report

import (
	"encoding/json"
	"io"
	"math"

	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
)

// Schema names the layout of the JSON report. It changes when a key changes
// its meaning or goes; keys may be added.
const Schema = "seamrail-plan/1"

// Document is the JSON report. Exact numbers are strings such as "24000/1001";
// lengths are mm, angles degrees, times seconds. A number that has no bound,
// such as the jerk of a move whose acceleration jumps, is null.
type Document struct {
	Schema   string    `json:"schema"`
	Title    string    `json:"title"`
	Plan     string    `json:"plan"` // hash of the motion
	Rig      string    `json:"rig"`
	Verdict  Verdict   `json:"verdict"`
	Clock    Clock     `json:"clock"`
	Loop     Loop      `json:"loop"`
	Take     Take      `json:"take"`
	Axes     []Axis    `json:"axes"`
	Findings []Finding `json:"findings"`
	Defaults []Default `json:"defaults"`
	Cautions []string  `json:"cautions"`
}

// Verdict tells whether the plan may run.
type Verdict struct {
	Ready    bool     `json:"ready"`
	Words    string   `json:"words"`
	Breaches []Breach `json:"breaches"`
	Fits     []string `json:"fits"` // what would fit instead
}

// Breach is one limit that is broken.
type Breach struct {
	Axis     string   `json:"axis"`
	Quantity string   `json:"quantity"`
	Phase    string   `json:"phase"` // "loop", "run-up" or "run-out"
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

// Take holds what is recorded and what of it is delivered, in captured frames
// counted from the first recorded one.
type Take struct {
	Rounds   int    `json:"rounds"`
	RunUp    int64  `json:"run_up_frames"`
	RunOut   int64  `json:"run_out_frames"`
	Recorded int64  `json:"recorded_frames"`
	First    int64  `json:"deliver_first"`
	Last     int64  `json:"deliver_last"`
	Handles  int64  `json:"handle_frames"`
	Start    string `json:"timecode_first"`
	End      string `json:"timecode_last"`
}

// Finding is one check and what it found.
type Finding struct {
	Axis  string `json:"axis,omitempty"`
	Check string `json:"check"`
	OK    bool   `json:"ok"`
	Text  string `json:"text"`
}

// Default is a value that was filled in.
type Default struct {
	Key   string `json:"key"`
	Value string `json:"value"`
	Why   string `json:"why"`
}

// WriteJSON writes the report as one indented JSON document and a newline. The
// error is the writer's.
func WriteJSON(w io.Writer, t *trajectory.Trajectory, v verify.Verdict, opt Options) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(document(t.Plan(), v, opt))
}

func document(p *plan.Plan, v verify.Verdict, opt Options) Document {
	d := Document{
		Schema: Schema, Title: p.Title, Plan: p.Hash(), Rig: p.Rig.Name,
		Verdict: verdictOf(p, v, opt), Clock: clockOf(p), Loop: loopOf(p), Take: jsonTake(p),
		Axes: []Axis{}, Findings: []Finding{}, Defaults: []Default{}, Cautions: cautions(p),
	}
	for i := range p.Axes {
		d.Axes = append(d.Axes, axisOf(p, &p.Axes[i], v, i))
	}
	for _, f := range v.Findings {
		d.Findings = append(d.Findings, Finding{f.Axis, f.Check, f.OK, f.Text})
	}
	for _, x := range p.Defaults {
		d.Defaults = append(d.Defaults, Default{x.Key, x.Value, x.Why})
	}
	return d
}

func verdictOf(p *plan.Plan, v verify.Verdict, opt Options) Verdict {
	breaches := p.Breaches()
	out := Verdict{Breaches: []Breach{}, Fits: append([]string{}, opt.Fits...)}
	out.Ready, out.Words = verdictWords(apart(breaches), v)
	for _, b := range breaches {
		name := b.Dim.Unit()
		if b.Quantity == plan.StepRate {
			name = "steps/s"
		}
		out.Breaches = append(out.Breaches, Breach{b.Axis, b.Quantity, b.Phase,
			finite(b.Value), b.Bound, name, When{b.Time, b.Screen, b.Frame}})
	}
	return out
}

func clockOf(p *plan.Plan) Clock {
	c := p.Loop.Clock
	cadence := c.Cadence()
	return Clock{c.Capture, c.Playback, c.Retime, cadence.Text, cadence.Even}
}

func loopOf(p *plan.Plan) Loop {
	l := p.Loop
	return Loop{l.Asked, l.Rounded, l.Screen, l.Captured, l.OnScreen(), l.Real()}
}

func jsonTake(p *plan.Plan) Take {
	t := takeOf(p)
	return Take{
		Rounds: p.Rounds, RunUp: p.RunUp, RunOut: p.RunOut, Recorded: t.recorded,
		First: t.first, Last: t.last, Handles: t.handles,
		Start: p.Timecode.Label(p.Start), End: p.Timecode.Label(p.Start + p.Loop.Screen - 1),
	}
}

// finite returns a pointer to v, or nil where JSON has no number for it.
func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	return &v
}
