package picture

import (
	"fmt"
	"math"

	"seamrail/motion/camera/light"
	"seamrail/motion/camera/optics"
)

func (e *eye) magnificationVerdict(rows []Row) Verdict {
	const check = "magnification"
	if !e.scaled() {
		return unknown(check, "how large things come out", e.missing...)
	}
	most := greatest(rows, func(r Row) float64 { return r.Magnification })
	least := greatest(rows, func(r Row) float64 { return -r.Magnification })
	if most < 0 {
		return unseen(check)
	}
	hi, lo := rows[most].Magnification, rows[least].Magnification
	v := Verdict{Check: check, Level: Good, When: e.moment(rows[most].Seconds)}
	v.figure("greatest", hi, "")
	v.figure("least", lo, "")
	v.figure("scale", hi/e.pitch.Value, "px/mm")
	v.Text = fmt.Sprintf("the near face is magnified %s, %s px a mm", ratio(hi), short(hi/e.pitch.Value))
	if hi-lo > 1e-6*hi {
		v.Text = fmt.Sprintf("the near face is magnified %s to %s, %s to %s px a mm", ratio(lo), ratio(hi),
			short(lo/e.pitch.Value), short(hi/e.pitch.Value))
	}
	if e.flat {
		v.partly(e.leftOut(e.slides...))
	}
	return v
}

// ratio prints a magnification as lenses mark it: 1:3, 2:1.
func ratio(m float64) string {
	if m < 1 {
		return "1:" + round(1/m, 3)
	}
	return round(m, 3) + ":1"
}

// focusVerdict tells whether the near face stays sharp.
func (e *eye) focusVerdict(rows []Row) Verdict {
	const check = "focus"
	missing := append([]string{}, e.missing...)
	if !e.scene.Lens.Aperture.Given {
		missing = append(missing, "aperture")
	}
	if e.flat {
		missing = append(missing, "distance, or focal length")
	}
	if len(missing) > 0 {
		return e.depthAlone(unknown(check, "whether the product stays in focus", missing...))
	}
	worst := greatest(rows, func(r Row) float64 { return r.Blur })
	if worst < 0 {
		return unseen(check)
	}
	r, limit := rows[worst], e.confusion()/e.pitch.Value
	v := Verdict{Check: check, Level: Good, When: e.moment(r.Seconds)}
	v.gauge = r.Blur
	v.figure("blur", r.Blur, "px")
	v.figure("sharp up to", limit, "px")
	v.figure("drift", r.Drift, "mm")
	v.figure("near limit", r.Near, "mm")
	if !math.IsInf(r.Far, 1) {
		v.figure("far limit", r.Far, "mm")
	}
	deep := mm(r.Far - r.Near)
	if left := leaves(rows, limit*(1+blurSlack)); left >= 0 {
		v.Level = Poor
		v.When = e.moment(rows[left].Seconds)
		v.Text = fmt.Sprintf("the near face leaves focus at frame %d; at worst it is %s, %s px across at frame %d (sharp is %s deep)",
			rows[left].Frame, aside(r.Drift), short(r.Blur), r.Frame, deep)
		e.handWords(&v, rows, limit)
		e.focusCures(&v, rows, r, limit)
		return v
	}
	v.Text = fmt.Sprintf("the near face stays in focus: at worst %s, %s px across at frame %d (sharp is %s deep)",
		aside(r.Drift), short(r.Blur), r.Frame, deep)
	e.handWords(&v, rows, limit)
	e.roomier(&v, rows, limit)
	return v
}

// blurSlack keeps a spot of exactly the size allowed within it.
const blurSlack = 1e-9

func aside(drift float64) string {
	where := "beyond"
	if drift < 0 {
		where = "before"
	}
	return mm(math.Abs(drift)) + " " + where + " the plane in focus"
}

// leaves is the first row whose blur passes the limit, -1 if none does.
func leaves(rows []Row, limit float64) int {
	for i, r := range rows {
		if r.Blur > limit {
			return i
		}
	}
	return -1
}

func (e *eye) focusCures(v *Verdict, rows []Row, r Row, limit float64) {
	now := e.scene.Lens.Aperture.Value
	e.trySettled(v, rows, limit)
	if n, ok := light.NarrowerAperture(now * r.Blur / limit); ok {
		e.tryAperture(v, n)
	}
	for _, i := range e.slides {
		if e.pushes(i) {
			e.tryLess(v, i, lessFocus*limit/r.Blur)
		}
	}
	if !e.pulls() {
		v.advise("a focus axis, or a hand on the ring, that follows the product")
	}
}

// sameFocus is how near, in mm, two settings of a focus ring are one: nobody sets it
// finer.
const sameFocus = 0.5

// lessFocus is what is kept in hand of travel that would only just stay in focus: a
// spot does not grow quite as the way to it.
const lessFocus = 0.95

// depthAlone adds the depth of field where magnification and aperture are
// known and no distance is.
func (e *eye) depthAlone(v Verdict) Verdict {
	l := e.scene.Lens
	if !e.magnified.Given || !l.Aperture.Given || !e.pitch.Given && !e.scene.Camera.Confusion.Given {
		return v
	}
	near, far := optics.DepthAt(e.focal.Or(0), e.magnified.Value, e.stop(), e.pupils(), e.confusion())
	v.figure("sharp before focus", near, "mm")
	if !math.IsInf(far, 1) {
		v.figure("sharp beyond focus", far, "mm")
	}
	v.Text += "; sharp is " + mm(near+far) + " deep"
	return v
}

// effective is the aperture the light sees: it follows how far the lens is drawn
// out, which is where it is focused and not what is before it. Of a focus that is
// pulled the nearest counts, which is darkest.
func (e *eye) effective(rows []Row) (float64, bool) {
	m := e.magnified.Or(math.NaN())
	if k := greatest(rows, func(r Row) float64 { return -r.Focus }); k >= 0 && e.pulls() && e.focal.Given {
		m = optics.Magnification(e.focal.Value, rows[k].Focus)
	}
	if !e.scene.Lens.Aperture.Given || math.IsNaN(m) {
		return 0, false
	}
	return optics.Effective(e.stop(), m, e.pupils()), true
}

func (e *eye) apertureVerdict(rows []Row) Verdict {
	const check = "diffraction"
	n, ok := e.effective(rows)
	if !ok || !e.pitch.Given {
		var missing []string
		if !e.scene.Lens.Aperture.Given {
			missing = append(missing, "aperture")
		}
		return unknown(check, "the effective aperture, and what it softens", append(missing, e.missing...)...)
	}
	marked := e.scene.Lens.Aperture.Value
	exact := e.stop()
	spot := optics.Airy(n, optics.Green) / e.pitch.Value
	v := Verdict{Check: check, Level: Good}
	v.figure("effective aperture", n, "")
	v.figure("stops lost", optics.Stops(exact, n), "stops")
	v.figure("Airy disc", spot, "px")
	v.Text = fmt.Sprintf("f/%s acts as f/%s, %s darker; diffraction makes a point %s px wide: ",
		round(marked, 3), round(n, 3), stopsOf(optics.Stops(exact, n)), short(spot))
	v.gauge = spot
	sharp := e.confusion() / e.pitch.Value
	switch {
	case spot <= e.bounds.Airy:
		v.Text += "no softer than the pixels"
		return v
	case spot <= resolved*sharp:
		v.Level = Fair
		v.Text += "softer than the pixels"
	default:
		v.Level = Poor
		v.Text += "two points a sharp spot of " + short(sharp) + " px apart run into one"
	}
	if wider := light.WiderAperture(marked * e.bounds.Airy / spot); wider < marked {
		e.tryAperture(&v, wider)
	}
	return v
}

// resolved is how many times its radius an Airy disc is wide: two points are told
// apart when they are its radius apart, the first dark ring of one on the middle of
// the other (Lord Rayleigh, Phil. Mag. 8:261-274, 1879,
// DOI 10.1080/14786447908639684).
const resolved = 2
