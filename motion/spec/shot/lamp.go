package shot

import (
	"fmt"

	"seamrail/motion/scene"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawLamp is one of [[scene.lamps]].
type RawLamp struct {
	Place      source.Place `toml:"-"`
	Name       source.Text  `toml:"name" jsonschema:"example=key" jsonschema_description:"What the lamp is called."`
	Lumens     source.Text  `toml:"lumens" jsonschema:"example=3900 lm,example=3900" jsonschema_description:"The light it gives in all, at full."`
	Beam       source.Text  `toml:"beam" jsonschema:"example=60 deg" jsonschema_description:"The whole angle of its cone."`
	Distance   source.Text  `toml:"distance" jsonschema:"example=600 mm" jsonschema_description:"From the lamp to the product."`
	Bearing    source.Text  `toml:"bearing" jsonschema:"example=45 deg" jsonschema_description:"How far right of the camera it stands, round the product; 180 is behind, below 0 left."`
	Rise       source.Text  `toml:"rise" jsonschema:"example=30 deg" jsonschema_description:"How far up it hangs, seen from the product."`
	Level      source.Text  `toml:"level" jsonschema:"example=85 %,example=0.85" jsonschema_description:"What of its full light it is set to; left out, all."`
	Ripple     source.Text  `toml:"ripple" jsonschema:"example=5 %,example=0.05" jsonschema_description:"How far its light swings about its mean; 0 on steady current."`
	RippleRate source.Text  `toml:"ripple-rate" jsonschema:"example=100 Hz,example=100" jsonschema_description:"How often; left out, twice the mains."`
	Kelvin     source.Text  `toml:"kelvin" jsonschema:"example=5600 K,example=5600" jsonschema_description:"Its colour temperature."`
}

// lamp reads lamp i, from 0.
func (l *sceneReader) lamp(i int, raw RawLamp) {
	l.path = fmt.Sprintf("scene.lamps[%d].", i+1)
	defer func() { l.path = "scene." }()
	name := raw.Name.Text
	if name == "" {
		name = fmt.Sprintf("lamp %d", i+1)
	}
	l.scene.Lamps = append(l.scene.Lamps, scene.Lamp{
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
	})
}
