package gltf_test

import (
	"bytes"
	"io"
	"math"
	"testing"

	"seamrail/motion/scene"

	lib "github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/num/quat"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/export/handoff/gltf"
	"seamrail/export/header"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/camera/pose"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
)

// scene is a lantern of six panes filmed from before it, a little from above and
// from the right, in full high definition.
func lanternScene() scene.Scene {
	var s scene.Scene
	s.Camera.SensorWidth, s.Camera.SensorHeight = scene.Is(36), scene.Is(20.25)
	s.Camera.PixelsWide, s.Camera.PixelsHigh = scene.Is(1920), scene.Is(1080)
	s.Lens.FocalLength, s.Lens.Focus = scene.Is(50), scene.Is(380)
	s.Stand.Distance, s.Stand.Aside, s.Stand.Height = scene.Is(454), scene.Is(40), scene.Is(150)
	s.Stand.Pan, s.Stand.Tilt = scene.Is(5), scene.Is(-12)
	s.Stand.Slides = []scene.Slide{{Axis: "rail"}}
	s.Stand.TableAxis = "table"
	s.Product = scene.Product{Shape: scene.Prism, Sides: 6, Radius: scene.Is(45), Height: scene.Is(120)}
	return s
}

func written(t *testing.T, tr *trajectory.Trajectory, s scene.Scene) []byte {
	return []byte(sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error { return gltf.Write(w, tr, header.Of(tr.Plan(), v), s) }))
}

// movie is an animation read back.
type movie struct {
	doc   *lib.Document
	times []float32
	place [][3]float32
	lens  [][4]float32
	table [][4]float32
}

func read(t *testing.T, data []byte) movie {
	t.Helper()
	m := movie{doc: new(lib.Document)}
	require.NoError(t, lib.NewDecoder(bytes.NewReader(data)).Decode(m.doc))
	get := func(i int) any {
		out, err := modeler.ReadAccessor(m.doc, m.doc.Accessors[i], nil)
		require.NoError(t, err)
		return out
	}
	a := m.doc.Animations[0]
	for _, c := range a.Channels {
		s := a.Samplers[c.Sampler]
		m.times = get(s.Input).([]float32)
		name := m.doc.Nodes[*c.Target.Node].Name + " " + map[lib.TRSProperty]string{lib.TRSTranslation: "place", lib.TRSRotation: "turn"}[c.Target.Path]
		switch name {
		case "camera place":
			m.place = get(s.Output).([][3]float32)
		case "camera turn":
			m.lens = get(s.Output).([][4]float32)
		case "turntable turn":
			m.table = get(s.Output).([][4]float32)
		default:
			t.Fatal("what is " + name)
		}
	}
	return m
}

func number(q [4]float32) quat.Number {
	return quat.Number{Imag: float64(q[0]), Jmag: float64(q[1]), Kmag: float64(q[2]), Real: float64(q[3])}
}

// rotated turns a vector by q v q*, the textbook's way.
func rotated(q quat.Number, v r3.Vec) r3.Vec {
	p := quat.Mul(quat.Mul(q, quat.Number{Imag: v.X, Jmag: v.Y, Kmag: v.Z}), quat.Conj(q))
	return r3.Vec{X: p.Imag, Y: p.Jmag, Z: p.Kmag}
}

// floatNoise is what a float of 24 bits rounds of a number up to 1, with as much
// for each of three products.
const floatNoise = 4.0 / (1 << 24)

func near(t *testing.T, want, got r3.Vec, text string) {
	t.Helper()
	require.InDelta(t, 0, r3.Norm(r3.Sub(want, got)), floatNoise, "%s: want %v, got %v", text, want, got)
}

// A key a frame, on the frame's time, and one at the loop's end.
func TestTimes(t *testing.T) {
	tr := sample.Through(t)
	m := read(t, written(t, tr, lanternScene()))
	require.Len(t, m.times, int(tr.Captured())+1)
	for k, sec := range m.times {
		require.Equal(t, float32(float64(k)/24), sec)
	}
	a := m.doc.Animations[0]
	input := m.doc.Accessors[a.Samplers[0].Input]
	require.Equal(t, []float64{0}, input.Min)
	require.Equal(t, []float64{1}, input.Max)
}

// Slow motion: keys come when the picture shows them, not when they were filmed.
func TestTimesAreOnScreen(t *testing.T) {
	p := *sample.Through(t).Plan()
	c, err := clock.New(exact.New(120000, 1001), exact.New(24000, 1001), exact.Rat{})
	require.NoError(t, err)
	p.Loop, err = c.LoopFrames(24)
	require.NoError(t, err)
	for k, sec := range read(t, written(t, trajectory.New(&p), lanternScene())).times {
		require.Equal(t, float32(float64(k)*1001/24000), sec)
	}
}

// Whichever way the camera looks, straight along an axis too.
func TestEveryWayToLook(t *testing.T) {
	tr := sample.Through(t)
	for _, pan := range []float64{0, 35, 90, 180, -90, -120} {
		for _, tilt := range []float64{0, 45, 89, -60} {
			s := lanternScene()
			s.Stand.Pan, s.Stand.Tilt = scene.Is(pan), scene.Is(tilt)
			want := pose.Direction(pan, tilt)
			got := rotated(number(read(t, written(t, tr, s)).lens[0]), r3.Vec{Z: -1})
			near(t, r3.Vec{X: want.X, Y: want.Z, Z: -want.Y}, got, "forward")
		}
	}
}

// A camera that pans all the way round: of the two quaternions of each turn the one
// nearer to the last, for readers that join numbers and not turns.
func TestQuaternionsStayOnOneSide(t *testing.T) {
	s, move := lanternScene(), sample.Table(t)
	s.Stand.TableAxis, s.Stand.PanAxis = "", "table"
	move = sample.Turning(move, exact.Int(1))
	m := read(t, written(t, sample.Make(t, 24, sample.Bench(rig.InverseTime), move), s))
	for k := 1; k < len(m.lens); k++ {
		a, b := m.lens[k-1], m.lens[k]
		require.Positive(t, a[0]*b[0]+a[1]*b[1]+a[2]*b[2]+a[3]*b[3], "key %d", k)
	}
}

// glTF's camera looks along -Z with +Y up; x is to the right, and what is z in
// our scene is its Y.
func TestTheLensIsWhereItIs(t *testing.T) {
	tr := sample.Through(t)
	m := read(t, written(t, tr, lanternScene()))
	shot, err := matchmove.New(tr, lanternScene())
	require.NoError(t, err)
	up := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: v.Z, Z: -v.Y} }
	for k := range m.times {
		pose := shot.At(exact.Int(int64(k))).Pose
		q := number(m.lens[k])
		near(t, up(pose.Forward), rotated(q, r3.Vec{Z: -1}), "forward")
		near(t, up(pose.Up), rotated(q, r3.Vec{Y: 1}), "up")
		near(t, up(pose.Right), rotated(q, r3.Vec{X: 1}), "right")
		at := r3.Vec{X: float64(m.place[k][0]), Y: float64(m.place[k][1]), Z: float64(m.place[k][2])}
		near(t, r3.Scale(0.001, up(pose.At)), at, "place")
	}
	// By hand: 454 mm before the axis, 40 to the right, 150 up; the rail starts at
	// where the scene was measured and pushes in.
	first := r3.Scale(1000, r3.Vec{X: float64(m.place[0][0]), Y: float64(m.place[0][1]), Z: float64(m.place[0][2])})
	require.InDelta(t, 40, first.X, 1e-3)
	require.InDelta(t, 150, first.Y, 1e-3)
	require.InDelta(t, 454-tr.Frame(0).States[0].Pos, first.Z, 1e-3)
}

// The table of the sample turns a seventh.
func TestTheTableTurns(t *testing.T) {
	tr := sample.Through(t)
	m := read(t, written(t, tr, lanternScene()))
	want := 360.0 / 7 * math.Pi / 180
	begin, end := rotated(number(m.table[0]), r3.Vec{X: 1}), rotated(number(m.table[len(m.table)-1]), r3.Vec{X: 1})
	require.InDelta(t, want, math.Atan2(r3.Cross(begin, end).Y, r3.Dot(begin, end)), floatNoise, "counter-clockwise about +Y")
}

// The angle of view in closed form: the image is f u/(u - f) behind the lens.
func TestAngleOfView(t *testing.T) {
	m := read(t, written(t, sample.Through(t), lanternScene()))
	behind := 50.0 * 380 / (380 - 50)
	p := m.doc.Cameras[0].Perspective
	require.InDelta(t, 2*math.Atan(20.25/2/behind), p.Yfov, 1e-12)
	require.InDelta(t, 16.0/9, *p.AspectRatio, 1e-12)
}

// short is by how much one turn leads to the next the short way, about +Y.
func short(a, b [4]float32) float64 {
	d := quat.Mul(number(b), quat.Conj(number(a)))
	if d.Real < 0 {
		d = quat.Scale(-1, d)
	}
	return 2 * math.Atan2(d.Jmag, d.Real)
}

// A table that goes round seven times in 24 frames turns by 105 degrees a frame.
// Who goes the short way from key to key still sees it go round seven times.
func TestFastTurnsHaveKeysBetween(t *testing.T) {
	for _, turns := range []int64{7, 13, 29} {
		move := sample.Table(t)
		move = sample.Turning(move, exact.Int(turns))
		r := sample.Bench(rig.InverseTime)
		tr := sample.Make(t, 24, r, sample.Rail(t, "3-4-5", 2), move)
		m := read(t, written(t, tr, lanternScene()))
		require.Greater(t, len(m.times), 25)
		sum := 0.0
		for i := 1; i < len(m.times); i++ {
			require.Less(t, m.times[i-1], m.times[i])
			by := short(m.table[i-1], m.table[i])
			require.Less(t, math.Abs(by), math.Pi/2)
			sum += by
		}
		require.InDelta(t, 2*math.Pi*float64(turns), sum, 1e-4)
	}
}

// Every face of the product looks outwards, and the solid has its volume:
// Gauss' theorem over its triangles.
func TestTheProductIsWhole(t *testing.T) {
	for name, c := range map[string]struct {
		shape func(*scene.Product)
		litre float64
	}{
		"prism":    {func(*scene.Product) {}, 1.5 * math.Sqrt(3) * 0.45 * 0.45 * 1.2},
		"box":      {func(p *scene.Product) { p.Shape, p.Width, p.Depth = scene.Box, scene.Is(60), scene.Is(30) }, 0.6 * 0.3 * 1.2},
		"cylinder": {func(p *scene.Product) { p.Shape = scene.Cylinder }, 24 * math.Sin(2*math.Pi/48) * 0.45 * 0.45 * 1.2},
	} {
		s := lanternScene()
		c.shape(&s.Product)
		m := read(t, written(t, sample.Through(t), s))
		require.InDelta(t, c.litre/1000, volume(t, m.doc), 1e-9, name)
	}
	s := lanternScene()
	s.Product.Height = scene.Number{}
	require.Empty(t, read(t, written(t, sample.Through(t), s)).doc.Meshes, "a product of no known size has no mesh")
}

// volume is that of the mesh, in m3, below 0 where its faces look inwards.
func volume(t *testing.T, d *lib.Document) float64 {
	p := d.Meshes[0].Primitives[0]
	points, err := modeler.ReadPosition(d, d.Accessors[p.Attributes[lib.POSITION]], nil)
	require.NoError(t, err)
	normals, err := modeler.ReadNormal(d, d.Accessors[p.Attributes[lib.NORMAL]], nil)
	require.NoError(t, err)
	triangles, err := modeler.ReadIndices(d, d.Accessors[*p.Indices], nil)
	require.NoError(t, err)
	vec := func(f [3]float32) r3.Vec { return r3.Vec{X: float64(f[0]), Y: float64(f[1]), Z: float64(f[2])} }
	sum := 0.0
	for i := 0; i < len(triangles); i += 3 {
		a, b, c := vec(points[triangles[i]]), vec(points[triangles[i+1]]), vec(points[triangles[i+2]])
		require.Positive(t, r3.Dot(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)), vec(normals[triangles[i]])), "a face and its normal look the same way")
		sum += r3.Dot(a, r3.Cross(b, c)) / 6
	}
	return sum
}

func TestWhatIsRefused(t *testing.T) {
	tr := sample.Through(t)
	v := verify.Check(tr)
	err := gltf.Write(io.Discard, tr, header.Of(tr.Plan(), v), scene.Scene{})
	require.ErrorContains(t, err, "where the lens is and how wide it looks is not known; it takes ")
	s := lanternScene()
	s.Lens.Magnification = scene.Is(3)
	require.Error(t, gltf.Write(io.Discard, tr, header.Of(tr.Plan(), v), s), "50 mm focused at 380 mm are not 3:1")

	long := *tr.Plan()
	long.Loop.Captured = gltf.MaxFrames + 1
	err = gltf.Write(io.Discard, trajectory.New(&long), header.Of(trajectory.New(&long).Plan(), v), lanternScene())
	require.ErrorContains(t, err, "at most 167772")
}

// At the longest loop times still follow the frames to a hundredth of one.
func TestLongestLoopKeepsItsTimes(t *testing.T) {
	for _, rate := range []float64{23.976, 24, 25, 60} {
		worst := 0.0
		for k := gltf.MaxFrames - 1000; k <= gltf.MaxFrames; k++ {
			worst = max(worst, math.Abs(float64(float32(float64(k)/rate))*rate-float64(k)))
		}
		require.Less(t, worst, 0.01)
	}
}

func TestWriterFails(t *testing.T) {
	tr := sample.Through(t)
	sample.Fails(t, len(written(t, tr, lanternScene())), func(w io.Writer) error {
		return gltf.Write(w, tr, header.Of(tr.Plan(), verify.Check(tr)), lanternScene())
	})
}
