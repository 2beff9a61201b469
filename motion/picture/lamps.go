package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamrail/motion/light"
)

// colourVerdict compares the lamps' colour temperatures.
func (e *eye) colourVerdict() Verdict {
	const check = "colour of lamps"
	var warmest, coldest Lamp
	var missing []string
	for _, l := range e.scene.Lamps {
		switch {
		case !l.Kelvin.Given:
			missing = append(missing, "colour temperature of "+cmp.Or(l.Name, "a lamp"))
			continue
		case !warmest.Kelvin.Given:
			warmest, coldest = l, l
		}
		if l.Kelvin.Value < warmest.Kelvin.Value {
			warmest = l
		}
		if l.Kelvin.Value > coldest.Kelvin.Value {
			coldest = l
		}
	}
	if len(e.scene.Lamps)-len(missing) < 2 {
		return unknown(check, "whether lamps differ in colour", cmp.Or(join(missing), "a second lamp"))
	}
	shift := light.Mired(warmest.Kelvin.Value) - light.Mired(coldest.Kelvin.Value)
	v := Verdict{Check: check, Level: Good, Missing: missing}
	v.figure("shift", shift, "mired")
	v.Text = fmt.Sprintf("lamps lie up to %s mired apart", short(shift))
	if shift <= e.bounds.Mired {
		v.Text += ": one white"
		return v
	}
	v.Level = Fair
	v.Text += fmt.Sprintf(": %s looks blue beside %s", cmp.Or(coldest.Name, "one"), cmp.Or(warmest.Name, "another"))
	v.cure("a filter of %+.0f mired on %s", shift, cmp.Or(coldest.Name, "the colder lamp"))
	v.cure("a filter of %+.0f mired on %s", -shift, cmp.Or(warmest.Name, "the warmer lamp"))
	return v
}

// flickerVerdict tells what rippling lamps do to the frames.
func (e *eye) flickerVerdict() Verdict {
	const check = "flicker"
	if len(e.scene.Lamps) == 0 || !e.shutter.Given {
		missing := []string{"lamps"}
		if len(e.scene.Lamps) > 0 {
			missing = []string{"shutter"}
		}
		return unknown(check, "whether lamps pulse in the picture", missing...)
	}
	worst, missing := e.worstFlicker()
	if len(missing) == len(e.scene.Lamps) {
		return unknown(check, "whether lamps pulse in the picture", slices.Compact(missing)...)
	}
	v := Verdict{Check: check, Level: Good, Missing: slices.Compact(missing)}
	v.figure("depth", worst.Depth, "")
	v.figure("beat", worst.Beat.Float()*e.retime, "Hz on screen")
	switch {
	case worst.Depth <= e.bounds.Flicker && worst.Ripple.Sign() == 0:
		v.Text = "the lamps burn steadily"
	case worst.Depth <= e.bounds.Flicker:
		v.Text = fmt.Sprintf("lamps ripple at %s Hz and pulse by %s %% in the picture: not seen", worst.Ripple.Decimal(1), short(100*worst.Depth))
	default:
		v.Level = Poor
		v.Text = fmt.Sprintf("lamps ripple at %s Hz and pulse by %s %% in the picture, %s times a second on screen",
			worst.Ripple.Decimal(1), short(100*worst.Depth), short(worst.Beat.Float()*e.retime))
		e.steady(&v, worst)
	}
	return v
}

// worstFlicker is the deepest flicker of any lamp by its share of the light
// where that is known; the depths of lamps of one ripple add up.
func (e *eye) worstFlicker() (worst light.Flicker, missing []string) {
	_, all := e.lightThere()
	depth := map[string]light.Flicker{}
	for _, l := range e.scene.Lamps {
		hz := l.RippleHz
		if hz.Sign() == 0 {
			hz = light.RippleOf(e.scene.Mains)
		}
		switch {
		case !l.Ripple.Given:
			missing = append(missing, "ripple of "+cmp.Or(l.Name, "a lamp"))
			continue
		case l.Ripple.Value == 0:
			continue
		case hz.Sign() == 0:
			missing = append(missing, "mains frequency")
			continue
		}
		share := 1.0
		if lux, m := l.Lux(); m == nil && all > 0 {
			share = lux / all
		}
		f := light.Beating(hz, e.motion.Clock().Capture, e.shutter.Value, share*l.Ripple.Value)
		f.Depth = math.Min(1, f.Depth+depth[hz.String()].Depth)
		depth[hz.String()] = f
		if worst.Ripple.Sign() == 0 || f.Depth > worst.Depth {
			worst = f
		}
	}
	return worst, missing
}

// steady lists what would stop a flicker.
func (e *eye) steady(v *Verdict, f light.Flicker) {
	if t, ok := light.NearestClean(f.Ripple, e.shutter.Value, e.frame); ok {
		v.figure("nearest clean shutter", t.Float(), "s")
		v.cure("a shutter of %s", seconds(t.Float()))
	} else {
		v.cure("a capture rate of at most %s, with the shutter as long as its frame", f.Ripple.Decimal(3))
	}
	v.cure("lamps on steady current")
}
