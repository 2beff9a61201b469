package shot

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r2"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
)

// RawProduct is the [scene.product] table. Which keys it has depends on its
// shape.
type RawProduct struct {
	Place    source.Place   `toml:"-"`
	Without  source.Without `toml:"without" jsonschema_description:"What set-ups say of it is taken out: all of it (true), or some of its keys (a list)."`
	On       source.Text    `toml:"on" jsonschema:"example=display" jsonschema_description:"What it stands on and turns with: an axis in degrees or a display stand; left out, the one thing that turns."`
	Shape    source.Text    `toml:"shape" jsonschema:"enum=cylinder,enum=prism,enum=box" jsonschema_description:"Its outline from above; left out, the one its other keys speak of."`
	Radius   source.Text    `toml:"radius" instead:"width,depth" jsonschema:"example=45 mm" jsonschema_description:"cylinder, prism: from its middle to its side, of a prism to a corner."`
	Sides    source.Text    `toml:"sides" instead:"width,depth" jsonschema:"example=6" jsonschema_description:"prism: how many sides it has; at 0 degrees one looks at the camera."`
	Width    source.Text    `toml:"width" instead:"radius,sides,shape" jsonschema:"example=80 mm" jsonschema_description:"box: from left to right with the table at 0."`
	Depth    source.Text    `toml:"depth" instead:"radius,sides,shape" jsonschema:"example=60 mm" jsonschema_description:"box: from near to far with the table at 0."`
	Height   source.Text    `toml:"height" jsonschema:"example=120 mm" jsonschema_description:"From its foot to its top."`
	Base     source.Text    `toml:"base" jsonschema:"example=0 mm" jsonschema_description:"Of its foot above the table's top."`
	Offset   source.Texts   `toml:"offset" jsonschema_description:"Of its middle from the table's axis with the table at 0: right and away."`
	Facing   source.Text    `toml:"facing" jsonschema:"example=0 deg" jsonschema_description:"How far it is turned with the table at 0, anticlockwise seen from above."`
	Symmetry source.Text    `toml:"symmetry" jsonschema:"example=6" jsonschema_description:"Times in a turn that it looks the same; left out, what the axis says that turns it, or its shape."`
}

// outline is a shape and the keys that belong to it and not to all.
type outline struct {
	name  string
	shape scene.Shape
	keys  []string
}

var outlines = []outline{
	{"cylinder", scene.Cylinder, []string{"radius"}},
	{"prism", scene.Prism, []string{"radius", "sides"}},
	{"box", scene.Box, []string{"width", "depth"}},
}

// product reads [scene.product].
func (l *sceneReader) product(raw RawProduct) {
	l.path = "scene.product."
	defer func() { l.path = "scene." }()
	p := &l.scene.Product
	p.Shape = l.shape(raw)
	p.Radius = l.number(raw.Radius, "radius", unit.Length)
	if n, ok := l.whole(raw.Sides, "sides"); ok {
		p.Sides = n
	} else if p.Shape == scene.Prism && !raw.Sides.Set {
		l.Missing(raw.Place, l.path+"sides", "6")
		p.Shape = scene.NoShape
	}
	p.Width = l.number(raw.Width, "width", unit.Length)
	p.Depth = l.number(raw.Depth, "depth", unit.Length)
	p.Height = l.number(raw.Height, "height", unit.Length)
	p.Base = l.number(raw.Base, "base", unit.Length).Value
	offset := l.lengths(raw.Offset, "offset", 2, "right and away", `["10 mm", "0 mm"]`)
	p.Offset = r2.Vec{X: offset[0], Y: offset[1]}
	p.Facing = l.number(raw.Facing, "facing", unit.Angle).Value
	if raw.Symmetry.Set {
		k, _ := move.Symmetry(l.Report, raw.Symmetry, l.path+"symmetry")
		p.Alike = int(k)
		l.mark("symmetry", raw.Symmetry)
	}
}

// shape reads the shape, or tells it from the keys that are there.
func (l *sceneReader) shape(raw RawProduct) scene.Shape {
	given := raw.given()
	name := raw.Shape.Text
	if raw.Shape.Set {
		if _, ok := l.Choice(raw.Shape, l.path+"shape", "cylinder", "prism", "box"); !ok {
			return scene.NoShape
		}
	} else if name = shapeBy(given); name == "" {
		return scene.NoShape
	} else {
		l.Default(l.path+"shape", name, "as its keys say")
	}
	o := outlines[slices.IndexFunc(outlines, func(o outline) bool { return o.name == name })]
	for key, t := range given {
		if !slices.Contains(o.keys, key) {
			l.Wrong(t, l.path+key, fmt.Sprintf("does not belong to a %s", name), "its keys are "+strings.Join(o.keys, ", "))
		}
	}
	return o.shape
}

// given are the keys that belong to some shapes only.
func (raw RawProduct) given() map[string]source.Text {
	out := map[string]source.Text{"radius": raw.Radius, "sides": raw.Sides, "width": raw.Width, "depth": raw.Depth}
	for key, t := range out {
		if !t.Set {
			delete(out, key)
		}
	}
	return out
}

// shapeBy is the shape that such keys speak of.
func shapeBy(given map[string]source.Text) string {
	has := func(key string) bool { _, ok := given[key]; return ok }
	switch {
	case has("width") || has("depth"):
		return "box"
	case has("sides"):
		return "prism"
	case has("radius"):
		return "cylinder"
	}
	return ""
}
