package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/scene"
)

// edgeTouch, in px, is how near to the edge of the picture an outline touches it: below
// half a pixel no pixel need change.
const edgeTouch = 0.5

const inFrameCheck = "in frame"

// framed is how the product stands in the picture over the loop.
type framed struct {
	reaches []reach // of the rows in which it has an outline
	rows    []Row   // these rows
	lost    int     // rows in which a part of it is not before the lens
}

func (e *eye) framed(rows []Row) framed {
	var out framed
	for _, r := range rows {
		at, ok := e.reachOf(e.rowSetting(r))
		if !ok {
			out.lost++
			continue
		}
		out.reaches, out.rows = append(out.reaches, at), append(out.rows, r)
	}
	return out
}

// inFrameVerdict tells whether the product stays in the picture. A close-up that the
// product fills throughout is one; what is seen as a fault is what comes and goes.
func (e *eye) inFrameVerdict(rows []Row) Verdict {
	missing := slices.Clone(e.missing)
	if e.flat {
		missing = append(missing, "distance")
	}
	if !e.wide.Given {
		missing = append(missing, "pixels wide")
	}
	if _, ok := e.scene.Product.Outline(); !ok {
		missing = append(missing, "shape and size of the product")
	}
	if len(missing) > 0 || len(rows) == 0 {
		return unknown(inFrameCheck, "whether the product stays in the picture", missing...)
	}
	f := e.framed(rows)
	v := Verdict{Check: inFrameCheck, Level: Good}
	if len(f.rows) == 0 {
		v.Text = "the product reaches past the lens throughout: no outline of it can be in the picture"
		return v
	}
	if !e.leaves(&v, f) {
		e.crosses(&v, f)
	}
	var more []string
	if !e.high.Given {
		more = append(more, "pixels high: what is above and below is left out")
	}
	if !e.scene.Product.Height.Given {
		more = append(more, "height of the product: what is above and below is left out")
	}
	v.partly(more)
	return v
}

// leaves tells of frames with nothing of the product in them, where there are any.
func (e *eye) leaves(v *Verdict, f framed) bool {
	away := func(i int) float64 { return e.gone(f.reaches[i]) }
	out := f.stretch(func(i int) bool { return away(i) > 0 })
	if out.count == 0 {
		return false
	}
	farthest := 0
	for i := range f.rows {
		if away(i) > away(farthest) {
			farthest = i
		}
	}
	share := 100 * float64(out.count) / float64(len(f.rows)+f.lost)
	v.figure("frames without the product", share, "%")
	v.figure("past the edge", away(farthest), "px")
	v.When, v.gauge = e.moment(f.rows[out.first].Seconds), 1e3+share
	v.Level = Poor
	if out.count == len(f.rows) {
		v.Text = "the product is never in the picture"
		e.tryAim(v)
		return true
	}
	v.Text = fmt.Sprintf("the product is out of the picture %s, %s %% of the frames, past its edge by %s px at most", out.words(f), short(share), short(away(farthest)))
	if e.mayLeave(v) {
		return true
	}
	e.tryKept(v, f)
	v.advise("a pan that follows")
	return true
}

// mayLeave takes what comes and goes as it is meant, where the shot says so.
func (e *eye) mayLeave(v *Verdict) bool {
	if !e.scene.MayLeave {
		return false
	}
	v.Level = Good
	v.Text += ", as the shot wants it"
	return true
}

// crosses tells of what passes an edge of the picture, and else how it stands in it.
func (e *eye) crosses(v *Verdict, f framed) {
	worst, by := -1, 0.0
	for side := range sideCount {
		low, high := f.span(side)
		if high > edgeTouch && low <= edgeTouch && high > by {
			worst, by = side, high
		}
	}
	if worst < 0 {
		e.stays(v, f)
		return
	}
	out := f.stretch(func(i int) bool { return f.reaches[i][worst] > edgeTouch })
	size := e.wide.Value
	if worst >= lowerSide {
		size = e.high.Value
	}
	share := 100 * by / size
	v.Level = Fair
	v.When, v.gauge = e.moment(f.rows[f.at(worst)].Seconds), share
	v.figure("cut off", by, "px")
	v.figure("of the frame", share, "%")
	v.Text = fmt.Sprintf("the %s edge of the picture cuts the product off %s, by %s %% of the frame at most, and it is whole there otherwise", sideNames[worst], out.words(f), short(share))
	if !e.mayLeave(v) {
		e.tryKept(v, f)
		v.advise("in-frame = \"free\" in [picture], where it is meant")
	}
}

// stays tells how the product stands in the picture, of which it passes no edge.
func (e *eye) stays(v *Verdict, f framed) {
	var beyond []string
	nearest, room := -1, math.Inf(-1)
	for side := range sideCount {
		low, high := f.span(side)
		if low > edgeTouch {
			beyond = append(beyond, sideNames[side])
		} else if high > room {
			nearest, room = side, high
		}
	}
	switch {
	case len(beyond) > 0:
		v.Text = fmt.Sprintf("the product reaches past the picture throughout, on the %s, as in a close-up", strings.Join(beyond, ", ")+sides(len(beyond)))
	case room >= -edgeTouch:
		v.Level = Fair
		v.When = e.moment(f.rows[f.at(nearest)].Seconds)
		v.Text = fmt.Sprintf("the product touches the %s edge of the picture at frame %d: nothing is to spare", sideNames[nearest], v.When.Frame)
		if !e.mayLeave(v) {
			e.tryKept(v, f)
		}
	default:
		v.figure("room", -room, "px")
		v.Text = fmt.Sprintf("all of the product is in the picture throughout, with %s px to spare on the %s side", short(-room), sideNames[nearest])
	}
}

func sides(n int) string {
	if n == 1 {
		return " side"
	}
	return " sides"
}

// span is the least and the greatest that the product reaches past a side. What is not
// known is never past it.
func (f framed) span(side int) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, r := range f.reaches {
		if !math.IsNaN(r[side]) {
			low, high = math.Min(low, r[side]), math.Max(high, r[side])
		}
	}
	return math.Min(low, high), high
}

// at is the row in which the product reaches farthest past a side.
func (f framed) at(side int) int {
	best := 0
	for i, r := range f.reaches {
		if r[side] > f.reaches[best][side] {
			best = i
		}
	}
	return best
}

// stretched is in which rows something is so: first, last, how many, and how often it ends
// in between.
type stretched struct{ first, last, count, breaks int }

func (f framed) stretch(so func(i int) bool) stretched {
	out := stretched{first: -1}
	for i := range f.rows {
		if !so(i) {
			continue
		}
		if out.first < 0 {
			out.first = i
		} else if i != out.last+1 {
			out.breaks++
		}
		out.last = i
		out.count++
	}
	return out
}

// words tell the frames from the first to the last, and whether there are others between.
func (s stretched) words(f framed) string {
	from, to := f.rows[s.first].Frame, f.rows[s.last].Frame
	switch {
	case from == to:
		return fmt.Sprintf("in frame %d", from)
	case s.breaks > 0:
		return fmt.Sprintf("between frames %d and %d, %d times", from, to, s.breaks+1)
	}
	return fmt.Sprintf("from frame %d to %d", from, to)
}

// roomLeft is by how much larger than it need be a picture is made that is to hold the
// product: a hundredth on each side.
const roomLeft = 1.02

// tryKept adds what may keep the product in the picture: another aim where all of its
// outlines would fit, else a camera farther back; and less travel of what moves it.
func (e *eye) tryKept(v *Verdict, f framed) {
	var most reach
	for side := range most {
		_, most[side] = f.span(side)
	}
	view := e.view(e.rowSetting(f.rows[0]))
	wide, high := e.wide.Value+most[leftSide]+most[rightSide], e.high.Value+most[lowerSide]+most[upperSide]
	if math.IsInf(high, 0) {
		high = 0 // nothing is known of it
	}
	pan, tilt := 0.0, 0.0
	if wide*roomLeft <= e.wide.Value {
		pan = -math.Round(math.Atan((most[rightSide]-most[leftSide])/2/view.scale) * 180 / math.Pi)
	}
	if high != 0 && high*roomLeft <= e.high.Value {
		tilt = math.Round(math.Atan((most[upperSide]-most[lowerSide])/2/view.scale) * 180 / math.Pi)
	}
	if pan != 0 || tilt != 0 {
		e.tryTurned(v, pan, tilt)
	}
	times := math.Max(1+2*math.Max(most[leftSide], most[rightSide])/e.wide.Value, 1)
	if high != 0 {
		times = math.Max(times, 1+2*math.Max(most[lowerSide], most[upperSide])/e.high.Value)
	}
	e.tryFarther(v, times*roomLeft)
	for _, i := range e.carrying() {
		for _, share := range []float64{0.75, 0.5} {
			e.tryLess(v, i, share)
		}
	}
}

// carrying are the axes that carry the camera or turn it.
func (e *eye) carrying() []int {
	out := slices.Clone(e.slides)
	for _, i := range []int{e.pan, e.tilt} {
		if i >= 0 {
			out = append(out, i)
		}
	}
	return out
}

// tryTurned adds a camera that is turned by so many degrees, to the left and up.
func (e *eye) tryTurned(v *Verdict, pan, tilt float64) {
	to := [2]float64{e.scene.Stand.Pan.Or(0) + pan, e.scene.Stand.Tilt.Or(0) + tilt}
	m := v.try(ofPlace, func(s *scene.Scene) { s.Stand.Pan, s.Stand.Tilt = scene.Is(to[0]), scene.Is(to[1]) },
		"the camera panned %s and tilted %s", aim(to[0], "left", "right"), aim(to[1], "up", "down"))
	m.as("scene.pan", typed(to[0], "deg")).as("scene.tilt", typed(to[1], "deg"))
}
