package gltf

import (
	"math"

	"github.com/qmuntal/gltf"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/clock"
	"seamrail/motion/camera/matchmove"
)

// metre is how many mm it has.
const metre = 1000

// upright turns a direction of package pose, z up, into one of glTF, y up.
func upright(p r3.Vec) r3.Vec { return r3.Vec{X: p.X, Y: p.Z, Z: -p.Y} }

// animate adds what camera and table do.
func (d document) animate(name string, camera, table int, keys []matchmove.Key, c clock.Clock) {
	a := &gltf.Animation{Name: name}
	input := d.times(keys, c)
	add := func(node int, path gltf.TRSProperty, data any) {
		a.Samplers = append(a.Samplers, &gltf.AnimationSampler{Input: input, Output: d.accessor(data)})
		a.Channels = append(a.Channels, &gltf.AnimationChannel{
			Sampler: len(a.Samplers) - 1, Target: gltf.AnimationChannelTarget{Node: gltf.Index(node), Path: path},
		})
	}
	add(camera, gltf.TRSTranslation, places(keys))
	add(camera, gltf.TRSRotation, turns(keys, lensTurn))
	add(table, gltf.TRSRotation, turns(keys, tableTurn))
	d.Animations = append(d.Animations, a)
}

// times adds the times of the keys, in seconds on screen, with their bounds.
func (d document) times(keys []matchmove.Key, c clock.Clock) int {
	out := make([]float32, len(keys))
	for i, k := range keys {
		out[i] = float32(c.ScreenTime(k.Frame).Float())
	}
	i := d.accessor(out)
	d.Accessors[i].Min = []float64{float64(out[0])}
	d.Accessors[i].Max = []float64{float64(out[len(out)-1])}
	return i
}

func places(keys []matchmove.Key) [][3]float32 {
	out := make([][3]float32, len(keys))
	for i, k := range keys {
		out[i] = floats(place(k))
	}
	return out
}

// place is where the lens is, in m.
func place(k matchmove.Key) r3.Vec { return r3.Scale(1.0/metre, upright(k.Pose.At)) }

func floats(p r3.Vec) [3]float32 { return [3]float32{float32(p.X), float32(p.Y), float32(p.Z)} }

// quaternion is x, y, z, w.
type quaternion [4]float64

// turns are the turns at the keys, each the one of two quaternions that is
// nearer to the one before it.
func turns(keys []matchmove.Key, of func(matchmove.Key) quaternion) [][4]float32 {
	out := make([][4]float32, len(keys))
	last := of(keys[0])
	for i, k := range keys {
		q := of(k)
		if dot(q, last) < 0 {
			q = quaternion{-q[0], -q[1], -q[2], -q[3]}
		}
		last = q
		for n := range q {
			out[i][n] = float32(q[n])
		}
	}
	return out
}

func dot(a, b quaternion) float64 {
	return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] + a[3]*b[3]
}

// tableTurn is about +Y, counter-clockwise from above.
func tableTurn(k matchmove.Key) quaternion {
	s, c := math.Sincos(math.Remainder(k.Table, 720) * math.Pi / 360)
	return quaternion{1: s, 3: c}
}

// lensTurn turns a camera that looks along -Z, with +Y up, the way the lens
// looks.
func lensTurn(k matchmove.Key) quaternion {
	return fromAxes(upright(k.Pose.Right), upright(k.Pose.Up), r3.Scale(-1, upright(k.Pose.Forward)))
}

// fromAxes is the turn that takes the axes of coordinates to x, y and z, by the
// largest of the four parts so that nothing is divided by a small number
// (S. W. Shepperd, J. Guidance and Control 1:223-224, 1978,
// DOI 10.2514/3.55767b).
func fromAxes(x, y, z r3.Vec) quaternion {
	squares := [4]float64{ // four times each part's square
		1 + x.X - y.Y - z.Z, 1 - x.X + y.Y - z.Z, 1 - x.X - y.Y + z.Z, 1 + x.X + y.Y + z.Z,
	}
	products := [4][4]float64{ // four times the product of two parts
		{squares[0], x.Y + y.X, x.Z + z.X, y.Z - z.Y},
		{x.Y + y.X, squares[1], y.Z + z.Y, z.X - x.Z},
		{x.Z + z.X, y.Z + z.Y, squares[2], x.Y - y.X},
		{y.Z - z.Y, z.X - x.Z, x.Y - y.X, squares[3]},
	}
	most := 0
	for i, s := range squares {
		if s > squares[most] {
			most = i
		}
	}
	var q quaternion
	for i := range q {
		q[i] = products[most][i] / (2 * math.Sqrt(squares[most]))
	}
	return q
}
