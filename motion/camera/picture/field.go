package picture

import (
	"fmt"
	"math"

	"seamrail/motion/camera/optics"
)

// field is what the picture holds at some depth from the entrance pupil.
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
	e.breathing(&v, rows)
	girth := 2 * e.scene.Product.Girth()
	if girth == 0 {
		v.Missing = append(v.Missing, "size of the product")
		return v
	}
	most, least := girth/e.middleField(rows[near]).width, girth/e.middleField(rows[far]).width
	v.figure("filled at nearest", most, "of the width")
	v.figure("filled at farthest", least, "of the width")
	v.Text += "; at its middle the product is " + span(round(least, 3), round(most, 3)) + " times as wide"
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
func (e *eye) rowSetting(r Row) setting { return e.at(r.Seconds + e.moved()/2) }

// middleField is the field at the depth of the product's middle.
func (e *eye) middleField(r Row) field {
	q := e.rowSetting(r)
	_, _, depth := e.pupil(q).See(e.scene.Product.Middle(q.table))
	return e.fieldAt(q, depth)
}

func (e *eye) rowField(r Row) field {
	q := e.rowSetting(r)
	return e.fieldAt(q, e.imageAt(q.focus)/r.Magnification)
}

// breathing tells how much the pull of the focus alone changes the size of things, and
// what that rests on.
func (e *eye) breathing(v *Verdict, rows []Row) {
	near, far := greatest(rows, func(r Row) float64 { return -r.Focus }), greatest(rows, func(r Row) float64 { return r.Focus })
	if !e.pulls() || !e.focal.Given || near < 0 {
		return
	}
	share := 100 * (e.imageAt(rows[near].Focus)/e.imageAt(rows[far].Focus) - 1)
	v.figure("breathing", share, "%")
	size, why := "larger", "if the lens is a thin one, which few are"
	if share < 0 {
		size = "smaller"
	}
	if e.scene.Lens.Breathing.Given {
		why = "by the breathing that is stated"
	}
	v.Text += fmt.Sprintf("; the pull alone makes things %s %% %s where its focus is nearest than where it is farthest, %s", round(math.Abs(share), 2), size, why)
}
