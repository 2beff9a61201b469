package picture

import (
	"fmt"
	"math"

	"seamrail/motion/camera/light"
)

// lightCheck is the check that other cures upset, and stopsFigure by how much.
const (
	lightCheck  = "light"
	stopsFigure = "stops missing"
)

func (e *eye) exposureVerdict(rows []Row) Verdict {
	const check = lightCheck
	n, ok := e.effective(rows)
	missing, there := e.lightThere()
	lux := there.most
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
	e.exposureWords(&v, lacking, need, there)
	e.swings(&v, there)
	return v
}

// swings tells how far the light goes down over the loop. That is what fades are for, and
// no fault of the exposure, which is judged where the light is brightest.
func (e *eye) swings(v *Verdict, there lit) {
	if !e.fades {
		return
	}
	v.When = e.moment(e.motion.FrameSeconds(there.brightest).Float())
	if !there.spanned {
		v.Text += "; how far it swings over the loop is not known"
		v.Missing = append(v.Missing, there.missing...)
		return
	}
	v.figure("least light", there.least, "lx")
	switch swing := there.swing(); {
	case math.IsInf(swing, 1):
		v.Text += fmt.Sprintf("; over the loop it goes down to nothing, in frame %d", there.darkest)
	case swing < evenLight:
		v.figure("light swings", swing, "stops")
		v.Text += "; it stays so over the loop, whatever the lamps do"
	default:
		v.figure("light swings", swing, "stops")
		v.Text += fmt.Sprintf("; over the loop it swings by %s, darkest in frame %d", stopsOf(swing), there.darkest)
	}
}

// evenLight, in stops, is a swing of light that nobody sees: a hundredth of it.
const evenLight = 0.0144

// whiteLost is how many stops over a light surface has no shape any more: speeds by
// saturation leave half a stop over a perfectly white one (ISO 12232:2019, from
// memory, as the standard is sold), and what is light has seven tenths of its light
// (common practice).
const whiteLost = 1

func (e *eye) exposureWords(v *Verdict, missing, need float64, there lit) {
	by := "by the lamps' figures"
	if e.scene.Metered.Given {
		by = "as metered"
	}
	if e.fades {
		by += fmt.Sprintf(", with the lamps at their brightest, frame %d", there.brightest)
	}
	amounts := fmt.Sprintf("%s lx needed, %s there %s: ", short(need), short(there.most), by)
	switch {
	case missing > e.bounds.Stops:
		v.Level, v.Text = Poor, amounts+stopsOf(missing)+" too dark"
		e.brighten(v, missing)
	case missing < -whiteLost:
		v.Level, v.Text = Poor, amounts+stopsOf(-missing)+" too bright, and what is white is lost"
		e.dim(v, -missing)
	case missing < -e.bounds.Stops:
		v.Level, v.Text = Fair, amounts+stopsOf(-missing)+" to spare"
		e.dim(v, -missing)
	default:
		v.Text = amounts + "well exposed"
	}
}

// need is the light that exposes the picture: a neutral filter wants as much more.
func (e *eye) need(n, iso float64) float64 {
	return light.Needed(e.bounds.Meter, n, e.shutter.Value, iso) * math.Pow(10, e.scene.Lens.Density.Or(0))
}

// lightThere is what was metered, or adds the lamps up, in the frames where that is most
// and least. Without either, that is what is missing. What a meter read counts as read
// with the lamps at their brightest.
func (e *eye) lightThere() (missing []string, there lit) {
	metered := e.scene.Metered
	if len(e.scene.Lamps) == 0 && !metered.Given {
		return []string{"lamps"}, lit{}
	}
	if e.fades || !metered.Given {
		there = e.lightRange()
	}
	switch {
	case !metered.Given:
		return there.missing, there
	case there.spanned:
		there.least *= metered.Value / there.most
	}
	there.most = metered.Value
	return nil, there
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
