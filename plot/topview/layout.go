package topview

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// edgeMM is the margin of a sheet: most printers reach no nearer to its edge.
const edgeMM = 10

// The layout, in points.
const (
	edge    vg.Length = edgeMM * vg.Millimeter
	gap     vg.Length = 12
	column  vg.Length = 214 // of the list beside the drawing, where the paper lies across
	apron   vg.Length = 24  // about the scene, for what is written beside it
	barRoom vg.Length = 40  // the scale bar

	insetApron vg.Length = 14 // the same, where room is short
	insetBar   vg.Length = 24
)

// layout is where everything goes on one sheet.
type layout struct {
	paper   Paper
	stock   string // what it is printed on
	apron   vg.Length
	scale   Scale
	head    style.Head
	area    box // of the drawing
	list    box // of what is to be set out
	columns [][]row
	notes   []string
	axis    vg.Point // where the table's axis lies
}

// sheet returns paper's size in points.
func (p Paper) sheet() (w, h vg.Length) {
	return vg.Length(p.Width) * vg.Millimeter, vg.Length(p.Height) * vg.Millimeter
}

// newLayout puts the scene on the paper, upright or across, at the largest
// scale that fits; asked, unless 0, is the scale to take.
func newLayout(d Data, p Paper, asked Scale) (layout, error) {
	size := extent(d.Above)
	ways := []layout{laid(d, p), laid(d, p.across())}
	if d.Inset {
		ways[1] = ways[0]
	}
	if size.Max.X-size.Min.X > size.Max.Y-size.Min.Y {
		ways[0], ways[1] = ways[1], ways[0]
	}
	for _, s := range scales() {
		if asked != 0 && s != asked {
			continue
		}
		for _, l := range ways {
			if l.fits(size, s) {
				l.place(size, s)
				return l, nil
			}
		}
	}
	return layout{}, noRoom(d, p, asked)
}

// noRoomError says which scale would fit, if any.
type noRoomError struct {
	paper        Paper
	asked, would Scale // 0 is none
}

func (e *noRoomError) Error() string {
	if e.would == 0 {
		return e.paper.Name + " has no room for all there is to set out; it takes a larger sheet, or fewer lamps and holes"
	}
	return fmt.Sprintf("the scene does not fit on %s at %s; it does at %s, or as a PDF on several sheets", e.paper.Name, e.asked, e.would)
}

// noRoom finds the scale that would fit.
func noRoom(d Data, p Paper, asked Scale) error {
	e := &noRoomError{paper: p, asked: asked}
	if asked != 0 {
		if l, err := newLayout(d, p, 0); err == nil {
			e.would = l.scale
		}
	}
	return e
}

// laid divides the paper; the list goes below the drawing, or beside it where
// the paper lies across.
func laid(d Data, p Paper) layout {
	w, h := p.sheet()
	l := layout{paper: p, stock: p.way(), apron: apron, head: style.NewHead(w-2*(edge-style.Edge), d.Title, d.Lines...)}
	l.notes = style.Wrap(cautions+" "+d.Foot, w-2*edge, noteStyle)
	bar := barRoom
	if d.Inset {
		l.stock, l.head, l.notes, l.apron, bar = "", style.NewHead(w, ""), nil, insetApron, insetBar
	}
	foot := edge + noteLine*vg.Length(len(l.notes)) + bar
	top := h - (edge - style.Edge) - l.head.Height() - gap/2
	l.area = box{edge, foot + gap, w - edge, top}
	if p.Width > p.Height && !d.Inset {
		l.columns = [][]row{d.rows(column)}
		l.list = box{w - edge - column, foot + gap, w - edge, top}
		l.area.x1 = l.list.x0 - gap
		return l
	}
	if d.Inset {
		l.area.y1 = h - edge
		return l
	}
	l.columns = columns(d.rows((w - 2*edge - gap) / 2))
	l.list = box{edge, foot + gap, w - edge, foot + gap + tallest(l.columns)}
	l.area.y0 = l.list.y1 + gap
	return l
}

// fits tells whether a scene so large goes into the drawing, and its list
// beside it.
func (l layout) fits(size r2.Box, s Scale) bool {
	room := l.area.grown(-l.apron)
	return s.Length(size.Max.X-size.Min.X) <= room.x1-room.x0 && s.Length(size.Max.Y-size.Min.Y) <= room.y1-room.y0 &&
		tallest(l.columns) <= l.list.y1-l.list.y0+1e-6 // points: rounding of the list's own height
}

// place sets the scale, and the table's axis so that the scene is in the middle.
func (l *layout) place(size r2.Box, s Scale) {
	l.scale = s
	m := l.area.middle()
	l.axis = vg.Point{X: m.X - s.Length((size.Min.X+size.Max.X)/2), Y: m.Y - s.Length((size.Min.Y+size.Max.Y)/2)}
}

// at is where a place of the scene, in mm, lies on the sheet.
func (l layout) at(v r2.Vec) vg.Point {
	return vg.Point{X: l.axis.X + l.scale.Length(v.X), Y: l.axis.Y + l.scale.Length(v.Y)}
}

func (l layout) all(points []r2.Vec) []vg.Point {
	out := make([]vg.Point, len(points))
	for i, p := range points {
		out[i] = l.at(p)
	}
	return out
}

// of calls do for each item of a kind.
func (d Data) of(kind picture.ItemKind, do func(picture.Item)) {
	for _, i := range d.Above.Items {
		if i.Kind == kind {
			do(i)
		}
	}
}
