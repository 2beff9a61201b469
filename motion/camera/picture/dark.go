package picture

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"
)

// darkMissing names what it takes to tell whether the dark hides the seam.
func (e *eye) darkMissing(d scene.Dark) []string {
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
	return missing
}

// darkVerdict tells whether the dark fills the picture where the loop closes, and
// whether anything is seen before it or through a hole in it.
func (e *eye) darkVerdict() Verdict {
	const check = "dark at the seam"
	d := e.scene.Dark
	if missing := e.darkMissing(*d); len(missing) > 0 {
		return unknown(check, "whether the dark hides the seam", missing...)
	}
	before, after := e.seamSettings()
	spare := math.Min(e.spare(*d, before), e.spare(*d, after))
	v := Verdict{Check: check, Level: Good, When: e.moment(0)}
	v.figure("spare", spare, "mm")
	v.gauge = -spare
	standing := e.filled(before, d.Centre.Y)
	if s := e.filled(after, d.Centre.Y); s.area > standing.area {
		standing = s
	}
	under, lampsKnown := e.under()
	switch {
	case lampsKnown && under >= e.bounds.Black:
		v.Text = "the lamps are down at the seam, " + downBy(under) + ": dark, whatever is in the picture"
	case math.IsInf(spare, -1) || e.past(*d, before) || e.past(*d, after):
		v.Level, v.Text = Poor, "the dark is not in front of the lens at the seam"
		return v
	case spare < 0:
		v.Level, v.Text = Poor, "the dark does not fill the picture at the seam: "+mm(-spare)+" are missing"
		more := math.Ceil(-spare)
		v.try(ofDark, func(s *scene.Scene) {
			s.Dark.Width, s.Dark.Height = scene.Is(d.Width.Value+2*more), scene.Is(d.Height.Value+2*more)
		}, "a dark larger by %s all round", mm(more)).
			as("scene.dark.width", typed(d.Width.Value+2*more, "mm")).as("scene.dark.height", typed(d.Height.Value+2*more, "mm"))
	case standing.area >= minShown:
		v.Level = Poor
		v.figure("product before it", 100*standing.width, "% of the width")
		v.Text = fmt.Sprintf("the dark fills the picture at the seam, and the product stands before it over %s %% of the width: not dark", short(100*standing.width))
	default:
		v.Text = "the dark fills the picture at the seam, with " + mm(spare) + " to spare"
		if e.openDark(&v, *d, before, after); len(e.solid(before, scene.MaxLength)) == 0 {
			v.partly([]string{"shape and size of the product"})
		}
	}
	e.through(&v, *d)
	return v
}

// past tells whether the front of the lens stands beyond the dark: it then hides
// nothing from the lens.
func (e *eye) past(d scene.Dark, q setting) bool {
	return e.pose(q).Point(0, 0, e.scene.Lens.FrontAhead.Or(0)).Y > d.Centre.Y
}

// minShown is the share of the picture's area below which what a hole shows is
// not told: less than a pixel of any picture.
const minShown = 1e-8

// openDark looks through the holes in the dark where the loop closes.
func (e *eye) openDark(v *Verdict, d scene.Dark, before, after setting) {
	for _, h := range e.scene.Holes {
		if !h.In(d) {
			continue
		}
		s := e.shownThrough(h, before)
		if t := e.shownThrough(h, after); t.product.area > s.product.area || t.hole.area > s.hole.area {
			s = t
		}
		if s.hole.area < minShown {
			continue
		}
		v.figure("hole", 100*s.hole.width, "% of the width")
		v.Text += fmt.Sprintf("; the %s in it is %s %% as wide as the picture there", h.Called(), short(100*s.hole.width))
		switch {
		case s.product.area >= minShown:
			v.Level = Poor
			v.figure("product through it", 100*s.product.width, "% of the width")
			v.figure("product through it, area", 100*s.product.area, "%")
			v.Text += fmt.Sprintf(" and shows the product over %s %% of the width, %s %% of the area: not dark", short(100*s.product.width), short(100*s.product.area))
			v.advise("lamps off the product at the seam, or something dark over the hole")
		default:
			if v.Level == Good {
				v.Level = Unknown
			}
			v.Text += ": whether what lies behind it is dark is not known"
		}
	}
}

// through tells where the lens goes through the dark, which an opening bears and
// a board or a cloth does not. Through a hole in it is the hole's own affair.
func (e *eye) through(v *Verdict, d scene.Dark) {
	left, at := e.nearest(func(q setting) float64 {
		front := e.pose(q).Point(0, 0, e.scene.Lens.FrontAhead.Or(0))
		if math.Abs(front.X-d.Centre.X) > d.Width.Value/2 || math.Abs(front.Z-d.Centre.Z) > d.Height.Value/2 || e.inHole(front, d) {
			return math.Inf(1) // past its edge
		}
		return d.Centre.Y - front.Y
	})
	if left >= 0 {
		return
	}
	if v.Level == Good || v.Level == Unknown {
		v.Level = Fair
	}
	v.When = e.moment(at)
	v.figure("through it", -left, "mm")
	v.Text += fmt.Sprintf("; the lens goes %s through it, farthest at frame %d: an opening bears that, a board or a cloth does not", mm(-left), v.When.Frame)
	v.advise("where it is no opening, the far end of the move %s sooner", mm(-left+e.bounds.Clearance))
}

// inHole tells whether a point lies in the line of a hole in the dark.
func (e *eye) inHole(p r3.Vec, d scene.Dark) bool {
	return slices.ContainsFunc(e.scene.Holes, func(h scene.Hole) bool {
		return h.In(d) && math.Hypot(p.X-h.Centre.X, p.Z-h.Centre.Z) < h.Diameter.Value/2
	})
}

// hides tells whether a dark hides the seam; not known where a hole in it shows
// what nobody described.
func (e *eye) hides() (hides, known bool) {
	if e.scene.Dark == nil {
		return false, true
	}
	v := e.darkVerdict()
	if len(e.darkMissing(*e.scene.Dark)) > 0 {
		return false, true
	}
	return v.Level == Good || v.Level == Fair, v.Level != Unknown
}

// spare is how far the dark reaches past the picture on its tightest side, in
// mm, where the four corners of the picture meet the plane of the dark.
func (e *eye) spare(d scene.Dark, q setting) float64 {
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
