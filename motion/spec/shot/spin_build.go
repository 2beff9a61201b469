package shot

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/turntable/spin"
)

// Bounds that no product on a tabletop comes near.
var (
	maxRadius = exact.Int(5_000) // mm
	maxPixels = exact.Int(10_000)
)

// RawSpin is a [spin.NAME] table of a shot.
type RawSpin struct {
	Place    source.Place `toml:"-"`
	Speed    source.Text  `toml:"speed" jsonschema:"example=slow" jsonschema_description:"Which of the stand's speeds it turns at."`
	Symmetry source.Text  `toml:"symmetry" jsonschema:"example=6" jsonschema_description:"Faces of the product that look alike."`
	Radius   source.Text  `toml:"radius" jsonschema:"example=45 mm" jsonschema_description:"From the middle of the stand to the farthest part of the product that shows."`
	Pixels   source.Text  `toml:"pixels-per-mm" jsonschema:"example=12" jsonschema_description:"Pixels of the finished picture to a millimetre of the product."`
	Start    source.Text  `toml:"start" jsonschema:"example=0 deg" jsonschema_description:"Where frame 0 finds it, for a stand that can be started in phase."`
	Within   source.Text  `toml:"within" jsonschema:"example=0.5 px,example=0.1 deg,example=0.2 mm" jsonschema_description:"How far from its face it may be when the loop comes round; beyond that the plan does not hold. Left out, there is a caution only."`
}

// standReader understands one stand of the shot.
type standReader struct {
	*source.Report
	raw  RawSpin
	path string // "spin.display."
	seen seen
}

func (raw Raw) spins(report *source.Report, shot *Shot) []Spin {
	var out []Spin
	of := shot.seen(len(report.Faults) > 0)
	for _, name := range source.InOrder(raw.Spin, func(s RawSpin) source.Place { return s.Place }) {
		b := standReader{report, raw.Spin[name], "spin." + name + ".", seen{}}
		if of.unsure || shot.Scene != nil && shot.Scene.Stand.TableAxis == name {
			b.seen = of
		}
		before := report.Wrongs()
		rig.CheckName(report, b.raw.Place, strings.TrimSuffix(b.path, "."), name)
		one := b.build(name)
		one.Faulty = report.Wrongs() > before
		out = append(out, one)
	}
	return out
}

func (b standReader) build(name string) Spin {
	at := b.raw.Place
	s := Spin{Name: name, Line: at.Line, Column: at.Column, Origin: at.Origin, Speed: b.raw.Speed.Text}
	if b.raw.Speed.Set && s.Speed == "" {
		b.Wrong(b.raw.Speed, b.path+"speed", "must be the name of one of the stand's speeds", `such as "slow"`)
	}
	s.Symmetry = b.symmetry()
	s.Radius = b.as(b.above0(b.raw.Radius, "radius", unit.Length, maxRadius, "45 mm"), b.raw.Radius, "radius", unit.Length, b.seen.radius, "as [scene.product] has it")
	s.Scale = b.as(b.above0(b.raw.Pixels, "pixels-per-mm", unit.Number, maxPixels, "12"), b.raw.Pixels, "pixels-per-mm", unit.Number, b.seen.scale,
		"as [camera] has it, on the near face in frame 0")
	if b.raw.Start.Set {
		q, ok := b.Quantity(b.raw.Start, b.path+"start", unit.Angle)
		s.Start, s.Started = q.Value, ok
	}
	s.Within = b.within(s)
	return s
}

func (b standReader) symmetry() int64 {
	if k := b.seen.symmetry; !b.raw.Symmetry.Set && k > 0 {
		b.Default(b.path+"symmetry", fmt.Sprint(k), "as [scene.product] has it")
		return k
	}
	if !b.raw.Symmetry.Set {
		b.Default(b.path+"symmetry", "1", "as if no two faces looked alike")
		return 1
	}
	n, _ := move.Symmetry(b.Report, b.raw.Symmetry, b.path+"symmetry")
	return n
}

// above0 reads what may be left out but not be 0; 0 stands for left out, and 1
// for what is wrong, so that nothing else complains of it.
func (b standReader) above0(t source.Text, key string, dim unit.Dimension, most exact.Rat, example string) exact.Rat {
	if !t.Set {
		return exact.Rat{}
	}
	q, ok := b.Quantity(t, b.path+key, dim)
	if ok && (q.Value.Sign() <= 0 || most.Less(q.Value)) {
		b.Wrong(t, b.path+key, fmt.Sprintf("must be above 0 and at most %s", unit.Format(most.Float(), dim)), fmt.Sprintf("such as %q", example))
		ok = false
	}
	if !ok {
		return exact.Int(1)
	}
	return q.Value
}

// within reads how far off the loop may close.
func (b standReader) within(s Spin) spin.Bound {
	t, path := b.raw.Within, b.path+"within"
	if !t.Set {
		b.Default(path, s.Product(spin.Stand{}).Bound().String(), "not stated, so beyond it there is a caution and no refusal")
		return spin.Bound{}
	}
	bound, err := spin.ParseBound(t.Text)
	switch {
	case err != nil:
		b.Fail(t, path, errors.New(strings.TrimPrefix(err.Error(), "bound ")))
	case bound.Unit != spin.Degrees && bound.Unit != spin.CapturedFrames && s.Radius.Sign() == 0:
		b.Wrong(t, path, "needs the radius of the product", `give it, such as radius = "45 mm", or a bound in degrees`)
	case bound.Unit == spin.Pixels && s.Scale.Sign() == 0:
		b.Wrong(t, path, "needs the scale of the picture", `give it, such as pixels-per-mm = 12, or a bound in mm or degrees`)
	default:
		return bound
	}
	return spin.Bound{}
}
