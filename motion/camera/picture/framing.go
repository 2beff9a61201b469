package picture

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/pose"
)

// framing tells in how many of the frames none of the product is in the picture,
// Lights there are any. A product that comes and goes may be meant; one that never
// comes is not.
func (e *eye) framing(v *Verdict, rows []Row) {
	if e.flat || len(rows) == 0 {
		return
	}
	without, first := 0, 0
	for i := len(rows) - 1; i >= 0; i-- {
		if e.misses(e.rowSetting(rows[i])) {
			without, first = without+1, i
		}
	}
	share := 100 * float64(without) / float64(len(rows))
	switch {
	case without == 0:
		return
	case without == len(rows):
		v.Level = Poor
		v.Text += "; the product is never in it"
		e.tryAim(v)
	default:
		v.Level = Fair
		v.Text += fmt.Sprintf("; none of the product is in it in %s %% of the frames, first in frame %d", short(share), rows[first].Frame)
		v.advise("where that is not meant: less travel, a wider view, or a pan that follows")
	}
	v.figure("frames without the product", share, "%")
	v.gauge = share
	v.When = e.moment(rows[first].Seconds)
}

// tryAim adds a camera that looks at the product's middle in frame 0.
func (e *eye) tryAim(v *Verdict) {
	q := e.at(0)
	way := r3.Sub(e.scene.Product.Middle(q.table), e.pose(q).At)
	pan := math.Round(math.Atan2(-way.X, way.Y)*180/math.Pi - q.pan)
	tilt := math.Round(math.Atan2(way.Z, math.Hypot(way.X, way.Y))*180/math.Pi - q.tilt)
	words := "the camera panned " + aim(pan, "left", "right") + " and tilted " + aim(tilt, "up", "down")
	turn := func(s *scene.Scene) { s.Stand.Pan, s.Stand.Tilt = scene.Is(pan), scene.Is(tilt) }
	v.try(ofPlace, turn, "%s", words)
	face, ok := e.scene.Product.Face(q.table, e.pose(q).At)
	if _, _, u := pose.NewPose(e.pose(q).At, pan+q.pan, tilt+q.tilt).See(face); ok && e.focusable() && u > e.focal.Value {
		u = math.Round(u)
		v.try(ofPlace|ofFocus, func(s *scene.Scene) { turn(s); refocused(s, u) }, "%s, focused at %s", words, unit.Format(u, unit.Length))
	}
}

// aim says an angle with its side.
func aim(angle float64, over, under string) string {
	if angle < 0 {
		over = under
	}
	return round(math.Abs(angle), 3) + " deg " + over
}

// misses tells whether all of the product lies outside the picture, past one of
// its edges. A product that reaches past the lens is taken to be seen.
func (e *eye) misses(q setting) bool {
	v := e.view(q)
	box, ok := e.extent(q, v)
	if !ok {
		return false
	}
	past := func(lo, hi float64, size scene.Number) bool {
		return size.Given && (lo > size.Value/2 || hi < -size.Value/2)
	}
	return past(box.left, box.right, e.wide) || past(box.low, box.high, e.high)
}

// extent is how far a product that turns reaches in the picture, in px right of
// and above its middle; false where it is behind the lens, or its size unknown.
func (e *eye) extent(q setting, v view) (box struct{ left, right, low, high float64 }, ok bool) {
	p := e.scene.Product
	girth := p.Girth()
	if girth == 0 {
		return box, false
	}
	box.left, box.low = math.Inf(1), math.Inf(1)
	box.right, box.high = math.Inf(-1), math.Inf(-1)
	half := r3.Vec{Z: p.Height.Or(0) / 2}
	for _, x := range []float64{-girth, girth} {
		for _, y := range []float64{-girth, girth} {
			for _, end := range []float64{-1, 1} {
				at := r3.Add(p.Middle(q.table), r3.Add(r3.Vec{X: x, Y: y}, r3.Scale(end, half)))
				right, above, depth := v.pose.See(at)
				if depth <= 0 {
					return box, false
				}
				box.left, box.right = math.Min(box.left, right*v.scale), math.Max(box.right, right*v.scale)
				box.low, box.high = math.Min(box.low, above*v.scale), math.Max(box.high, above*v.scale)
			}
		}
	}
	return box, true
}
