package rushes

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/cmd/internal/job"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
)

const (
	// measured is at how many places of an axis's travel the picture is foretold: between two the
	// least radius that a macro lens goes round bends by less than a millionth of the travel.
	measured = 513
	// leastMoves is by how many px of the delivered picture an axis must move it for its measure to
	// be told: what does less goes by its own.
	leastMoves = 2.0
	// leastSpeed is the share of its mean speed at which the picture must move all along the travel:
	// where it stands or turns back, no one measure follows it.
	leastSpeed = 0.05
)

// measure is how the picture goes along an axis: where it is at each place of it, in the unit of the
// axis, with a slope of 1 at frame 0.
type measure struct{ at, seen []float64 }

// of is where the picture is with the axis at a place. Beyond the travel it goes on as at its end.
func (m measure) of(at float64) float64 {
	n := len(m.at)
	k := min(max(sort.SearchFloat64s(m.at, at)-1, 0), n-2)
	return m.seen[k] + (at-m.at[k])*(m.seen[k+1]-m.seen[k])/(m.at[k+1]-m.at[k])
}

// sightline foretells the picture of a job from where its axes are.
type sightline struct {
	viewer picture.Viewer
	start  []float64 // where each axis is in frame 0
	marks  []r3.Vec  // in the plane of what is seen of the product in frame 0
	was    [][2]float64
	wide   float64
}

// sightlineOf is that of a job; false where the shot does not tell enough of lens and scene.
func sightlineOf(j *job.Job) (s sightline, ok bool) {
	seen, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return s, false
	}
	m := lensview.Motion(j.Trajectory)
	v, err := picture.NewViewer(m, seen)
	if err != nil || len(v.Missing()) > 0 {
		return s, false
	}
	s.viewer = v
	for i := range m.AxisCount() {
		s.start = append(s.start, m.State(i, 0).Pos)
	}
	wide, high := v.Size()
	s.wide = wide.Value
	now := v.At(0)
	at, ok := seen.Product.Face(now.Table, now.Pose.At)
	if !ok {
		at = seen.Product.Middle(now.Table)
	}
	_, _, depth := now.Pose.See(at)
	if !(depth > 0) {
		return s, false
	}
	// Corners of a rectangle of half the picture: how a picture is moved as a whole is what these
	// agree on.
	for _, corner := range [][2]float64{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
		s.marks = append(s.marks, now.Pose.Point(corner[0]*wide.Value/4/now.Scale, corner[1]*high.Value/4/now.Scale, depth))
	}
	s.was, ok = s.marked(now)
	return s, ok
}

// marked is where the marks are in the picture, px to the right and down from its middle.
func (s sightline) marked(at picture.Sight) (out [][2]float64, ok bool) {
	for _, m := range s.marks {
		x, y, depth := at.Pose.See(m)
		if !(depth > 0) {
			return nil, false
		}
		out = append(out, [2]float64{x * at.Scale, -y * at.Scale})
	}
	return out, true
}

// moved is how the picture lies beside frame 0 with one axis elsewhere: px to the right and down,
// turned and grown as they move a mark: the similarity of least squares, which for points about their
// own middle is the sum of conj(p) q over that of |p|^2 (from memory: one complex unknown).
func (s sightline) moved(axis int, to float64) (way [4]float64, ok bool) {
	now, ok := s.marked(s.viewer.Posed(func(i int) float64 {
		if i == axis {
			return to
		}
		return s.start[i]
	}))
	if !ok {
		return way, false
	}
	var a, b, squares float64 // the marks of frame 0 lie about the middle of the picture
	for i, p := range s.was {
		q := now[i]
		way[0], way[1] = way[0]+q[0]/float64(len(now)), way[1]+q[1]/float64(len(now))
		a, b = a+p[0]*q[0]+p[1]*q[1], b+p[0]*q[1]-p[1]*q[0]
		squares += p[0]*p[0] + p[1]*p[1]
	}
	arm := math.Sqrt(squares / float64(len(now)))
	way[2], way[3] = arm*math.Atan2(b, a), arm*math.Log(math.Hypot(a, b)/squares)
	return way, true
}

// along is the measure of an axis that goes from lo to hi: how far the picture has come on its way
// between the two, of all its ways that in which it goes most. It is false where the axis hardly
// moves the picture as a whole, as a table that turns the product, or has it turn back.
func (s sightline) along(axis int, lo, hi float64) (m measure, ok bool) {
	if !(hi > lo) {
		return m, false
	}
	first, ok1 := s.moved(axis, lo)
	last, ok2 := s.moved(axis, hi)
	size, way := 0.0, [4]float64{}
	for k := range way {
		way[k] = last[k] - first[k]
		size = math.Hypot(size, way[k])
	}
	if !ok1 || !ok2 || size < leastMoves {
		return m, false
	}
	goes := func(at float64) (sum float64) {
		w, _ := s.moved(axis, at)
		for k := range w {
			sum += w[k] * way[k] / size
		}
		return sum
	}
	step := (hi - lo) / (measured - 1)
	start := s.start[axis]
	slope := (goes(start+step) - goes(start-step)) / (2 * step)
	zero := goes(start)
	for k := range measured {
		at := lo + float64(k)*step
		m.at, m.seen = append(m.at, at), append(m.seen, start+(goes(at)-zero)/slope)
		if k > 0 && !(m.seen[k]-m.seen[k-1] > leastSpeed*step*size/(math.Abs(slope)*(hi-lo))) {
			return m, false
		}
	}
	return m, true
}

// travel is from where to where an axis goes in a take.
func travel(at func(seconds float64) float64, from, to float64) (lo, hi float64) {
	const looks = 4096 // of a take of minutes: a turn between two is missed by a millionth of its travel
	lo, hi = math.Inf(1), math.Inf(-1)
	for k := range looks + 1 {
		x := at(from + (to-from)*float64(k)/looks)
		lo, hi = min(lo, x), max(hi, x)
	}
	return lo, hi
}

// asSeen is where the picture is along an axis, by its measure: a lens that goes in makes the product
// grow the faster the nearer it is. It is nil where there is none.
func (s sightline) asSeen(j *job.Job, axis int, at func(seconds float64) float64) func(seconds float64) float64 {
	t := j.Trajectory
	up, out := t.RampFrames()
	rate := t.Clock().Capture.Float()
	lo, hi := travel(at, -float64(up)/rate, t.Period().Float()*float64(t.Rounds())+float64(out)/rate)
	m, ok := s.along(axis, lo, hi)
	if !ok {
		return nil
	}
	return func(seconds float64) float64 { return m.of(at(seconds)) }
}
