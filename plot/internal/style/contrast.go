package style

import (
	"image/color"
	"math"
)

// legible is the least contrast of text on paper: 4.5 to 1, WCAG 2.1 success
// criterion 1.4.3.
const legible = 4.5

// TextHue returns the colour of curve i, darkened until type set in it is
// legible on paper.
func TextHue(i int) color.NRGBA {
	c := Hue(i)
	for contrast(c) < legible {
		c.R, c.G, c.B = darker(c.R), darker(c.G), darker(c.B)
	}
	return c
}

func darker(v uint8) uint8 { return uint8(float64(v) * 0.96) }

// contrast is the contrast of c against white by relative luminance (WCAG 2.1).
func contrast(c color.NRGBA) float64 {
	l := 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	return 1.05 / (l + 0.05)
}

// linear undoes the transfer curve of sRGB (IEC 61966-2-1).
func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}
