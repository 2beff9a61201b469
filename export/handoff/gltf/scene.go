package gltf

import (
	"math"

	"seamrail/motion/scene"

	"github.com/qmuntal/gltf"

	"seamrail/motion/camera/matchmove"
)

// addCamera adds the camera as it is at a key.
func (d document) addCamera(shot matchmove.Shot, k matchmove.Key) int {
	aspect := shot.Wide / shot.High
	d.Cameras = append(d.Cameras, &gltf.Camera{
		Name: "lens", Perspective: &gltf.Perspective{AspectRatio: &aspect, Yfov: shot.View(k) * math.Pi / 180, Znear: near},
	})
	at := place(k)
	return d.node(&gltf.Node{
		Name: "camera", Camera: gltf.Index(0), Translation: [3]float64{at.X, at.Y, at.Z}, Rotation: lensTurn(k),
	}, true)
}

// addTable adds the turntable, and on it the product where its size is known.
func (d document) addTable(p scene.Product, k matchmove.Key) int {
	table := &gltf.Node{Name: "turntable", Rotation: tableTurn(k)}
	if mesh, ok := d.addProduct(p); ok {
		table.Children = []int{d.node(&gltf.Node{Name: "product", Mesh: gltf.Index(mesh)}, false)}
	}
	return d.node(table, true)
}
