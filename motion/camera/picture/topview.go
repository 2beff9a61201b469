package picture

import (
	"cmp"
	"fmt"
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/pose"
)

// ItemKind is what an item of the view from above stands for.
type ItemKind int

// The items.
const (
	RailItem     ItemKind = iota // a line
	LensItem                     // an outline of front or barrel, or a point where neither is known
	FieldItem                    // the wedge that the picture holds
	SharpItem                    // the part of the wedge that is in focus
	ProductItem                  // its outline in frame 0
	SweptItem                    // a circle: all that it turns through
	AxisItem                     // a point: the table's axis
	LampItem                     // a point
	BeamItem                     // a lamp's cone to the product
	BoardItem                    // an outline on either side of a hole
	DarkItem                     // a line
	DistanceItem                 // a line with its length for a label
	FaceItem                     // a point: where the lens finds the product in frame 0
	HoleItem                     // a point: the middle of a hole
)

// Item is one thing seen from above, in mm: x right, y away as the camera
// looks, the table's axis at the origin.
type Item struct {
	Kind   ItemKind
	End    int    // 0 or 1 for what belongs to one end of the travel, else -1
	Name   string // of a lamp or a hole
	Label  string // "" where there is nothing to say
	Points []r2.Vec
	Radius float64 // above 0: a circle about the first point
	Closed bool    // the last point joins the first
}

// TopView is the scene from above, to scale.
type TopView struct {
	Items   []Item
	Box     r2.Box     // holds every item
	Lenses  []r3.Vec   // Lights the lens is at either end, one where it does not travel; Z NaN where it is not known
	Ends    [2]float64 // real s at which the camera is at either end of its travel
	Missing []string   // what could not be drawn, and the number it takes
}

// NewTopView draws the scene from above. It returns an error where Examine
// would, or where no distance is known.
func NewTopView(m Motion, s scene.Scene) (TopView, error) {
	e, err := newEye(m, s)
	if err != nil {
		return TopView{}, err
	}
	a := TopView{}
	if e.flat {
		return TopView{Missing: []string{"distance, or focal length and magnification"}}, nil
	}
	a.Ends = e.ends()
	a.rail(e)
	for k, sec := range a.Ends {
		if k == 1 && a.Ends[0] == a.Ends[1] {
			break
		}
		a.camera(e, k, e.at(sec))
	}
	a.product(e)
	for _, l := range s.Lamps {
		a.lamp(e, l)
	}
	a.openings(s)
	a.bound()
	return a, nil
}

// ends are when the slides are farthest back and farthest on, by the sum of
// how far they have gone along their first.
func (e *eye) ends() [2]float64 {
	var out [2]float64
	if len(e.slides) == 0 {
		return out
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	s := e.stretches()[0]
	s.look(func(sec float64, q setting) {
		way := r3.Dot(q.shift, e.along[0])
		if way < lo-settled {
			lo, out[0] = way, sec
		}
		if way > hi+settled {
			hi, out[1] = way, sec
		}
	})
	return out
}

// settled is how far, in mm, a carriage must go for it to be another place.
const settled = 1e-9

// told is a length for a label, to a tenth of a millimetre: nobody sets a stand
// finer. Short ones, such as what is sharp, are told to a hundredth.
func told(mm float64) string {
	grain := 10.0
	if math.Abs(mm) < 10 {
		grain = 100
	}
	return unit.Format(math.Round(mm*grain)/grain, unit.Length)
}

func flat(p r3.Vec) r2.Vec { return r2.Vec{X: p.X, Y: p.Y} }

func (a *TopView) line(kind ItemKind, end int, label string, points ...r2.Vec) {
	a.Items = append(a.Items, Item{Kind: kind, End: end, Label: label, Points: points})
}

func (a *TopView) area(kind ItemKind, end int, label string, points ...r2.Vec) {
	a.Items = append(a.Items, Item{Kind: kind, End: end, Label: label, Points: points, Closed: len(points) > 2})
}

// distance is a line between two places with its length.
func (a *TopView) distance(end int, p, q r2.Vec) {
	if d := r2.Norm(r2.Sub(p, q)); d > settled {
		a.line(DistanceItem, end, told(d), p, q)
	}
}

func (a *TopView) rail(e *eye) {
	p, q := flat(e.pose(e.at(a.Ends[0])).At), flat(e.pose(e.at(a.Ends[1])).At)
	if p == q {
		return
	}
	a.line(RailItem, -1, e.motion.Axis(e.slides[0]).Name, p, q)
	a.distance(-1, p, q)
}

// camera adds the lens at one end, what it sees and what is sharp.
func (a *TopView) camera(e *eye, end int, q setting) {
	p := e.pose(q)
	a.Lenses = append(a.Lenses, p.At)
	if !e.scene.Stand.Height.Given && !e.scene.Product.Height.Given {
		a.Lenses[len(a.Lenses)-1].Z = math.NaN()
	}
	tubes := tubesOf(e.scene.Lens)
	for _, t := range tubes {
		a.area(LensItem, end, "", t.body(p).Outline.Points...)
	}
	if len(tubes) == 0 {
		a.line(LensItem, end, "", flat(p.At))
	}
	a.distance(end, flat(p.At), r2.Vec{})
	if !e.scaled() || !e.wide.Given {
		if end == 0 {
			a.Missing = append(a.Missing, "field of view: magnification and picture size")
		}
		return
	}
	a.field(e, end, q, p)
}

func (a *TopView) field(e *eye, end int, q setting, p pose.Pose) {
	_, _, axis := p.See(r3.Vec{Z: p.At.Z})
	deep := math.Max(axis+e.scene.Product.Girth(), q.focus)
	side := e.wide.Value / 2 * e.pitch.Value / e.imageAt(q.focus)
	from := e.pupil(q)
	at := func(x, depth float64) r2.Vec { return flat(from.Point(x, 0, depth-e.ahead)) }
	width := e.fieldAt(q, q.focus-e.ahead).width
	a.area(FieldItem, end, told(width)+" wide in focus", flat(from.At), at(side, deep), at(-side, deep))
	n := e.scene.Lens.Aperture
	if !n.Given || !e.focal.Given || q.focus <= e.focal.Value {
		return
	}
	near, far := optics.Depth(e.focal.Value, e.stop(), e.pupils(), e.confusion(), q.focus)
	label := told(near) + " on"
	if !math.IsInf(far, 1) {
		label = told(far-near) + " sharp"
	}
	far = math.Min(far, math.Max(deep, near))
	a.area(SharpItem, end, label, at(-side, near), at(side, near), at(side, far), at(-side, far))
}

func (a *TopView) product(e *eye) {
	a.line(AxisItem, -1, "", r2.Vec{})
	table := e.at(0).table
	body, ok := e.scene.Product.Body(table)
	if !ok {
		a.Missing = append(a.Missing, "product: its shape and size")
		return
	}
	o := body.Outline
	if len(o.Points) == 1 {
		a.Items = append(a.Items, Item{Kind: ProductItem, End: -1, Points: o.Points, Radius: o.Round})
	} else {
		a.area(ProductItem, -1, "", o.Points...)
	}
	if face, ok := e.scene.Product.Face(table, e.pose(e.at(0)).At); ok {
		a.line(FaceItem, -1, "", flat(face))
	}
	reach := o.Reach()
	a.Items = append(a.Items, Item{Kind: SweptItem, End: -1, Points: []r2.Vec{{}}, Radius: reach,
		Label: "sweeps " + told(2*reach)})
}

// lamp adds a lamp, its cone and its distance, all seen from above: a lamp
// that hangs high stands nearer here than it is.
func (a *TopView) lamp(e *eye, l scene.Lamp) {
	name := cmp.Or(l.Name, "lamp")
	if !l.Distance.Given {
		a.Missing = append(a.Missing, name+": its distance")
		return
	}
	aim := e.scene.Product.Middle(e.at(0).table)
	at := r3.Add(aim, r3.Scale(l.Distance.Value, l.Toward()))
	label := ""
	switch {
	case l.Rise > 0:
		label = told(at.Z-aim.Z) + " above the product's middle"
	case l.Rise < 0:
		label = told(aim.Z-at.Z) + " below the product's middle"
	}
	a.Items = append(a.Items, Item{Kind: LampItem, End: -1, Name: name, Label: label, Points: []r2.Vec{flat(at)}})
	a.line(DistanceItem, -1, told(l.Distance.Value), flat(at), flat(aim))
	if l.Beam.Given && l.Beam.Value < 180 {
		way := r2.Sub(flat(aim), flat(at))
		half := math.Tan(l.Beam.Value / 2 * math.Pi / 180)
		side := r2.Vec{X: -way.Y * half, Y: way.X * half}
		a.area(BeamItem, -1, "", flat(at), r2.Add(flat(aim), side), r2.Sub(flat(aim), side))
	}
}

func (a *TopView) openings(s scene.Scene) {
	for _, h := range s.Holes {
		if h.Diameter.Given {
			a.board(h)
		}
	}
	if d := s.Dark; d != nil && d.Width.Given {
		half := r2.Vec{X: d.Width.Value / 2}
		a.line(DarkItem, -1, "dark, "+told(d.Width.Value), r2.Sub(flat(d.Centre), half), r2.Add(flat(d.Centre), half))
	}
}

// board adds the two sides of a board beside its hole.
func (a *TopView) board(h scene.Hole) {
	across, along := flat(pose.Direction(h.Heading-90, 0)), flat(pose.Direction(h.Heading, 0))
	inner := h.Diameter.Value / 2
	outer := math.Max(h.Board/2, inner*1.5)
	thick := r2.Scale(h.Thickness/2, along)
	for _, side := range []float64{-1, 1} {
		p := r2.Add(flat(h.Centre), r2.Scale(side*inner, across))
		q := r2.Add(flat(h.Centre), r2.Scale(side*outer, across))
		a.area(BoardItem, -1, "", r2.Sub(p, thick), r2.Sub(q, thick), r2.Add(q, thick), r2.Add(p, thick))
	}
	a.Items = append(a.Items, Item{Kind: HoleItem, End: -1, Name: h.Called(), Points: []r2.Vec{flat(h.Centre)},
		Label: fmt.Sprintf("%s wide, %s above the table's top", told(h.Diameter.Value), told(h.Centre.Z))})
	a.distance(-1, r2.Sub(flat(h.Centre), r2.Scale(inner, across)), r2.Add(flat(h.Centre), r2.Scale(inner, across)))
}

// bound finds the box about every item.
func (a *TopView) bound() {
	inf := math.Inf(1)
	a.Box = r2.Box{Min: r2.Vec{X: inf, Y: inf}, Max: r2.Vec{X: -inf, Y: -inf}}
	for _, i := range a.Items {
		for _, p := range i.Points {
			a.Box.Min.X, a.Box.Min.Y = math.Min(a.Box.Min.X, p.X-i.Radius), math.Min(a.Box.Min.Y, p.Y-i.Radius)
			a.Box.Max.X, a.Box.Max.Y = math.Max(a.Box.Max.X, p.X+i.Radius), math.Max(a.Box.Max.Y, p.Y+i.Radius)
		}
	}
}
