package spinreport

import (
	"fmt"
	"strings"

	"seamrail/motion/turntable/spin"
)

func (p *page) measured(m Measured) {
	p.Section("MEASURED: " + strings.ToUpper(m.Stand) + ", " + m.Speed)
	p.Field("period", fmt.Sprintf("%s s a turn ± %s s, its standard uncertainty", m.Period.Decimal(6), m.Sigma.Decimal(6)))
	for i, r := range m.Readings {
		p.Field("reading", r.Text+", "+late(m.Late[i]))
	}
	if m.Ratio == 0 {
		p.Field("scatter", "one reading shows none; a second would")
	} else {
		p.Field("scatter", scatter(m.Ratio))
	}
	p.Field("assumed", p.assumed(m))
}

func late(sec float64) string {
	switch text := fmt.Sprintf("%.3f s", sec); {
	case strings.Trim(text, "-0. s") == "":
		return "to the millisecond"
	case sec < 0:
		return text[1:] + " sooner"
	default:
		return text + " later"
	}
}

// scatter says how readings lie against what was assumed of them.
func scatter(ratio float64) string {
	words := "readings lie " + figures(ratio) + " times as far off as was assumed"
	if ratio > 1 {
		return words + ", and the uncertainty was raised to that"
	}
	return words + "; the uncertainty stays as assumed, since a few agree by chance"
}

// assumed states what readings were taken to be worth.
func (p *page) assumed(m Measured) string {
	watch, picture := false, false
	for _, r := range m.Readings {
		watch, picture = watch || !r.Picture, picture || r.Picture
	}
	var out []string
	if watch {
		press := p.d.Assume.Reaction
		if press.Sign() == 0 {
			press = spin.Reaction
		}
		out = append(out, "each press of the stopwatch within "+press.Decimal(3)+" s, one standard uncertainty")
	}
	if picture {
		out = append(out, "each end of a count to the nearest captured frame, by the camera's own clock")
	}
	return strings.Join(out, "; ")
}
