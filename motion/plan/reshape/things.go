package reshape

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/scene"
	"seamrail/motion/spec/shot"
)

// First values of what stands before the camera. They are a beginning to be changed, in
// round numbers that a tabletop has; they say nothing of what is really there.
const (
	firstDistance = 450. // mm from the lens to the product
	firstHeight   = 60.  // mm above the table
	lampAway      = 700. // mm
	boardShare    = 0.6  // of the way from the product to the lens
)

// bearings are where lamps are put one after the other: key, fill, from behind, and on.
var bearings = []string{"35 deg", "-50 deg", "150 deg", "-150 deg", "90 deg", "-90 deg"}

func mm(v float64) string { return unit.Format(math.Round(v/10)*10, unit.Length) }

// distance is from the lens to the product, mm.
func (b Bench) distance() float64 {
	if s := b.Shot.Scene; s != nil && s.Stand.Distance.Given && s.Stand.Distance.Value > 0 {
		return s.Stand.Distance.Value
	}
	return firstDistance
}

// height is that of the lens above the table, mm.
func (b Bench) height() float64 {
	s := b.Shot.Scene
	switch {
	case s == nil:
		return firstHeight
	case s.Stand.Height.Given:
		return s.Stand.Height.Value
	case s.Product.Height.Given:
		return s.Product.Base + s.Product.Height.Value/2
	}
	return firstHeight
}

// unused is a name that none of these has: the first that is free of those that are
// usual, or with a number behind it.
func unused(have []string, usual ...string) string {
	for _, n := range usual {
		if !slices.Contains(have, n) {
			return n
		}
	}
	for i := len(have) + 1; ; i++ {
		if n := fmt.Sprintf("%s %d", usual[len(usual)-1], i); !slices.Contains(have, n) {
			return n
		}
	}
}

func (b Bench) scene() scene.Scene {
	if b.Shot.Scene == nil {
		return scene.Scene{}
	}
	return *b.Shot.Scene
}

// lamp is another lamp, of the colour of the first.
func (b Bench) lamp() source.Row {
	s := b.scene()
	name := unused(list.Map(s.Lamps, func(l scene.Lamp) string { return l.Name }), "key", "fill", "rim", "lamp")
	kelvin := 5600.
	if len(s.Lamps) > 0 && s.Lamps[0].Kelvin.Given {
		kelvin = s.Lamps[0].Kelvin.Value
	}
	return source.Row{
		{Key: "name", Value: name}, {Key: "lumens", Value: "1200 lm"}, {Key: "beam", Value: "60 deg"},
		{Key: "distance", Value: mm(lampAway)}, {Key: "bearing", Value: bearings[len(s.Lamps)%len(bearings)]}, {Key: "rise", Value: "30 deg"},
		{Key: "ripple", Value: "0 %"}, {Key: "kelvin", Value: unit.Format(kelvin, unit.Temperature)},
	}
}

// hole is a board with a hole in it between lens and product, wide enough to see through.
func (b Bench) hole() source.Row {
	s := b.scene()
	name := unused(list.Map(s.Holes, func(h scene.Hole) string { return h.Name }), "board")
	return source.Row{
		{Key: "name", Value: name}, {Key: "centre", Value: []string{mm(0), mm(-boardShare * b.distance()), mm(b.height())}},
		{Key: "diameter", Value: "200 mm"}, {Key: "board", Value: "600 mm"},
	}
}

// dark is a surface beside the product.
func (b Bench) dark() source.Row {
	return source.Row{
		{Key: "centre", Value: []string{mm(-b.distance()), mm(0), mm(b.height())}},
		{Key: "width", Value: "400 mm"}, {Key: "height", Value: "400 mm"},
	}
}

func product() source.Row {
	return source.Row{{Key: "shape", Value: "cylinder"}, {Key: "radius", Value: "40 mm"}, {Key: "height", Value: mm(2 * firstHeight)}}
}

func camera() source.Row {
	return source.Row{
		{Key: "sensor-width", Value: "36 mm"}, {Key: "sensor-height", Value: "20.25 mm"}, {Key: "pixels-wide", Value: "1920"}, {Key: "pixels-high", Value: "1080"},
		{Key: "focal-length", Value: "50 mm"}, {Key: "focus", Value: "400 mm"}, {Key: "aperture", Value: "f/11"}, {Key: "shutter", Value: "180 deg"}, {Key: "iso", Value: "800"},
	}
}

// role is what an axis most likely does to the picture.
func (b Bench) role(name string) source.Row {
	m, _ := b.Shot.Axis(name)
	stand := b.scene().Stand
	switch {
	case m.CheckKind(true) != nil:
		return source.Row{{Key: "role", Value: "slide"}, {Key: "heading", Value: "push-in"}, {Key: "measured-at", Value: b.startOf(name, unit.Length)}}
	case stand.TableAxis == name || stand.TableAxis == "" && stand.PanAxis != name && stand.TiltAxis != name:
		return source.Row{{Key: "role", Value: "table"}}
	case stand.PanAxis == name:
		return source.Row{{Key: "role", Value: "pan"}}
	case stand.TiltAxis == name:
		return source.Row{{Key: "role", Value: "tilt"}}
	}
	return source.Row{{Key: "role", Value: "none"}}
}

// startOf is where an axis is in frame 0, as it is written.
func (b Bench) startOf(name string, dim unit.Dimension) string {
	at := 0.0
	if b.Plan != nil {
		at = b.placeOn(name, 0)
	}
	return move.Place(at, move.DragGrain, dim)
}

// shares of the loop at which a new cue is tried: where nothing else is asked of hands.
var cueShares = []float64{0.5, 0.25, 0.75, 0.4, 0.6, 0.9}

// cues are a new cue, at one time after the other.
func (b Bench) cues(at Spot) []source.Row {
	have := list.Map(b.Shot.Cues, func(c shot.Cue) string { return c.Name })
	name := unused(have, "drop", "cue")
	frames := []int64{}
	if n := b.asked(at.Frame); n != nil {
		frames = append(frames, min(max(*n, 0), b.Shot.Loop.Screen-1))
	}
	for _, share := range cueShares {
		frames = append(frames, int64(share*float64(b.Shot.Loop.Screen)))
	}
	return list.Map(frames, func(f int64) source.Row {
		return source.Row{{Key: "name", Value: name}, {Key: "hand", Value: b.hand()}, {Key: "at", Value: move.FramesText(f)}, {Key: "leaves", Value: shot.Nothing}}
	})
}

// hand is the one that cues have already.
func (b Bench) hand() string {
	for _, c := range b.Shot.Cues {
		if c.Hand != "" {
			return c.Hand
		}
	}
	return "right"
}

// fading is a lamp that goes from a fifth of its light to what it has, and back.
func (b Bench) fading(i int) source.Row {
	full := 1.0
	if l := b.scene().Lamps; i < len(l) && l[i].Level.Given {
		full = l[i].Level.Value
	}
	return source.Row{{Key: "from", Value: percent(full / 5)}, {Key: "to", Value: percent(full)}}
}

// half of the loop, as it is written.
func (b Bench) half() string { return move.FramesText(b.Shot.Loop.Screen / 2) }

// lampKeys are two levels of a lamp.
func (b Bench) lampKeys(i int) []source.Row {
	f := b.fading(i)
	return []source.Row{
		{{Key: "at", Value: move.FramesText(0)}, {Key: "level", Value: f[1].Value}},
		{{Key: "at", Value: b.half()}, {Key: "level", Value: f[0].Value}},
	}
}

// pulls are a hand that pulls the focus nearer and back, at one time or another.
func (b Bench) pulls() []source.Row {
	focus := cmp.Or(b.scene().Lens.Focus.Value, b.distance())
	n := b.Shot.Loop.Screen
	out := list.Map([]int64{0, n / 4, n / 8}, func(from int64) source.Row {
		return source.Row{{Key: "hand", Value: b.hand()}, {Key: "keys", Value: []source.Row{
			{{Key: "at", Value: move.FramesText(from)}, {Key: "focus", Value: mm(focus)}},
			{{Key: "at", Value: move.FramesText(from + n/2)}, {Key: "focus", Value: mm(math.Max(focus*0.9, focus-50))}},
		}}}
	})
	return append(out, source.Row{{Key: "hand", Value: b.hand()}, {Key: "follow", Value: "product"}})
}
