package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/light"
	"seamrail/motion/space"
)

// toward is the way from the product to the lamp: bearing 0 is where the
// camera stands, 90 to its right.
func (l Lamp) toward() r3.Vec { return space.Direction(180+l.Bearing, l.Rise) }

// Lux returns what the lamp gives on a face turned to the camera, and false
// with what is missing where it cannot be told.
func (l Lamp) Lux() (lux float64, missing []string) {
	for _, n := range []struct {
		name string
		is   Number
	}{{"lumens", l.Lumens}, {"beam", l.Beam}, {"distance", l.Distance}} {
		if !n.is.Given {
			missing = append(missing, n.name+" of "+cmp.Or(l.Name, "a lamp"))
		}
	}
	if missing != nil {
		return 0, missing
	}
	camera := space.Direction(180, 0)
	cos := math.Max(-1, math.Min(1, r3.Dot(camera, l.toward())))
	incidence := math.Acos(cos) * 180 / math.Pi
	return light.Illuminance(l.Level.Or(1)*light.Intensity(l.Lumens.Value, l.Beam.Value), l.Distance.Value, incidence), nil
}

func (e *eye) exposureVerdict(rows []Row) Verdict {
	const check = "light"
	n, ok := e.effective(rows)
	missing, lux := e.lightThere()
	if !ok {
		missing = append(missing, "aperture and magnification")
	}
	if !e.shutter.Given {
		missing = append(missing, "shutter")
	}
	if !e.scene.Camera.ISO.Given {
		missing = append(missing, "sensitivity")
	}
	if len(missing) > 0 {
		return e.lightAlone(unknown(check, "whether there is light enough", missing...), n, ok, lux)
	}
	iso := e.scene.Camera.ISO.Value
	need := light.Needed(e.bounds.Meter, n, e.shutter.Value, iso)
	v := Verdict{Check: check, Level: Good}
	v.figure("light needed", need, "lx")
	v.figure("light there", lux, "lx")
	if lux <= 0 {
		v.Level, v.Text = Poor, fmt.Sprintf("%s lx are needed and no lamp lights the side the camera sees", short(need))
		v.cure("a lamp on the camera's side")
		return v
	}
	lacking := math.Log2(need / lux)
	v.figure("stops missing", lacking, "stops")
	e.exposureWords(&v, lacking, need, lux)
	return v
}

func (e *eye) exposureWords(v *Verdict, missing, need, lux float64) {
	amounts := fmt.Sprintf("%s lx needed, %s there: ", short(need), short(lux))
	switch {
	case missing > e.bounds.Stops:
		v.Level, v.Text = Poor, amounts+short(missing)+" stops too dark"
		e.brighten(v, missing)
	case missing < -e.bounds.Stops:
		v.Level, v.Text = Fair, amounts+short(-missing)+" stops to spare"
		v.cure("ISO %s", short(e.scene.Camera.ISO.Value*math.Exp2(missing)))
		v.cure("f/%s", round(e.scene.Lens.Aperture.Value*math.Exp2(-missing/2), 2))
	default:
		v.Text = amounts + "exposed as metered"
	}
}

// brighten lists what would supply the missing stops, each by itself.
func (e *eye) brighten(v *Verdict, stops float64) {
	times := math.Exp2(stops)
	v.cure("lamps at %s of their distance", round(math.Exp2(-stops/2), 2))
	v.cure("lamps %s times as bright", short(times))
	v.cure("f/%s", round(light.WiderAperture(e.scene.Lens.Aperture.Value*math.Exp2(-stops/2)), 3))
	if long := e.shutter.Value * times; long <= e.frame {
		v.cure("a shutter of %s", seconds(long))
	} else {
		v.cure("a capture rate of %s a second with its shutter as far open", round(1/(e.frame*times), 3))
	}
	v.cure("ISO %s", round(light.AtLeastISO(e.scene.Camera.ISO.Value*times), 4))
}

// lightThere adds the lamps up. Without a lamp, that is what is missing.
func (e *eye) lightThere() (missing []string, lux float64) {
	if len(e.scene.Lamps) == 0 {
		return []string{"lamps"}, 0
	}
	for _, l := range e.scene.Lamps {
		one, m := l.Lux()
		lux += one
		missing = append(missing, m...)
	}
	return missing, lux
}

// lightAlone says what is known when one thing is missing: the light that is
// needed, or the sensitivity that the light calls for.
func (e *eye) lightAlone(v Verdict, n float64, aperture bool, lux float64) Verdict {
	iso := e.scene.Camera.ISO
	switch {
	case !aperture || !e.shutter.Given:
	case iso.Given:
		need := light.Needed(e.bounds.Meter, n, e.shutter.Value, iso.Value)
		v.figure("light needed", need, "lx")
		v.Text += "; " + short(need) + " lx are needed"
	case lux > 0 && len(v.Missing) == 1:
		want := light.Sensitivity(e.bounds.Meter, n, e.shutter.Value, lux)
		v.figure("sensitivity needed", want, "ISO")
		v.Text += "; the lamps call for ISO " + round(light.AtLeastISO(want), 4)
	}
	return v
}

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
