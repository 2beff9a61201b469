package shot

import (
	"fmt"

	"seamrail/motion/scene"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawLamp is one of [[scene.lamps]].
type RawLamp struct {
	Place   source.Place   `toml:"-"`
	Name    source.Text    `toml:"name" jsonschema:"example=key" jsonschema_description:"What the lamp is called."`
	Use     source.Text    `toml:"use" shelf:"lamp" jsonschema:"example=shelf/panel.toml" jsonschema_description:"A lamp file, as seen from this one, that says what this table leaves out."`
	Without source.Without `toml:"without" jsonschema_description:"What set-ups say of the lamp of this name is taken out: the lamp (true), or some of its keys (a list)."`
	RawBulb
	Distance source.Text `toml:"distance" jsonschema:"example=600 mm" jsonschema_description:"From the lamp to the product."`
	Bearing  source.Text `toml:"bearing" jsonschema:"example=45 deg" jsonschema_description:"How far right of the camera it stands, round the product; 180 is behind, below 0 left."`
	Rise     source.Text `toml:"rise" jsonschema:"example=30 deg" jsonschema_description:"How far up it hangs, seen from the product."`
	Level    source.Text `toml:"level" instead:"fade,keys,between,seam,by,hand,beats" jsonschema:"example=85 %,example=0.85" jsonschema_description:"What of its full light it is set to; left out, all."`

	Fade    *RawFade     `toml:"fade" instead:"level,keys,between,seam" jsonschema_description:"Its level between two, there and back over the loop, in place of level."`
	Keys    []RawLampKey `toml:"keys" instead:"level,fade" jsonschema:"minItems=1" jsonschema_description:"Its level at times of the loop, in place of level."`
	Between source.Text  `toml:"between" jsonschema:"example=3-4-5" jsonschema_description:"The motion law from one of the keys to the next, from rest to rest; left out, along the smoothest curve that never passes a key."`
	Seam    source.Text  `toml:"seam" jsonschema:"enum=closed,enum=cut" jsonschema_description:"Whether the level goes on from the last of the keys to the first (closed), or jumps there as the loop comes round (cut)."`
	By      source.Text  `toml:"by" jsonschema:"enum=table,enum=hand" jsonschema_description:"Who dims it over the loop: whatever is told the table of levels, or a hand that is counted to it."`
	Hand    source.Text  `toml:"hand" jsonschema:"example=left" jsonschema_description:"Whose hand; with two, each has a side of the click track."`
	Beats   source.Text  `toml:"beats" jsonschema:"example=3" jsonschema_description:"How many beats are counted to the hand before each fade."`
}

// RawBulb is what a lamp is, wherever it stands.
type RawBulb struct {
	Lumens     source.Text `toml:"lumens" jsonschema:"example=3900 lm,example=3900" jsonschema_description:"The light it gives in all, at full."`
	Beam       source.Text `toml:"beam" jsonschema:"example=60 deg" jsonschema_description:"The whole angle of its cone."`
	Ripple     source.Text `toml:"ripple" jsonschema:"example=5 %,example=0.05" jsonschema_description:"How far its light swings about its mean; 0 on steady current."`
	RippleRate source.Text `toml:"ripple-rate" jsonschema:"example=100 Hz,example=100" jsonschema_description:"How often; left out, twice the mains."`
	Kelvin     source.Text `toml:"kelvin" jsonschema:"example=5600 K,example=5600" jsonschema_description:"Its colour temperature."`
	Curve      source.Text `toml:"curve" jsonschema:"enum=linear,enum=square" jsonschema_description:"What its dimmer makes of the dial: light in proportion (linear), or the square of it (square)."`
	Source     source.Text `toml:"source" jsonschema:"enum=steady,enum=filament" jsonschema_description:"What becomes of its colour as it dims: it keeps it (steady), or glows redder (filament)."`
}

// lamp reads lamp i, from 0.
func (l *sceneReader) lamp(i int, raw RawLamp) {
	l.path = fmt.Sprintf("scene.lamps[%d].", i+1)
	defer func() { l.path = "scene." }()
	name := raw.Name.Text
	if name == "" {
		name = fmt.Sprintf("lamp %d", i+1)
	}
	one := scene.Lamp{
		Name:     name,
		Lumens:   l.number(raw.Lumens, "lumens", unit.LightFlow, unit.Number),
		Beam:     l.number(raw.Beam, "beam", unit.Angle),
		Distance: l.number(raw.Distance, "distance", unit.Length),
		Bearing:  l.number(raw.Bearing, "bearing", unit.Angle).Value,
		Rise:     l.number(raw.Rise, "rise", unit.Angle).Value,
		Level:    l.number(raw.Level, "level", unit.Number),
		Ripple:   l.number(raw.Ripple, "ripple", unit.Number),
		RippleHz: l.rate(raw.RippleRate, "ripple-rate"),
		Kelvin:   l.number(raw.Kelvin, "kelvin", unit.Temperature, unit.Number),
	}
	l.dimmed(raw, &one)
	l.scene.Lamps = append(l.scene.Lamps, one)
}
