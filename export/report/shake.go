package report

import (
	"seamrail/export/shakewords"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
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

// shakeDigits is how many digits what is foretold of a swing keeps: no damping
// is known to more.
const shakeDigits = 6

func shakesOf(p *plan.Plan, axes []survey.Axis) []Shake {
	out := []Shake{}
	for _, a := range axes {
		s := Shake{
			Axis: a.Name, Unit: a.Unit, Frequency: a.Measured.Spring.Frequency, Damping: a.Measured.Spring.Damping,
			Worst: rounded(a.Worst.Value, shakeDigits), Shakes: rounded(a.Ring.Value, shakeDigits),
			When: instant(p.Loop.Clock, a.Worst.Time), Rests: []ShakeRest{}, Why: a.Why,
		}
		if a.PixelsPerUnit > 0 {
			px := rounded(a.Pixels(a.Worst.Value), shakeDigits)
			s.Pixels = &px
		}
		for _, r := range a.Rests {
			s.Rests = append(s.Rests, restOf(p, r))
		}
		out = append(out, s)
	}
	return out
}

func restOf(p *plan.Plan, r vibration.Rest) ShakeRest {
	at := func(v float64) float64 { return rounded(v, shakeDigits) }
	return ShakeRest{instant(p.Loop.Clock, r.From), at(r.To - r.From), at(r.Swing), at(r.Left)}
}

// shakes tells the worst after-shake of each axis whose swing is known.
func (p *page) shakes(pl *plan.Plan, axes []survey.Axis) {
	for i, a := range axes {
		if i == 0 {
			p.Section("AFTER-SHAKE")
		}
		c := pl.Loop.Clock
		p.Field(clean(a.Name), shakewords.Spring(a.Measured, c))
		if a.Why != "" {
			p.Inked(yellow, "", clean(a.Why))
			continue
		}
		scale := shakewords.Scale{Unit: a.Unit, PerUnit: a.PixelsPerUnit}
		p.Field("moving", shakewords.Moving(a.Found, scale, c))
		for _, r := range a.Rests {
			p.Field("at rest", shakewords.Rest(r, scale, a.Measured.Spring, c))
		}
	}
}

// shapedWords adds that a move is shaped.
func shapedWords(m shot.AxisMove) string {
	if m.Shaped == 0 {
		return ""
	}
	return "; shaped (" + m.Shaped.String() + ") to leave no after-shake"
}
