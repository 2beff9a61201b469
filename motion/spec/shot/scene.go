package shot

import (
	"slices"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawScene is the [scene] table: what stands before the camera and around it.
// Places are seen from the camera: x to the right, y away, z up, from the middle
// of the table's top.
type RawScene struct {
	Place       source.Place   `toml:"-"`
	Without     source.Without `toml:"without" jsonschema_description:"What set-ups say of this table itself and what is below it is taken out: all of it (true), or some of its keys (a list)."`
	Distance    source.Text    `toml:"distance" jsonschema:"example=420 mm" jsonschema_description:"From the lens to the axis of the table, with every axis where it was measured at."`
	Aside       source.Text    `toml:"aside" jsonschema:"example=0 mm" jsonschema_description:"How far the lens stands to the right of the table's axis."`
	Height      source.Text    `toml:"height" jsonschema:"example=60 mm" jsonschema_description:"Of the lens above the table's top; left out, that of the product's middle."`
	Pan         source.Text    `toml:"pan" jsonschema:"example=0 deg" jsonschema_description:"How far the camera is turned to the left."`
	Tilt        source.Text    `toml:"tilt" jsonschema:"example=-5 deg" jsonschema_description:"How far the camera looks up."`
	PivotBehind source.Text    `toml:"pivot-behind" jsonschema:"example=90 mm" jsonschema_description:"How far behind the lens pan and tilt turn."`
	Mains       source.Text    `toml:"mains" jsonschema:"example=50 Hz,example=50" jsonschema_description:"Frequency of the mains the lamps burn on."`
	Light       source.Text    `toml:"light" jsonschema:"example=3000 lx,example=3000" jsonschema_description:"What a meter on the product reads, in place of what the lamps are worked out to give."`

	Product *RawProduct        `toml:"product" jsonschema_description:"What stands on the table."`
	Axis    map[string]RawRole `toml:"axis" jsonschema_description:"What each axis of the shot does to the picture."`
	Lamps   []RawLamp          `toml:"lamps" jsonschema_description:"Lamps, each aimed at the product."`
	Holes   []RawHole          `toml:"holes" jsonschema_description:"Holes that the lens looks or passes through."`
	Dark    *RawDark           `toml:"dark" jsonschema_description:"A dark surface square to the lens that hides the seam when it fills the picture."`
}

// RawDark is the [scene.dark] table.
type RawDark struct {
	Place   source.Place   `toml:"-"`
	Without source.Without `toml:"without" jsonschema_description:"What set-ups say of it is taken out: all of it (true), or some of its keys (a list)."`
	Centre  source.Texts   `toml:"centre" jsonschema_description:"Its middle: right, away and up from the middle of the table's top."`
	Width   source.Text    `toml:"width" jsonschema:"example=200 mm" jsonschema_description:"Its width."`
	Height  source.Text    `toml:"height" jsonschema:"example=150 mm" jsonschema_description:"Its height."`
}

// stand reads what [scene] says by itself, and all below it.
func (l *sceneReader) stand(raw RawScene) {
	l.path = "scene."
	s := &l.scene.Stand
	s.Distance = l.number(raw.Distance, "distance", unit.Length)
	s.Aside = l.number(raw.Aside, "aside", unit.Length)
	s.Height = l.number(raw.Height, "height", unit.Length)
	s.Pan = l.number(raw.Pan, "pan", unit.Angle)
	s.Tilt = l.number(raw.Tilt, "tilt", unit.Angle)
	s.PivotBehind = l.number(raw.PivotBehind, "pivot-behind", unit.Length)
	l.scene.Mains = l.rate(raw.Mains, "mains")
	l.scene.Metered = l.number(raw.Light, "light", unit.Illuminance, unit.Number)
	if raw.Product != nil {
		l.product(*raw.Product)
	}
	for i, lamp := range raw.Lamps {
		l.lamp(i, lamp)
	}
	for i, hole := range raw.Holes {
		l.hole(i, hole)
	}
	if raw.Dark != nil {
		l.dark(*raw.Dark)
	}
}

// rate reads a frequency; 0 stands for left out.
func (l *sceneReader) rate(t source.Text, key string) exact.Rat {
	q, ok := l.quantity(t, key, unit.Frequency, unit.Number)
	if ok && q.Value.Sign() <= 0 {
		l.Wrong(t, l.path+key, "must be above 0 Hz", `such as "50 Hz"`)
	}
	return q.Value
}

func (l *sceneReader) dark(raw RawDark) {
	l.path = "scene.dark."
	l.scene.Dark = &scene.Dark{
		Centre: l.point(raw.Place, raw.Centre, "centre"),
		Width:  l.number(raw.Width, "width", unit.Length),
		Height: l.number(raw.Height, "height", unit.Length),
	}
}

// point reads a place, which has to be there.
func (l *sceneReader) point(at source.Place, t source.Texts, key string) r3.Vec {
	const example = `["0 mm", "-300 mm", "60 mm"]`
	if !t.Set {
		l.Missing(at, l.path+key, example)
		return r3.Vec{}
	}
	v := l.lengths(t, key, 3, "right, away and up", example)
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}
}

// lengths reads a list of n lengths; words name them.
func (l *sceneReader) lengths(t source.Texts, key string, n int, words, example string) []float64 {
	out := make([]float64, n)
	if t.Set && (t.Single || len(t.Items) != n) {
		l.Add(t.Place(), l.path+key, "", "must be a list: "+words, "such as "+example)
		return out
	}
	for i, item := range t.Items {
		out[i] = l.number(item, key, unit.Length).Value
	}
	return out
}

// Words for headings, in degrees to the left of straight on.
var headings = map[string]float64{"push-in": 0, "left": 90, "pull-back": 180, "right": -90}

func headingWords() []string {
	out := make([]string, 0, len(headings))
	for w := range headings {
		out = append(out, w)
	}
	slices.Sort(out)
	return out
}
