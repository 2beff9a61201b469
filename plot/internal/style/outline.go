package style

import (
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// outlineText fills the outlines of txt at (x, y). Letters without an outline
// are left blank.
func (s *Sheet) outlineText(f font.Face, x, y vg.Length, txt string) {
	const em = 1000 // design grid to read outlines on: finer than any printer
	var buf sfnt.Buffer
	ppem := fixed.I(em)
	k := f.Font.Size / em / 64
	for _, r := range txt {
		glyph, err := f.Face.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		segments, err := f.Face.LoadGlyph(&buf, glyph, ppem, nil)
		if err != nil {
			continue
		}
		if path := outline(segments, x, y, k); len(path) > 0 {
			s.Canvas.Fill(path)
		}
		if advance, err := f.Face.GlyphAdvance(&buf, glyph, ppem, xfont.HintingNone); err == nil {
			x += vg.Length(advance) * k
		}
	}
}

// outline turns a glyph's segments, y downwards, into a path at (x, y).
func outline(segments sfnt.Segments, x, y, k vg.Length) vg.Path {
	var path vg.Path
	at := func(p fixed.Point26_6) vg.Point {
		return vg.Point{X: x + vg.Length(p.X)*k, Y: y - vg.Length(p.Y)*k}
	}
	for _, seg := range segments {
		switch seg.Op {
		case sfnt.SegmentOpMoveTo:
			if len(path) > 0 {
				path.Close()
			}
			path.Move(at(seg.Args[0]))
		case sfnt.SegmentOpLineTo:
			path.Line(at(seg.Args[0]))
		case sfnt.SegmentOpQuadTo:
			path.QuadTo(at(seg.Args[0]), at(seg.Args[1]))
		case sfnt.SegmentOpCubeTo:
			path.CubeTo(at(seg.Args[0]), at(seg.Args[1]), at(seg.Args[2]))
		}
	}
	if len(path) > 0 {
		path.Close()
	}
	return path
}
