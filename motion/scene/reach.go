package scene

import (
	"fmt"
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/optics"
)

// wholeMM is what floats may make of a length of whole mm.
const wholeMM = 1e-6

// marks wants the lens to be set to what it has.
func (c *checker) marks(l Lens) {
	c.within("camera.apertures[1]", l.Widest, 0.5, 1000, unit.Number)
	c.within("camera.apertures[2]", l.Smallest, 0.5, 1000, unit.Number)
	c.within("camera.greatest-magnification", l.Greatest, 1e-6, 1000, unit.Number)
	c.above("camera.nearest-focus", l.Nearest, unit.Length, "200 mm")
	c.within("camera.extension", l.Extension, 0, MaxLength, unit.Length)
	if b := l.Breathing; b.Given && !(minBreathing <= b.Value && b.Value <= maxBreathing) {
		c.add("camera.breathing", percent(b.Value), "must be from "+percent(minBreathing)+" to "+percent(maxBreathing), "")
	}
	if len(c.list) > 0 {
		return
	}
	c.aperture(l)
	c.nearest(l)
	c.magnifies(l)
	c.pulled(l)
	if l.Breathing.Given && l.Closest() == 0 {
		c.add("camera.breathing", percent(l.Breathing.Value), "is at the nearest focus of the lens by itself, which is not known",
			"state its nearest-focus, and leave breathing out where it stands on rings")
	}
}

// A lens that moves as a whole breathes by its greatest magnification, 5:1 at most; one
// whose parts make things smaller as it focuses near does so by far less than half.
const (
	minBreathing = -0.5
	maxBreathing = 5
)

func percent(share float64) string { return plainly(100*share, 3) + " %" }

func (c *checker) aperture(l Lens) {
	if !l.Widest.Given || !l.Smallest.Given {
		return
	}
	low, high := l.Widest.Value, l.Smallest.Value
	switch n := l.Aperture; {
	case high < low:
		c.add("camera.apertures[2]", "f/"+plainly(high, 3), "must be smaller an opening than the widest, f/"+plainly(low, 3), "the widest has the least number")
	case n.Given && !(low <= n.Value && n.Value <= high):
		c.add("camera.aperture", "f/"+plainly(n.Value, 3), fmt.Sprintf("must be from f/%s to f/%s, which the lens has", plainly(low, 3), plainly(high, 3)), "")
	}
}

// nearest wants the plane in focus where the lens can be focused by itself; rings bring
// it nearer.
func (c *checker) nearest(l Lens) {
	if !l.Nearest.Given || !l.Focus.Given || l.Extension.Value > 0 {
		return
	}
	if l.Focus.Value < l.Nearest.Value*(1-TwiceSaid) {
		c.add("camera.focus", unit.Format(l.Focus.Value, unit.Length),
			"must be "+unit.Format(l.Nearest.Value, unit.Length)+" or more, the nearest focus of the lens", "rings between camera and lens bring it nearer: extension")
	}
}

// magnifies wants the magnification that is asked for to be one the lens has. Rings
// behind it leave none below their length over the focal length, as where it is focused
// infinitely far the picture stands at the rear focal point (E. Hecht, Optics, 5th ed.,
// Pearson 2017, section 5.2, ISBN 978-0-13-397722-6). How far they reach beyond the
// greatest is not known: focal lengths are marked for far focus, and many lenses have
// less of it near.
func (c *checker) magnifies(l Lens) {
	key, asked := l.asked()
	if asked <= 0 {
		return
	}
	value := ratio(asked)
	if key == "camera.focus" {
		value = unit.Format(l.Focus.Value, unit.Length) + " magnifies " + value + ", which"
	}
	if l.Extension.Value > 0 {
		if least := l.rings(); asked < least*(1-TwiceSaid) {
			c.add(key, value, "must be at least "+ratio(least)+": a lens on "+unit.Format(l.Extension.Value, unit.Length)+" of rings does not focus farther",
				"take rings away")
		}
		return
	}
	if !l.Greatest.Given || asked <= l.Greatest.Value*(1+TwiceSaid) {
		return
	}
	fit := "stand farther away, or take a lens that goes nearer"
	if key == "camera.focus" {
		fit += "; of a lens whose focal length is less near, state the magnification in place of focus"
	}
	if f := l.FocalLength; f.Given && f.Value > 0 {
		fit += fmt.Sprintf("; rings of some %s mm would do: extension", plainly(math.Ceil((asked-l.Greatest.Value)*f.Value-wholeMM), 6))
	}
	c.add(key, value, "must be at most "+ratio(l.Greatest.Value)+", the greatest magnification of the lens", fit)
}

// Closest is the nearest plane that the lens focuses on by itself, in mm from it, for a
// focal length as marked; 0 where that is not known, and where rings bring it nearer.
func (l Lens) Closest() float64 {
	switch {
	case l.Extension.Value > 0:
	case l.Nearest.Given:
		return l.Nearest.Value
	case l.Greatest.Given && l.FocalLength.Given:
		return optics.FocusAt(l.FocalLength.Value, l.Greatest.Value)
	}
	return 0
}

// asked is the magnification that the lens is set to, and the key that says so; 0 where
// nothing does.
func (l Lens) asked() (string, float64) {
	if l.Magnification.Given {
		return "camera.magnification", l.Magnification.Value
	}
	f, u := l.FocalLength.Value, l.Focus.Value
	if !l.FocalLength.Given || !l.Focus.Given || f <= 0 || u <= f {
		return "", 0
	}
	return "camera.focus", optics.Magnification(f, u)
}

// rings is what rings add to the magnification; 0 where the focal length is not known.
func (l Lens) rings() float64 {
	if !l.FocalLength.Given || l.FocalLength.Value <= 0 {
		return 0
	}
	return l.Extension.Value / l.FocalLength.Value
}

// ratio is a magnification as lenses are marked: "1:2.5" or "2:1".
func ratio(m float64) string {
	if m >= 1 {
		return plainly(m, 3) + ":1"
	}
	return "1:" + plainly(1/m, 3)
}

// pulled wants every focus that a hand pulls to where the lens can be focused.
func (c *checker) pulled(l Lens) {
	if l.Pull == nil {
		return
	}
	for i, k := range l.Pull.Marks {
		one := checker{}
		at := l
		at.Magnification, at.Focus = Number{}, Is(k.Pos)
		if one.forms(at); len(one.list) == 0 {
			one.nearest(at)
			one.magnifies(at)
		}
		for _, f := range one.list {
			f.Quantity = fmt.Sprintf("camera.pull.keys[%d].focus", i+1)
			c.list = append(c.list, f)
		}
	}
}
