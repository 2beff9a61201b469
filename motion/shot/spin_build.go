package shot

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// Bounds that no product on a tabletop comes near.
var (
	maxRadius = exact.Int(5_000) // mm
	maxPixels = exact.Int(10_000)
)

// maxSymmetry is more faces than anyone could tell apart.
const maxSymmetry = 1000

// RawSpin is a [spin.NAME] table of a shot.
type RawSpin struct {
	Place    source.Place `toml:"-"`
	Speed    source.Text  `toml:"speed" jsonschema:"example=slow" jsonschema_description:"Which of the stand's speeds it turns at."`
	Symmetry source.Text  `toml:"symmetry" jsonschema:"example=6" jsonschema_description:"Faces of the product that look alike."`
	Radius   source.Text  `toml:"radius" jsonschema:"example=45 mm" jsonschema_description:"From the middle of the stand to the farthest part of the product that shows."`
	Pixels   source.Text  `toml:"pixels-per-mm" jsonschema:"example=12" jsonschema_description:"Pixels of the finished picture to a millimetre of the product."`
	Start    source.Text  `toml:"start" jsonschema:"example=0 deg" jsonschema_description:"Where frame 0 finds it, for a stand that can be started in phase."`
	Between  source.Texts `toml:"between" jsonschema_description:"Shortest and longest loop to look among, on screen."`
	Within   source.Text  `toml:"within" jsonschema:"example=0.5 px,example=0.1 deg,example=0.2 mm" jsonschema_description:"How far from its face it may be when the loop comes round; beyond that the plan does not hold. Left out, there is a caution only."`
}

// spinner understands one stand of the shot.
type spinner struct {
	*source.Report
	raw  RawSpin
	path string // "spin.display."
	time timing
}

func (raw Raw) spins(report *source.Report, t timing) []Spin {
	var out []Spin
	for _, name := range source.InOrder(raw.Spin, func(s RawSpin) source.Place { return s.Place }) {
		b := spinner{report, raw.Spin[name], "spin." + name + ".", t}
		rig.CheckName(report, b.raw.Place, strings.TrimSuffix(b.path, "."), name)
		out = append(out, b.build(name))
	}
	return out
}

func (b spinner) build(name string) Spin {
	at := b.raw.Place
	s := Spin{Name: name, Line: at.Line, Column: at.Column, Origin: at.Origin, Speed: b.raw.Speed.Text}
	if b.raw.Speed.Set && s.Speed == "" {
		b.Wrong(b.raw.Speed, b.path+"speed", "must be the name of one of the stand's speeds", `such as "slow"`)
	}
	s.Symmetry = b.symmetry()
	s.Radius = b.above0(b.raw.Radius, "radius", unit.Length, maxRadius, "45 mm")
	s.Pixels = b.above0(b.raw.Pixels, "pixels-per-mm", unit.Number, maxPixels, "12")
	if b.raw.Start.Set {
		q, ok := b.Quantity(b.raw.Start, b.path+"start", unit.Angle)
		s.Start, s.Started = q.Value, ok
	}
	s.Shortest, s.Longest = b.between()
	s.Within = b.within(s)
	return s
}

func (b spinner) symmetry() int64 {
	if !b.raw.Symmetry.Set {
		b.Default(b.path+"symmetry", "1", "as if no two faces looked alike")
		return 1
	}
	return symmetry(b.Report, b.raw.Symmetry, b.path+"symmetry")
}

// symmetry reads a count of faces; 1 where it is none.
func symmetry(report *source.Report, t source.Text, path string) int64 {
	n, ok := report.Whole(t, path, 1, maxSymmetry)
	if !ok {
		return 1
	}
	return n
}

// above0 reads what may be left out but not be 0; 0 stands for left out.
func (b spinner) above0(t source.Text, key string, dim unit.Dimension, most exact.Rat, example string) exact.Rat {
	if !t.Set {
		return exact.Rat{}
	}
	q, ok := b.Quantity(t, b.path+key, dim)
	if ok && (q.Value.Sign() <= 0 || most.Less(q.Value)) {
		b.Wrong(t, b.path+key, fmt.Sprintf("must be above 0 and at most %s", unit.Format(most.Float(), dim)), fmt.Sprintf("such as %q", example))
		return exact.Rat{}
	}
	return q.Value
}

// between reads the loops to look among; left out, from half the loop to twice
// the loop.
func (b spinner) between() (shortest, longest exact.Rat) {
	t, path := b.raw.Between, b.path+"between"
	loop := b.time.loop.OnScreen()
	shortest, longest = loop.Mul(half), loop.Add(loop)
	switch {
	case !t.Set && b.time.known:
		b.Default(path, fmt.Sprintf("%s s to %s s", shortest.Decimal(3), longest.Decimal(3)), "half the loop to twice the loop")
		return shortest, longest
	case !t.Set:
		return shortest, longest
	case t.Single || len(t.Items) != 2:
		b.Add(t.Place(), path, "", "must have two ends", `such as ["4 s", "12 s"]`)
		return shortest, longest
	}
	low, ok := b.screen(t.Items[0], path+"[1]")
	high, ok2 := b.screen(t.Items[1], path+"[2]")
	switch {
	case !ok || !ok2:
	case !low.Less(high):
		b.Wrong(t.Items[1], path+"[2]", "must be above the first end, "+low.Decimal(3)+" s", "an empty range holds no loop")
	default:
		return low, high
	}
	return shortest, longest
}

// screen reads a time on screen above 0, of at most so many frames as a loop
// may have.
func (b spinner) screen(t source.Text, path string) (exact.Rat, bool) {
	if !t.Set {
		return exact.Rat{}, false
	}
	q, ok := b.Quantity(t, path, unit.Time, unit.Frames)
	if !ok {
		return exact.Rat{}, false
	}
	sec := q.Value
	if q.Dim == unit.Frames {
		sec = sec.Quo(b.time.clock.Playback)
	}
	if sec.Sign() <= 0 || exact.Int(clock.MaxFrames).Less(sec.Mul(b.time.clock.Playback)) {
		b.Wrong(t, path, fmt.Sprintf("must be above 0 s and at most %d frames", clock.MaxFrames), "")
		return exact.Rat{}, false
	}
	return sec, true
}

// within reads the bound on the closing.
func (b spinner) within(s Spin) Bound {
	t, path := b.raw.Within, b.path+"within"
	if !t.Set {
		b.Default(path, "a caution", "no bound is stated, so a seam that shows is told and not refused")
		return Bound{}
	}
	bound, ok := b.bound(t, path)
	if !ok {
		return Bound{}
	}
	switch {
	case bound.Value.Sign() <= 0:
		b.Wrong(t, path, "must be above 0", `a stand is never exact; "0.5 px" is usual`)
	case bound.In != Degrees && s.Radius.Sign() == 0:
		b.Wrong(t, path, "needs the radius of the product", `give it, such as radius = "45 mm", or a bound in degrees`)
	case bound.In == Pixels && s.Pixels.Sign() == 0:
		b.Wrong(t, path, "needs the scale of the picture", `give it, such as pixels-per-mm = 12, or a bound in mm or degrees`)
	default:
		return bound
	}
	return Bound{}
}

// bound reads "0.5 px", "0.1 deg" or "0.2 mm".
func (b spinner) bound(t source.Text, path string) (Bound, bool) {
	if number, px := strings.CutSuffix(strings.TrimSpace(t.Text), "px"); px {
		n, err := exact.Parse(number)
		if err != nil {
			b.Fail(t, path, err)
		}
		return Bound{n, Pixels}, err == nil
	}
	q, err := unit.ParseAs(t.Text, unit.Angle, unit.Length)
	if err != nil {
		b.Wrong(t, path, "must be in px, deg or mm", `such as "0.5 px"`)
		return Bound{}, false
	}
	if q.Dim == unit.Angle {
		return Bound{q.Value, Degrees}, true
	}
	return Bound{q.Value, Rim}, true
}

// MMPerDegree returns the arc that a degree is at the product's radius, pi r /
// 180; 0 where no radius is stated.
func (s Spin) MMPerDegree() float64 { return s.Radius.Float() * math.Pi / 180 }
