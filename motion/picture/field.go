package picture

import (
	"fmt"
	"math"

	"seamrail/motion/optics"
)

// field is what the picture holds at some depth.
type field struct {
	depth, width, height float64 // mm; height NaN where pixels high are not known
}

func (e *eye) fieldAt(q setting, depth float64) field {
	scale := depth / e.imageAt(q.focus) * e.pitch.Value
	f := field{depth: depth, width: e.wide.Value * scale, height: math.NaN()}
	if e.high.Given {
		f.height = e.high.Value * scale
	}
	return f
}

// fieldVerdict tells how much of the scene the picture holds, from nearest and
// from farthest, and how much of it the product fills.
func (e *eye) fieldVerdict(rows []Row) Verdict {
	const check = "field of view"
	if !e.scaled() || !e.wide.Given {
		missing := append([]string{}, e.missing...)
		if !e.wide.Given {
			missing = append(missing, "pixels wide")
		}
		return unknown(check, "how much the picture holds", missing...)
	}
	near := greatest(rows, func(r Row) float64 { return r.Magnification })
	far := greatest(rows, func(r Row) float64 { return -r.Magnification })
	if near < 0 {
		return unseen(check)
	}
	tight, wide := e.rowField(rows[near]), e.rowField(rows[far])
	v := Verdict{Check: check, Level: Good, When: e.moment(rows[near].Seconds)}
	v.figure("width at nearest", tight.width, "mm")
	v.figure("width at farthest", wide.width, "mm")
	if !e.flat {
		v.figure("angle of view", optics.AngleOfView(e.wide.Value*e.pitch.Value, e.imageAt(e.rowSetting(rows[near]).focus)), "deg")
	}
	v.Text = "the picture is " + mm(tight.width) + " wide at the near face"
	if mm(tight.width) != mm(wide.width) {
		v.Text += " from nearest, " + mm(wide.width) + " from farthest"
	}
	girth := 2 * e.scene.Product.girth()
	if girth == 0 {
		v.Missing = append(v.Missing, "size of the product")
		return v
	}
	most, least := girth/e.middleField(rows[near]).width, girth/e.middleField(rows[far]).width
	v.figure("filled at nearest", most, "of the width")
	v.figure("filled at farthest", least, "of the width")
	v.Text += "; at its middle the product is " + span(round(least, 3), round(most, 3)) + " times as wide"
	e.framing(&v, rows)
	return v
}

// span is "a to b", or a where the two read alike.
func span(a, b string) string {
	if a == b {
		return a
	}
	return a + " to " + b
}

// rowSetting is the setting in the middle of a row's exposure.
func (e *eye) rowSetting(r Row) setting { return e.at(r.Seconds + e.shutter.Or(0)/2) }

// middleField is the field at the depth of the product's middle.
func (e *eye) middleField(r Row) field {
	q := e.rowSetting(r)
	_, _, depth := e.pose(q).See(e.scene.Product.middle(q.table))
	return e.fieldAt(q, depth)
}

func (e *eye) rowField(r Row) field {
	q := e.rowSetting(r)
	return e.fieldAt(q, e.imageAt(q.focus)/r.Magnification)
}

// darkVerdict tells whether the dark fills the picture where the loop closes.
func (e *eye) darkVerdict() Verdict {
	const check = "dark at the seam"
	d := e.scene.Dark
	missing := append([]string{}, e.missing...)
	if !e.wide.Given || !e.high.Given {
		missing = append(missing, "picture size in pixels")
	}
	if !d.Width.Given || !d.Height.Given {
		missing = append(missing, "size of the dark")
	}
	if e.flat {
		missing = append(missing, "distance")
	}
	if len(missing) > 0 {
		return unknown(check, "whether the dark hides the seam", missing...)
	}
	before, after := e.seamSettings()
	spare := math.Min(e.spare(*d, before), e.spare(*d, after))
	v := Verdict{Check: check, Level: Good, When: e.moment(0)}
	v.figure("spare", spare, "mm")
	v.Text = "the dark fills the picture at the seam, with " + mm(spare) + " to spare"
	switch {
	case math.IsInf(spare, -1):
		v.Level, v.Text = Poor, "the dark is not in front of the lens at the seam"
	case spare < 0:
		v.Level, v.Text = Poor, "the dark does not fill the picture at the seam: "+mm(-spare)+" are missing"
		v.cure("the camera nearer to it at the seam, or a dark larger by %s all round", mm(-spare))
	}
	if !math.IsInf(spare, -1) {
		e.through(&v, *d)
	}
	return v
}

// through tells where the lens goes through the dark, which an opening bears and
// a board or a cloth does not.
func (e *eye) through(v *Verdict, d Dark) {
	left, at := e.nearest(func(q setting) float64 {
		front := e.pose(q).Point(0, 0, e.scene.Lens.FrontAhead.Or(0))
		if math.Abs(front.X-d.Centre.X) > d.Width.Value/2 || math.Abs(front.Z-d.Centre.Z) > d.Height.Value/2 {
			return math.Inf(1) // past its edge
		}
		return d.Centre.Y - front.Y
	})
	if left >= 0 {
		return
	}
	v.Level, v.When = max(v.Level, Fair), e.moment(at)
	v.figure("through it", -left, "mm")
	v.Text += fmt.Sprintf("; the lens goes %s through it, farthest at frame %d: an opening bears that, a board or a cloth does not", mm(-left), v.When.Frame)
	v.cure("where it is no opening, the far end of the move %s sooner", mm(-left+e.bounds.Clearance))
}

// dark tells whether a dark hides the seam: it fills the picture and stands
// before all the product turns through.
func (e *eye) dark() bool {
	d := e.scene.Dark
	if d == nil {
		return false
	}
	if spare, known := e.darkVerdict().Figure("spare"); !known || spare < 0 {
		return false
	}
	o, _ := e.scene.Product.Outline()
	return d.Centre.Y < -o.Reach()
}

// spare is how far the dark reaches past the picture on its tightest side, in
// mm, where the four corners of the picture meet the plane of the dark.
func (e *eye) spare(d Dark, q setting) float64 {
	v := e.view(q)
	least := math.Inf(1)
	for _, x := range []float64{-1, 1} {
		for _, y := range []float64{-1, 1} {
			ray := v.pose.Point(x*e.wide.Value/2/v.scale, y*e.high.Value/2/v.scale, 1)
			way := (d.Centre.Y - v.pose.At.Y) / (ray.Y - v.pose.At.Y)
			if !(way > 0) || math.IsInf(way, 0) {
				return math.Inf(-1)
			}
			hx := v.pose.At.X + way*(ray.X-v.pose.At.X) - d.Centre.X
			hz := v.pose.At.Z + way*(ray.Z-v.pose.At.Z) - d.Centre.Z
			least = math.Min(least, math.Min(d.Width.Value/2-math.Abs(hx), d.Height.Value/2-math.Abs(hz)))
		}
	}
	return least
}
