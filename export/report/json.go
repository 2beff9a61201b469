package report

import (
	"io"
	"math"
	"strconv"

	"seamrail/export/picturewords"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan"
	"seamrail/motion/verify"
)

// Schema names the layout of the JSON report. It changes when a key changes
// its meaning or goes; keys may be added.
const Schema = "seamrail-plan/1"

// WriteJSON writes the report as one indented JSON document and a newline. The
// error is the writer's.
func WriteJSON(w io.Writer, p *plan.Plan, v verify.Verdict, opt Options) error {
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(document(p, v, opt))
}

func document(p *plan.Plan, v verify.Verdict, opt Options) Document {
	d := Document{
		Schema: Schema, Title: p.Title, Plan: p.Hash(), Rig: p.Rig.Name,
		Verdict: verdictOf(p, v, opt), Clock: clockOf(p), Loop: loopOf(p), Take: jsonTake(p),
		Others: []picturewords.Check{}, Axes: []Axis{}, Stands: []Stand{}, Closing: closingOf(p), Findings: []Finding{}, Defaults: []Default{}, Cautions: Cautions(p),
	}
	for i := range p.Axes {
		d.Axes = append(d.Axes, axisOf(p, &p.Axes[i], v, i))
	}
	for _, s := range p.Stands {
		d.Stands = append(d.Stands, standOf(p, s))
	}
	for _, f := range v.Findings {
		d.Findings = append(d.Findings, Finding{f.Axis, f.Check, f.OK, f.Text})
	}
	for _, x := range p.Defaults {
		d.Defaults = append(d.Defaults, Default{x.Key, x.Value, x.Why})
	}
	d.Motors = motorsOf(p)
	d.Controller = controllerOf(opt.Controller)
	d.Picture = pictureOf(opt.Picture)
	for _, v := range opt.Others {
		d.Others = append(d.Others, picturewords.CheckOf(v))
	}
	d.Shakes = shakesOf(p, opt.Shakes)
	return d
}

func verdictOf(p *plan.Plan, v verify.Verdict, opt Options) Verdict {
	breaches := p.Breaches()
	h := opt.Headline
	out := Verdict{
		Ready: h.Ready(), Stamp: h.Stamp, Words: h.Words, Fails: append([]string{}, h.Fails...), Unknown: append([]string{}, h.Unknown...),
		Breaches: []Breach{}, Fits: append([]string{}, opt.Fits...),
	}
	for _, b := range breaches {
		name := b.Dim.Unit()
		if b.Quantity == plan.StepRate {
			name = "steps/s"
		}
		out.Breaches = append(out.Breaches, Breach{b.Axis, b.Quantity, b.Phase,
			finite(b.Value), rounded(b.Bound, peakDigits), name, instant(p.Loop.Clock, b.Time)})
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
		Cut: takeCut(p),
	}
}

// Digits that numbers keep. Nine of a peak are finer than any rig; the seam is
// measured by differences, of which five are good. The rest is rounding, which
// differs between processors.
const (
	peakDigits = 9
	seamDigits = 5
)

// rounded returns v with so many significant digits.
func rounded(v float64, digits int) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil || out == 0 {
		return 0 // never the negative zero
	}
	return out
}

// finite returns a pointer to v, or nil where JSON has no number for it.
func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	v = rounded(v, peakDigits)
	return &v
}

// instant returns a time of the loop.
func instant(c clock.Clock, real float64) When {
	at := func(v float64) float64 { return rounded(v, peakDigits) }
	return When{at(real), at(real / c.Retime.Float()), at(real * c.Capture.Float())}
}
