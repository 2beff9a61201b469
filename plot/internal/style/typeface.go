package style

import (
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// The two cuts of the one typeface that figures are set in, read when a figure first
// needs them. The whole family of twelve is never imported, so it is not in the program.
var (
	regular = sync.OnceValue(func() *opentype.Font { return cut(liberationsansregular.TTF) })
	bold    = sync.OnceValue(func() *opentype.Font { return cut(liberationsansbold.TTF) })
)

func cut(data []byte) *opentype.Font {
	f, err := opentype.Parse(data)
	if err != nil {
		panic("look: the typeface: " + err.Error()) // it is part of the program
	}
	return f
}

// Face is the typeface of all figures at a size.
func Face(size vg.Length, heavy bool) font.Face {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
	if !heavy {
		return font.Face{Font: f, Face: regular()}
	}
	f.Weight = xfont.WeightBold
	return font.Face{Font: f, Face: bold()}
}
