package preview

import (
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/picture"
	"seamrail/plot/preview/internal/canvas"
)

// The paints, as codes of sRGB. A light room, so that shadows show and paper
// takes it well; the product is brass with pale panes.
var (
	wallHigh   = canvas.Coded(0x7d8a99)
	wallLow    = canvas.Coded(0xb4bec8)
	benchNear  = canvas.Coded(0xa39d94)
	benchFar   = canvas.Coded(0xc3c0ba)
	tableTop   = canvas.Coded(0xe9e5dd)
	tableSide  = canvas.Coded(0xb9b3a8)
	tableMark  = canvas.Coded(0x8c8377)
	post       = canvas.Coded(0x8e877c)
	shade      = canvas.Coded(0x2c2a2e)
	body       = canvas.Coded(0xb98a3e)
	bodyEdge   = canvas.Coded(0x6f5120)
	pane       = canvas.Coded(0xf4e3b8)
	ink        = canvas.Coded(0x3a2c18)
	boardPaint = canvas.Coded(0x4b5560)
	black      = canvas.Coded(0x08090b)
)

// stage is everything that stands before the lens.
type stage struct {
	table   disc
	lamps   []lamp
	solid   solid
	marks   [][]r3.Vec // on the table's top
	outline []r3.Vec   // from above, at the product's foot
	low     float64    // mm of the product's foot over the table
	high    float64    // and of its top
	screens []screen
	corners []r3.Vec // that turn with the table, by which smear and blur are judged
	fixed   []r3.Vec // and those that do not
	said    []string
}

func newStage(s picture.Scene) stage {
	p := s.Product
	o, _ := p.Outline()
	reach := o.Reach()*(1+tableShare) + tableMore
	st := stage{
		table: disc{radius: reach, thick: tableThick, rim: ring(reach, 0)}, solid: newSolid(p),
		low: p.Base, high: p.Base + p.Height.Or(0),
	}
	st.lamps, st.said = lamps(s)
	if s.Stand.Loose {
		st.said = append(st.said, "nobody knows which face the stand shows when the loop begins: drawn with its first in front")
	}
	st.table.sides = st.side(st.table)
	around, _ := patches(p)
	st.outline = lid(around, p.Base, 1, body).contours[0]
	st.marks = tableMarks(p.Symmetry(), reach)
	st.screens = screens(s)
	for i, q := range st.outline {
		if i%max(1, len(st.outline)/12) == 0 {
			st.corners = append(st.corners, q, r3.Vec{X: q.X, Y: q.Y, Z: st.high})
		}
	}
	for i := 0; i < ringPieces; i += ringPieces / 12 {
		st.corners = append(st.corners, st.table.rim[i])
	}
	for _, c := range st.screens {
		for _, contour := range c.contours {
			st.fixed = append(st.fixed, along(contour)...)
		}
	}
	return st
}

// alongPoints is at how many points along an outline its blur is looked at: an
// outline wider than the picture passes through it between its corners.
const alongPoints = 200

// along is points along an outline.
func along(outline []r3.Vec) []r3.Vec {
	var out []r3.Vec
	each := max(1, alongPoints/len(outline))
	for i, a := range outline {
		way := r3.Sub(outline[(i+1)%len(outline)], a)
		for k := range each {
			out = append(out, r3.Add(a, r3.Scale(float64(k)/float64(each), way)))
		}
	}
	return out
}
