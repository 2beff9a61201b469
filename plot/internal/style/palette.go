package style

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// The inks of everything that is not a curve.
var (
	Paper = color.NRGBA{255, 255, 255, 255}
	Ink   = color.NRGBA{32, 36, 42, 255}
	Muted = color.NRGBA{92, 99, 110, 255}
	Faint = color.NRGBA{224, 227, 232, 255}
	Rule  = color.NRGBA{160, 167, 178, 255}
	Shade = color.NRGBA{240, 242, 246, 255}
)

// hues are told apart by people of every kind of colour vision.
// Source: M. Okabe and K. Ito, "Color Universal Design: how to make figures
// and presentations that are friendly to colorblind people", 2002, rev. 2008;
// the values are those of B. Wong, Nature Methods 8:441, 2011,
// DOI 10.1038/nmeth.1618. Their yellow is left out: too pale for a thin line.
var hues = []color.NRGBA{
	{0, 114, 178, 255},   // blue
	{213, 94, 0, 255},    // vermillion
	{0, 158, 115, 255},   // bluish green
	{204, 121, 167, 255}, // reddish purple
	{230, 159, 0, 255},   // orange
	{86, 180, 233, 255},  // sky blue
	{0, 0, 0, 255},       // black
}

// dashes carry the same distinction without colour. Five patterns against
// seven hues: the pair repeats only after 35 curves.
var dashes = [][]vg.Length{
	nil,
	{9, 3},
	{9, 3, 2, 3},
	{4, 2.5},
	{2, 2},
}

// Hue returns the colour of curve i, i >= 0.
func Hue(i int) color.NRGBA { return hues[i%len(hues)] }

// Dash returns the dash pattern of curve i in points; nil is a solid line.
func Dash(i int) []vg.Length { return dashes[i%len(dashes)] }
