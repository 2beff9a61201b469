package gltf

import (
	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// document is a glTF document that is being put together.
type document struct{ *gltf.Document }

// node adds a node and returns its number. A root is a node of the scene.
func (d document) node(n *gltf.Node, root bool) int {
	d.Nodes = append(d.Nodes, n)
	i := len(d.Nodes) - 1
	if root {
		d.Scenes[0].Nodes = append(d.Scenes[0].Nodes, i)
	}
	return i
}

// accessor adds data for an animation and returns its number.
func (d document) accessor(data any) int {
	return modeler.WriteAccessor(d.Document, gltf.TargetNone, data)
}
