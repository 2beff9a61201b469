package preview

import (
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/scene"

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
	room    float64 // how bright what is not worked out from the lamps is painted, of the usual
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

func newStage(s scene.Scene) stage {
	p := s.Product
	o, _ := p.Outline()
	reach := o.Reach()*(1+tableShare) + tableMore
	st := stage{
		table: disc{radius: reach, thick: tableThick, rim: ring(reach, 0)}, solid: newSolid(p),
		low: p.Base, high: p.Base + p.Height.Or(0), room: 1,
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
	st.corners = st.surface()
	for i := 0; i < ringPieces; i += ringPieces / 12 {
		st.corners = append(st.corners, st.table.rim[i])
	}
	for _, c := range st.screens {
		for _, contour := range c.contours {
			st.fixed = append(st.fixed, along(contour, alongPoints)...)
		}
	}
	return st
}

// alongPoints is at how many points along an outline its blur is looked at: an
// outline wider than the picture passes through it between its corners.
const alongPoints = 200

// At how many places round the product, up its sides and in from the edge of its
// top its blur is looked at: a lens that is close sees none of its corners.
const (
	aroundPoints = 48
	upPoints     = 12
	inPoints     = 4
)

// surface is points all over the product.
func (st *stage) surface() []r3.Vec {
	var out []r3.Vec
	around := along(st.outline, aroundPoints)
	for i := 0; i < len(around); i += max(1, len(around)/aroundPoints) {
		foot := around[i]
		for k := range upPoints + 1 {
			out = append(out, r3.Vec{X: foot.X, Y: foot.Y, Z: st.low + (st.high-st.low)*float64(k)/upPoints})
		}
		opposite := around[(i+len(around)/2)%len(around)]
		for k := 1; k <= inPoints; k++ {
			q := r3.Add(foot, r3.Scale(float64(k)/(2*inPoints), r3.Sub(opposite, foot)))
			out = append(out, r3.Vec{X: q.X, Y: q.Y, Z: st.high})
		}
	}
	return out
}

// along is points along an outline.
func along(outline []r3.Vec, points int) []r3.Vec {
	var out []r3.Vec
	each := max(1, points/len(outline))
	for i, a := range outline {
		way := r3.Sub(outline[(i+1)%len(outline)], a)
		for k := range each {
			out = append(out, r3.Add(a, r3.Scale(float64(k)/float64(each), way)))
		}
	}
	return out
}
