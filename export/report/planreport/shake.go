package planreport

import (
	"seamrail/export/report"
	"seamrail/export/report/shakereport"
	"seamrail/motion/plan"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/survey"
)

// Shake is what an axis does to what it carries.
type Shake struct {
	Axis      string      `json:"axis"`
	Unit      string      `json:"unit"`
	Frequency float64     `json:"frequency_hz"`
	Damping   float64     `json:"damping"`         // share of critical
	Worst     float64     `json:"worst"`           // greatest distance from the carriage
	Shakes    float64     `json:"worst_shake"`     // the same beside the lag of the acceleration
	Pixels    *float64    `json:"worst_pixels"`    // null where the scale is not known
	When      When        `json:"when"`            // of the worst
	Rests     []ShakeRest `json:"rests"`           // dwells, in time order
	Why       string      `json:"words,omitempty"` // why nothing can be told
}

// ShakeRest is a dwell and the amplitude of the swing in it.
type ShakeRest struct {
	From  When    `json:"from"`
	Lasts float64 `json:"real_seconds"`
	Swing float64 `json:"swing"`
	Left  float64 `json:"left"`
}

func shakesOf(p *plan.Plan, axes []survey.Axis) []Shake {
	at := foretold.Of
	return report.Each(axes, func(a survey.Axis) Shake {
		s := Shake{
			Axis: a.Name, Unit: a.Unit, Frequency: a.Measured.Spring.Frequency, Damping: a.Measured.Spring.Damping,
			Worst: at(a.Worst.Value), Shakes: at(a.Ring.Value), When: instant(p, a.Worst.Time), Why: a.Why,
			Rests: report.Each(a.Rests, func(r vibration.Rest) ShakeRest {
				return ShakeRest{instant(p, r.From), at(r.To - r.From), at(r.Swing), at(r.Left)}
			}),
		}
		if a.PixelsPerUnit > 0 {
			px := at(a.Pixels(a.Worst.Value))
			s.Pixels = &px
		}
		return s
	})
}

// shakes tells the worst after-shake of each axis whose swing is known.
func (p *page) shakes() {
	p.Section("AFTER-SHAKE")
	c := p.pl.Loop.Clock
	for _, a := range p.d.Shakes {
		p.Field(a.Name, shakereport.Swings(a.Measured, c))
		if a.Why != "" {
			p.Toned(report.Fair, "", a.Why)
			continue
		}
		scale := shakereport.Scale{Unit: a.Unit, PerUnit: a.PixelsPerUnit}
		p.Field("moving", shakereport.Moving(a.Found, scale, c))
		for _, r := range a.Rests {
			p.Field("at rest", shakereport.Rested(r, scale, a.Measured.Spring, c))
		}
	}
}
