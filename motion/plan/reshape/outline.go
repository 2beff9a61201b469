package reshape

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/source"
	"seamrail/motion/scene"
)

// usualSides is how many sides a product gets that is made a prism: those of the example
// of the schema.
const usualSides = 6

var shapes = map[scene.Shape]string{scene.Cylinder: "cylinder", scene.Prism: "prism", scene.Box: "box"}

// outlined are the keys of the product that go with an outline, and what fills in those
// that are not there yet: one as wide as the product was.
func outlined(shape string, p scene.Product) (source.Row, bool) {
	radius := max(p.Radius.Value, p.Width.Value/2, p.Depth.Value/2)
	mm := func(v float64) string { return fmt.Sprintf("%g mm", math.Round(v*10)/10) }
	switch shape {
	case shapes[scene.Cylinder]:
		return source.Row{{Key: "radius", Value: mm(radius)}}, true
	case shapes[scene.Prism]:
		return source.Row{{Key: "radius", Value: mm(radius)}, {Key: "sides", Value: usualSides}}, true
	case shapes[scene.Box]:
		return source.Row{{Key: "width", Value: mm(2 * radius)}, {Key: "depth", Value: mm(2 * radius)}}, true
	}
	return nil, false
}

// outline gives the product another outline: what the old one has alone is set aside, and
// what the new one needs is taken back or filled in.
func (b Bench) outline(path, shape string) (Done, error) {
	row, ok := outlined(shape, b.scene().Product)
	if !ok {
		return Done{}, nothing(path)
	}
	const table = "scene.product"
	own := func(key string) bool {
		return slices.ContainsFunc(row, func(r source.Pair) bool { return r.Key == key })
	}
	gone := slices.DeleteFunc([]string{"radius", "sides", "width", "depth"}, own)
	w := b.writer()
	if was, known := shapes[b.scene().Product.Shape]; known {
		w.aside(was, table, gone...)
	}
	w.back(shape, table)
	for _, one := range row {
		if w.err == nil && !source.Has(w.text, table+"."+one.Key) {
			w.put(table+"."+one.Key, one.Value)
		}
	}
	if w.err == nil && !source.Has(w.text, path) {
		return w.put(path, shape).done(path)
	}
	return w.set(path, shape).done(path)
}
