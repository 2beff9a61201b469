package shot

import (
	"fmt"

	"seamrail/motion/scene"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawHole is one of [[scene.holes]].
type RawHole struct {
	Place     source.Place   `toml:"-"`
	Name      source.Text    `toml:"name" jsonschema:"example=front board" jsonschema_description:"What it is called, where there are several."`
	Centre    source.Texts   `toml:"centre" jsonschema_description:"Its middle: right, away and up from the middle of the table's top."`
	Diameter  source.Text    `toml:"diameter" jsonschema:"example=90 mm" jsonschema_description:"Across it."`
	Without   source.Without `toml:"without" jsonschema_description:"What set-ups say of the hole of this name is taken out: all of it (true), or some of its keys (a list)."`
	Thickness source.Text    `toml:"thickness" jsonschema:"example=6 mm" jsonschema_description:"Of the board it is in; left out, thin."`
	Heading   source.Text    `toml:"heading" jsonschema:"example=0 deg" jsonschema_description:"Which way it goes through, to the left of straight on."`
	Board     source.Text    `toml:"board" jsonschema:"example=400 mm" jsonschema_description:"How wide the board is, for the drawing."`
}

// hole reads hole i, from 0.
func (l *sceneReader) hole(i int, raw RawHole) {
	l.path = fmt.Sprintf("scene.holes[%d].", i+1)
	defer func() { l.path = "scene." }()
	l.scene.Holes = append(l.scene.Holes, scene.Hole{
		Name:      raw.Name.Text,
		Centre:    l.point(raw.Place, raw.Centre, "centre"),
		Diameter:  l.number(raw.Diameter, "diameter", unit.Length),
		Thickness: l.number(raw.Thickness, "thickness", unit.Length).Value,
		Heading:   l.number(raw.Heading, "heading", unit.Angle).Value,
		Board:     l.number(raw.Board, "board", unit.Length).Value,
	})
}
