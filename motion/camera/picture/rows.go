package picture

import (
	"math"
	"strconv"

	"seamrail/motion/camera/optics"
)

// maxRows bounds the frames that are looked at one by one: two minutes and a
// half at 120 a second. A longer loop is looked at in as many evenly spaced
// frames, and the report says so.
const maxRows = 20_000

// rows looks at every captured frame, or at most so many, evenly spaced.
func (e *eye) rows(most int64, row func(k int64) Row) (rows []Row, every int64) {
	n := e.motion.Captured()
	every = (n + most - 1) / most
	if !e.scaled() {
		return nil, every
	}
	for k := int64(0); k < n && !e.ended(); k += every {
		rows = append(rows, row(k))
	}
	return rows, every
}

// quickRow is what is seen while frame k is exposed: smear and speed.
func (e *eye) quickRow(k int64) Row {
	sec := e.motion.FrameSeconds(k).Float()
	r := Row{Frame: k, Seconds: sec, Speed: e.speed(sec), Smear: Smear{Together: math.NaN()}}
	if e.shutter.Given {
		r.Smear = e.expose(sec, e.moved()).smear()
	}
	return r
}

func (e *eye) row(k int64) Row {
	r := e.quickRow(k)
	middle := e.at(r.Seconds + e.moved()/2)
	e.focusRow(&r, middle)
	r.Clearance = e.gapAt(middle)
	return r
}

func (e *eye) focusRow(r *Row, q setting) {
	nan := math.NaN()
	r.Magnification, r.Focus, r.Drift, r.Near, r.Far, r.Blur = nan, nan, nan, nan, nan, nan
	depth := e.depthOf(q)
	if depth <= 0 {
		return
	}
	r.Magnification = e.imageAt(q.focus) / depth
	if e.flat {
		return
	}
	r.Focus, r.Drift = q.focus, depth+e.ahead-q.focus
	n, c := e.scene.Lens.Aperture, e.confusion()
	if !n.Given || !e.focal.Given || q.focus <= e.focal.Value {
		return
	}
	r.Near, r.Far = optics.Depth(e.focal.Value, e.stop(), e.pupils(), c, q.focus)
	r.Blur = optics.Blur(e.focal.Value, e.stop(), e.pupils(), q.focus, depth+e.ahead) / e.pitch.Value
}

// depthOf is how deep the near face lies in a setting, from the entrance pupil.
func (e *eye) depthOf(q setting) float64 {
	p := e.pose(q)
	at, ok := e.scene.Product.Face(q.table, p.At)
	if !ok {
		at = e.scene.Product.Middle(q.table)
	}
	_, _, depth := p.See(at)
	return depth - e.ahead
}

// confusion is the circle on the sensor that counts as sharp, in mm.
func (e *eye) confusion() float64 {
	return e.scene.Camera.Confusion.Or(e.bounds.SharpSpot * e.pitch.Value)
}

// greatest is the index of the row where of is greatest, -1 where it is NaN in
// all of them.
func greatest(rows []Row, of func(Row) float64) int {
	best := -1
	for i, r := range rows {
		if v := of(r); !math.IsNaN(v) && (best < 0 || v > of(rows[best])) {
			best = i
		}
	}
	return best
}

func frameText(k int64) string { return strconv.FormatInt(k, 10) }

// unseen is the verdict where the product never comes before the lens.
func unseen(check string) Verdict {
	return Verdict{Check: check, Level: Poor, Text: "the product is never in front of the lens"}
}
