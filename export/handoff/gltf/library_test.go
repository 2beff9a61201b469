package gltf_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/camera/pose"
	"seamrail/motion/plan/sample"
)

// project plays the animation in three, which runs without a screen, and prints
// where it sees each corner of the product: x and y, 1 being the picture's edge.
const project = `
const [, folder, file] = process.argv;
globalThis.self ??= globalThis;
(async () => {
  const home = require('path').join(folder, 'node_modules', 'three');
  const { AnimationMixer, Vector3 } = await import(home + '/build/three.module.js');
  const { GLTFLoader } = await import(home + '/examples/jsm/loaders/GLTFLoader.js');
  const bytes = new Uint8Array(require('fs').readFileSync(file));
  const film = await new GLTFLoader().parseAsync(bytes.buffer, '');
  const mixer = new AnimationMixer(film.scene);
  mixer.clipAction(film.animations[0]).play();
  const lens = film.cameras[0], product = film.scene.getObjectByName('product');
  const corners = product.geometry.attributes.position;
  lens.updateProjectionMatrix();
  const seen = [];
  for (let k = 0; k < 24; k++) {
    mixer.setTime(k / 24);
    film.scene.updateMatrixWorld(true);
    const list = [];
    for (let i = 0; i < corners.count; i++) {
      const v = new Vector3().fromBufferAttribute(corners, i).applyMatrix4(product.matrixWorld).project(lens);
      list.push([v.x, v.y]);
    }
    seen.push(list);
  }
  console.log(JSON.stringify(seen));
})();
`

// sameSpot is how many pixels apart two projections may be. Floats of 24 bits
// turn the lens by some 1e-7, which is a few ten-thousandths of a pixel here.
const sameSpot = 0.005

// A general graphics library that plays the animation sees every corner of the
// lantern where the picture's own lens does, at every frame.
func TestLibrarySeesTheSame(t *testing.T) {
	tr := sample.Through(t)
	var seen [][][2]float64
	ask(t, project, written(t, tr, lanternScene()), &seen)
	shot, err := matchmove.New(tr, lanternScene())
	require.NoError(t, err)
	require.Len(t, seen, 24)
	moved := 0.0
	for k, corners := range seen {
		key := shot.At(exact.Int(int64(k)))
		require.NotEmpty(t, corners)
		for i, c := range corners {
			x, y := c[0]*shot.Wide/2, c[1]*shot.High/2
			require.Less(t, nearest(key, x, y), sameSpot, "frame %d, corner %d", k, i)
			moved = max(moved, math.Hypot(c[0]-seen[0][i][0], c[1]-seen[0][i][1])*shot.Wide/2)
		}
	}
	require.Greater(t, moved, 100.0, "px that a corner goes: it does play")
}

// nearest is how far the place is from where the lens sees the nearest corner of
// the prism, in px.
func nearest(k matchmove.Key, x, y float64) float64 {
	best := math.Inf(1)
	for i := range 6 {
		for _, z := range []float64{0, 120} {
			// A face looks at the camera: corners are half a side off.
			s, c := math.Sincos((-60 + 60*float64(i)) * math.Pi / 180)
			cx, cy, _ := k.Pose.See(pose.Turned(r3.Vec{X: 45 * c, Y: 45 * s, Z: z}, k.Table))
			best = min(best, math.Hypot(cx*k.Scale-x, cy*k.Scale-y))
		}
	}
	return best
}
