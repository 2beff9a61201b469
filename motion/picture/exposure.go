package picture

import (
	"cmp"
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/light"
	"seamrail/motion/space"
)

// toward is the way from the product to the lamp: bearing 0 is where the
// camera stands, 90 to its right.
func (l Lamp) toward() r3.Vec { return space.Direction(180+l.Bearing, l.Rise) }

// Lux returns what the lamp gives on a face turned to the camera, and false
// with what is missing where it cannot be told.
func (l Lamp) Lux() (lux float64, missing []string) { return l.luxOn(space.Direction(180, 0)) }

// luxOn returns what the lamp gives on a face turned along a unit vector.
func (l Lamp) luxOn(normal r3.Vec) (lux float64, missing []string) {
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
	cos := math.Max(-1, math.Min(1, r3.Dot(normal, l.toward())))
	incidence := math.Acos(cos) * 180 / math.Pi
	return light.Illuminance(l.Level.Or(1)*light.Intensity(l.Lumens.Value, l.Beam.Value), l.Distance.Value, incidence), nil
}

// lightCheck is the check that other cures upset, and stopsFigure by how much.
const (
	lightCheck  = "light"
	stopsFigure = "stops missing"
)

func (e *eye) exposureVerdict(rows []Row) Verdict {
	const check = lightCheck
	n, ok := e.effective(rows)
	missing, lux := e.lightThere()
	if !ok && !e.scene.Lens.Aperture.Given {
		missing = append(missing, "aperture")
	}
	if !ok && !e.magnified.Given {
		missing = append(missing, "magnification, or focal length and distance")
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
	need := e.need(n, iso)
	v := Verdict{Check: check, Level: Good}
	v.figure("light needed", need, "lx")
	v.figure("light there", lux, "lx")
	if lux > 0 {
		v.figure("exposure value", light.Value(e.bounds.Meter, lux), "EV at ISO 100")
	}
	if lux <= 0 {
		v.Level, v.Text = Poor, fmt.Sprintf("%s lx are needed and no lamp lights the side the camera sees", short(need))
		v.advise("a lamp on the camera's side")
		return v
	}
	lacking := math.Log2(need / lux)
	v.figure(stopsFigure, lacking, "stops")
	v.gauge = math.Abs(lacking)
	e.exposureWords(&v, lacking, need, lux)
	return v
}

// whiteLost is how many stops over a light surface has no shape any more: speeds by
// saturation leave half a stop over a perfectly white one (ISO 12232, from memory),
// and what is light has seven tenths of its light (common practice).
const whiteLost = 1

func (e *eye) exposureWords(v *Verdict, missing, need, lux float64) {
	amounts := fmt.Sprintf("%s lx needed, %s there: ", short(need), short(lux))
	switch {
	case missing > e.bounds.Stops:
		v.Level, v.Text = Poor, amounts+short(missing)+" stops too dark"
		e.brighten(v, missing)
	case missing < -whiteLost:
		v.Level, v.Text = Poor, amounts+short(-missing)+" stops too bright, and what is white is lost"
		e.dim(v, -missing)
	case missing < -e.bounds.Stops:
		v.Level, v.Text = Fair, amounts+short(-missing)+" stops to spare"
		e.dim(v, -missing)
	default:
		v.Text = amounts + "exposed as metered"
	}
}

// need is the light that exposes the picture: a neutral filter wants as much more.
func (e *eye) need(n, iso float64) float64 {
	return light.Needed(e.bounds.Meter, n, e.shutter.Value, iso) * math.Pow(10, e.scene.Lens.Density.Or(0))
}

// dim adds what would take so many stops off.
func (e *eye) dim(v *Verdict, stops float64) {
	times := math.Exp2(-stops)
	iso, n := e.scene.Camera.ISO.Value, e.scene.Lens.Aperture.Value
	if lower := light.AtLeastISO(iso * times); lower < iso {
		v.try(ofLight, func(s *Scene) { s.Camera.ISO = Is(lower) }, "ISO %s", round(lower, 4))
	}
	e.tryFilter(v, stops)
	e.tryLamps(v, times)
	if smaller := light.WiderAperture(n / math.Sqrt(times)); smaller > n {
		e.tryAperture(v, smaller)
	}
	e.tryShutter(v, e.shutter.Value*times)
}

// tryFilter adds a neutral filter for so many stops. Those are whole; what is left
// over goes to the sensitivity, which is raised where it cannot be lowered.
func (e *eye) tryFilter(v *Verdict, stops float64) {
	n, iso, change := math.Round(stops), e.scene.Camera.ISO.Value, ""
	if math.Abs(stops-n) > e.bounds.Stops {
		n = math.Floor(stops)
		if light.AtLeastISO(iso*math.Exp2(n-stops)) >= iso {
			n = math.Ceil(stops)
		}
		iso = light.AtLeastISO(iso * math.Exp2(n-stops))
		change = " with ISO " + round(iso, 4)
	}
	if density := filterFor(n); density > 0 {
		all := e.scene.Lens.Density.Or(0) + density
		v.try(ofLight, func(s *Scene) { s.Lens.Density, s.Camera.ISO = Is(all), Is(iso) }, "%s", filterText(all)+change)
	}
}

// filterFor is the density of the marked neutral filter that takes off so many
// stops, 0 where none does. They are marked 0.3 a stop, which is 0.997 of one, and
// are to be had in whole stops (common practice).
func filterFor(stops float64) float64 { return 0.3 * math.Round(stops) }

func filterText(density float64) string {
	n := density / math.Log10(2)
	return "a neutral filter of ND " + strconv.FormatFloat(density, 'f', 1, 64) + ", " + short(math.Round(n*10)/10) + " stops"
}

// tryAperture adds an aperture.
func (e *eye) tryAperture(v *Verdict, n float64) {
	v.try(ofIris, func(s *Scene) { s.Lens.Aperture = Is(n) }, "%s", stopText(n))
}

// stopText prints an f-number. Not every lens has those at the ends.
func stopText(n float64) string {
	text := "f/" + round(n, 3)
	switch {
	case n < 2.8:
		text += " (where the lens opens so far)"
	case n > 22:
		text += " (where the lens closes so far)"
	}
	return text
}

const (
	// mostISO is the highest sensitivity that is told as a cure: beyond it there is
	// more noise than picture (common practice).
	mostISO = 25600
	// mostBrighter is how many times as bright lamps may have to be: beyond it they
	// are other lamps.
	mostBrighter = 16
)

// tryLamps adds lamps some times as bright.
func (e *eye) tryLamps(v *Verdict, times float64) {
	if times > mostBrighter {
		return
	}
	words := "lamps " + short(times) + " times as bright"
	if times < 1 {
		words = "lamps dimmed to " + short(100*times) + " %"
	}
	v.try(ofLight, func(s *Scene) {
		s.Metered.Value *= times
		for i := range s.Lamps {
			s.Lamps[i].Lumens.Value *= times
		}
	}, "%s", words)
}

// brighten adds what would supply the missing stops, each by itself.
func (e *eye) brighten(v *Verdict, stops float64) {
	times := math.Exp2(stops)
	iso, n := e.scene.Camera.ISO.Value, e.scene.Lens.Aperture.Value
	if e.scene.Lens.Density.Or(0) > 0 {
		v.try(ofLight, func(s *Scene) { s.Lens.Density = Number{} }, "no neutral filter")
	}
	if higher := light.AtLeastISO(iso * times); higher > iso && higher <= mostISO {
		v.try(ofLight, func(s *Scene) { s.Camera.ISO = Is(higher) }, "ISO %s", round(higher, 4))
	}
	if !e.scene.Metered.Given {
		nearer, _ := strconv.ParseFloat(round(math.Exp2(-stops/2), 2), 64)
		v.try(ofLight, func(s *Scene) {
			for i := range s.Lamps {
				s.Lamps[i].Distance.Value *= nearer
			}
		}, "lamps at %s of their distance", round(nearer, 2))
	}
	e.tryLamps(v, times)
	if wider := light.WiderAperture(n * math.Exp2(-stops/2)); wider < n {
		e.tryAperture(v, wider)
	}
	if long := e.shutter.Value * times; long <= e.frame {
		e.trySeconds(v, long, "a shutter of %s")
	} else {
		v.advise("a capture rate of %s a second with its shutter as far open", round(1/(e.frame*times), 3))
	}
}

// lightThere is what was metered, or adds the lamps up. Without either, that is
// what is missing.
func (e *eye) lightThere() (missing []string, lux float64) {
	if e.scene.Metered.Given {
		return nil, e.scene.Metered.Value
	}
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
		need := e.need(n, iso.Value)
		v.figure("light needed", need, "lx")
		v.Text += "; " + short(need) + " lx are needed"
	case lux > 0 && len(v.Missing) == 1:
		want := light.Sensitivity(e.bounds.Meter, n, e.shutter.Value, lux) * math.Pow(10, e.scene.Lens.Density.Or(0))
		v.figure("sensitivity needed", want, "ISO")
		v.Text += "; the lamps call for ISO " + round(light.AtLeastISO(want), 4)
	}
	return v
}
