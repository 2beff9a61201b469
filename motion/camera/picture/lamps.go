package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/light"
)

// colourVerdict compares the lamps' colour temperatures.
func (e *eye) colourVerdict() Verdict {
	const check = "colour of lamps"
	var warmest, coldest scene.Lamp
	var missing []string
	lit := 0
	for _, l := range e.fullest() {
		switch {
		case l.Level.Given && l.Level.Value == 0: // switched off
			continue
		case !l.Kelvin.Given:
			missing = append(missing, "colour temperature of "+cmp.Or(l.Name, "a lamp"))
			continue
		case !warmest.Kelvin.Given:
			warmest, coldest = l, l
		}
		lit++
		if l.Kelvin.Value < warmest.Kelvin.Value {
			warmest = l
		}
		if l.Kelvin.Value > coldest.Kelvin.Value {
			coldest = l
		}
	}
	drift, drifts := e.colourDrift()
	if lit < 2 && drifts {
		return e.drifting(Verdict{Check: check, Level: Good, Text: "one lamp gives the light"}, drift)
	}
	if lit < 2 {
		return unknown(check, "whether lamps differ in colour", cmp.Or(strings.Join(missing, ", "), "a second lamp"))
	}
	shift := light.Mired(warmest.Kelvin.Value) - light.Mired(coldest.Kelvin.Value)
	v := Verdict{Check: check, Level: Good}
	v.figure("shift", shift, "mired")
	v.Text = fmt.Sprintf("lamps lie up to %s mired apart", short(shift))
	if e.fades && e.glows() { // dimmed they may lie farther
		v.Text = fmt.Sprintf("at their fullest lamps lie up to %s mired apart", short(shift))
	}
	if shift <= e.bounds.Mired {
		v.Text += ": one white"
		v.partly(missing)
		return e.drifting(v, drift)
	}
	v.Level, v.Missing = Fair, missing
	v.Text += fmt.Sprintf(": %s looks blue beside %s", cmp.Or(coldest.Name, "one"), cmp.Or(warmest.Name, "another"))
	v.gauge = shift
	for _, f := range []struct {
		lamp  scene.Lamp
		by    float64
		named string
	}{{coldest, shift, "the colder lamp"}, {warmest, -shift, "the warmer lamp"}} {
		kelvin := light.Mired(light.Mired(f.lamp.Kelvin.Value) + f.by)
		m := v.try(ofLight, func(s *scene.Scene) {
			for i := range s.Lamps {
				if s.Lamps[i].Kelvin == f.lamp.Kelvin {
					s.Lamps[i].Kelvin = scene.Is(kelvin)
				}
			}
		}, "a filter of %+.0f mired on %s, which takes some of its light", f.by, cmp.Or(f.lamp.Name, f.named))
		for i, l := range e.scene.Lamps {
			if l.Kelvin == f.lamp.Kelvin {
				m.as(of(lamps, i, "kelvin"), typed(math.Round(kelvin), "K"))
			}
		}
	}
	return e.drifting(v, drift)
}

// flickerVerdict tells what rippling lamps do to the frames. A lamp is judged where
// it lights most: on what faces it, which of a lamp behind the product is an edge,
// steam or a pour.
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
	v := Verdict{Check: check, Level: Good}
	v.figure("depth", worst.Left, "")
	v.figure("beat", worst.Beat.Float()*e.retime, "Hz on screen")
	if worst.Ripple.Sign() == 0 {
		v.Text = "the lamps burn steadily"
		v.partly(slices.Compact(missing))
		return v
	}
	v.Text = fmt.Sprintf("%s ripples at %s Hz, taken for a sine, and pulses by %s %% in the picture, most %s",
		cmp.Or(worst.lamp.Name, "a lamp"), worst.Ripple.Decimal(1), short(100*worst.Left), worst.lamp.Lights())
	if e.fades {
		v.When = e.moment(e.motion.FrameSeconds(worst.frame).Float())
		v.Text += fmt.Sprintf(", in frame %d, as the lamps stand then (what dimming does to the ripple itself is not known)", worst.frame)
	}
	if worst.Left <= e.bounds.Flicker {
		v.Text += ": not seen"
		v.partly(slices.Compact(missing))
		return v
	}
	v.Level, v.Missing = Poor, slices.Compact(missing)
	v.Text += e.beats(&v, worst)
	e.steady(&v, worst)
	return v
}

// A ripple that keeps step with the frames does so while the mains keep to their
// frequency, which they do within four parts in ten thousand (common practice: 20 mHz
// of 50 Hz). What swells more slowly than slowSwell, in Hz on screen, is not seen to.
const (
	mainsWander = 4e-4
	slowSwell   = 0.1
)

// beats says how often a flicker comes.
func (e *eye) beats(v *Verdict, f pulse) string {
	if f.Beat.Sign() != 0 {
		return fmt.Sprintf(", %s times a second on screen", short(f.Beat.Float()*e.retime))
	}
	swell := f.Ripple.Float() * mainsWander * e.retime
	text := ": it keeps step with the frames, and as it wanders with the mains "
	if swell <= slowSwell {
		v.Level = Fair
		return text + "the picture brightens and darkens slowly, and a seam may jump"
	}
	return text + "it comes up to " + short(swell) + " times a second on screen"
}

// pulse is a flicker and the lamp that it is worst of.
type pulse struct {
	light.Flicker
	lamp  scene.Lamp
	frame int64 // captured
}

// ripple is what a lamp's light does; missing names what is not known of it.
func (e *eye) ripple(l scene.Lamp) (hz exact.Rat, missing string) {
	hz = l.RippleHz
	if hz.Sign() == 0 {
		hz = light.RippleOf(e.scene.Mains)
	}
	switch {
	case !l.Ripple.Given:
		return hz, "ripple of " + cmp.Or(l.Name, "a lamp")
	case l.Ripple.Value > 0 && hz.Sign() == 0:
		return hz, "mains frequency"
	}
	return hz, ""
}

// worstFlicker is the deepest ripple of any lamp on a surface that faces it, in any
// frame in which that is not black.
func (e *eye) worstFlicker() (worst pulse, missing []string) {
	black := 0.0
	if e.fades {
		black = e.brightest() * math.Exp2(-e.bounds.Black)
	}
	frames, secs := e.looks(maxLooks)
	for n, sec := range secs {
		lamps := e.lampsAt(sec)
		missing = nil
		for _, l := range lamps {
			hz, lacks := e.ripple(l)
			if lacks != "" {
				missing = append(missing, lacks)
				continue
			}
			if l.Ripple.Value == 0 || l.Level.Given && l.Level.Value == 0 {
				continue
			}
			if lux, _ := sharesOn(lamps, l.Toward()); lux < black {
				continue
			}
			f := light.Beating(hz, e.motion.Clock().Capture, e.shutter.Value, e.rippleOn(lamps, l, hz))
			if worst.Ripple.Sign() == 0 || f.Left > worst.Left {
				worst = pulse{f, l, frames[n]}
			}
		}
	}
	return worst, missing
}

// rippleOn is the ripple at hz of the light on a surface that faces a lamp: of all
// lamps that reach it, by their light there. Where a lamp's light is not known,
// all the light is taken to be this one's.
func (e *eye) rippleOn(lamps []scene.Lamp, on scene.Lamp, hz exact.Rat) float64 {
	all, rippling := 0.0, 0.0
	for _, l := range lamps {
		lux, missing := l.LuxOn(on.Toward())
		if missing != nil {
			return on.Ripple.Value
		}
		all += lux
		if at, lacks := e.ripple(l); lacks == "" && at.Equal(hz) {
			rippling += lux * l.Ripple.Value
		}
	}
	return rippling / all
}

// steady adds what would stop a flicker.
func (e *eye) steady(v *Verdict, f pulse) {
	v.gauge = f.Left
	if t, ok := light.NearestClean(f.Ripple, e.shutter.Value, e.frame); ok {
		v.figure("nearest clean shutter", t.Float(), "s")
		e.trySeconds(v, t.Float(), "a shutter of %s")
	} else {
		v.advise("a capture rate of at most %s, with the shutter as long as its frame", f.Ripple.Decimal(3))
	}
	var names []string
	for _, l := range e.scene.Lamps {
		if hz, lacks := e.ripple(l); lacks == "" && l.Ripple.Value > 0 && hz.Equal(f.Ripple) {
			names = append(names, cmp.Or(l.Name, "the lamp"))
		}
	}
	v.try(ofLight, func(s *scene.Scene) {
		for i, l := range s.Lamps {
			if hz, lacks := e.ripple(l); lacks == "" && hz.Equal(f.Ripple) {
				s.Lamps[i].Ripple = scene.Is(0)
			}
		}
	}, "%s on steady current", strings.Join(names, " and "))
}
