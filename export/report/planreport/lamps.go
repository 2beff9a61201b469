package planreport

import (
	"seamrail/export/report"
	"seamrail/motion/base/list"
	"seamrail/motion/cue"
	"seamrail/motion/fade"
	"seamrail/motion/scene"
)

// Lamp is a lamp whose level changes over the loop.
type Lamp struct {
	Name  string  `json:"name"`
	Words string  `json:"words"` // how it goes
	Least float64 `json:"least_level"`
	Most  float64 `json:"most_level"`
	Curve string  `json:"dimmer_curve"`
	Hand  string  `json:"hand,omitempty"` // that dims it
	Fades []Fade  `json:"fades"`
}

// Fade is one way of a level. One that goes on behind the seam ends later than the loop.
type Fade struct {
	From   float64 `json:"from_real_seconds"`
	To     float64 `json:"to_real_seconds"`
	Begins float64 `json:"begins_level"`
	Ends   float64 `json:"ends_level"`
}

// lamps tells how the lamps go that change.
func (p *page) lamps() {
	for _, l := range p.d.fading() {
		text := l.Name + " " + l.Fade.Words()
		if l.Hand != "" {
			text += "; by the " + cue.Called(l.Hand)
		}
		p.Field("light", text)
	}
}

// fading are the lamps that change.
func (d Data) fading() []scene.Lamp {
	if d.Scene == nil {
		return nil
	}
	var out []scene.Lamp
	for _, l := range d.Scene.Lamps {
		if l.Fade != nil {
			out = append(out, l)
		}
	}
	return out
}

func (d Data) lamp(l scene.Lamp) Lamp {
	low, high := l.Fade.Range()
	out := Lamp{Name: l.Name, Words: l.Fade.Words(), Least: peaks.Of(low), Most: peaks.Of(high), Curve: l.Curve.String(), Hand: l.Hand, Fades: []Fade{}}
	c, err := l.Fade.Over(d.Plan.Loop.Real())
	if err != nil { // the picture says so
		return out
	}
	out.Fades = report.Each(c.Ways(), func(w fade.Way) Fade {
		return Fade{peaks.Of(w.From), peaks.Of(w.To), peaks.Of(w.Begins), peaks.Of(w.Ends)}
	})
	return out
}

// lampsOf are those that change, for JSON.
func (d Data) lampsOf() []Lamp { return list.Map(d.fading(), d.lamp) }
