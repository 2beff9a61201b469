package topview

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// What each thing is drawn in, as numbers of the hues.
const (
	firstHue   = 0 // the lens at one end of its travel
	secondHue  = 1 // and at the other
	productHue = 2
	lampHue    = 4
	boardHue   = 6
)

// darkInk is the dark, and what is written of it: next to black, as what it is.
var darkInk = color.NRGBA{0x08, 0x09, 0x0b, 255}

// hueOf is the hue of what belongs to an end.
func hueOf(end int) int {
	if end == 1 {
		return secondHue
	}
	return firstHue
}

// dashOf sets the ends apart without colour.
func dashOf(end int) []vg.Length {
	if end == 1 {
		return []vg.Length{6, 2.5}
	}
	return nil
}

// chain is the line of an axis.
var chain = []vg.Length{10, 2.5, 1.5, 2.5}

// tinted is ground seen through a glass of a hue, so strong from 0 to 1. The
// result is opaque: the back ends do not agree on what lies below a glass.
func tinted(ground color.NRGBA, hue int, strength float64) color.NRGBA {
	c := style.Hue(hue)
	mix := func(below, above uint8) uint8 {
		return uint8(math.Round(float64(below)*(1-strength) + float64(above)*strength))
	}
	return color.NRGBA{mix(ground.R, c.R), mix(ground.G, c.G), mix(ground.B, c.B), 255}
}

// How strong a tint is.
const (
	faint  = 0.09 // what the picture holds, a lamp's cone
	strong = 0.22 // what is sharp
)

// noteSize is the type on the drawing and in the list: read on a table at
// arm's length, it is that of a book.
const noteSize = 9.5

// noteLine is the pitch of lines so large.
const noteLine vg.Length = 12.5

var (
	noteStyle = style.Style{Size: noteSize, Color: style.Ink, Align: -1}
	boldStyle = style.Style{Size: noteSize, Bold: true, Color: style.Ink, Align: -1}
)
