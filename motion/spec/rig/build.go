package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// axisBuilder understands one axis of a rig.
type axisBuilder struct {
	report     *source.Report
	raw        RawAxis
	path       string // "axis.rail."
	controller ControllerKind
}

func (b axisBuilder) build(name string) Axis {
	CheckName(b.report, b.raw.Place, strings.TrimSuffix(b.path, "."), name)
	if !b.controller.Driven() {
		return b.byHand(name)
	}
	stray(b.report, b.raw, b.path, []string{"stops", "distances"}, true, "belongs to a rig that is set and started by hand, and this one is "+b.controller.String())
	a := Axis{Name: name}
	a.Kind = b.kind()
	b.travel(&a)
	b.home(&a)
	b.homeLine(&a)
	dims := b.dimensions(a.Kind)
	a.MaxSpeed = b.limit(b.raw.Speed, "speed", dims[0])
	a.MaxAcc = b.limit(b.raw.Acceleration, "acceleration", dims[1])
	if b.raw.Jerk.Set {
		a.MaxJerk = b.limit(b.raw.Jerk, "jerk", dims[2])
	} else {
		b.report.Default(b.path+"jerk", "no limit", "the rig states none")
	}
	a.Reverse = b.reverse()
	a.StepsPerUnit, a.Mechanics = b.mechanics(a.Kind)
	b.backlash(&a)
	b.settings(&a)
	a.Shake = b.shake()
	b.drive(&a)
	return a
}

func (b axisBuilder) dimensions(k Kind) [3]unit.Dimension {
	if k == Rotary {
		return [3]unit.Dimension{unit.AngularSpeed, unit.AngularAcceleration, unit.AngularJerk}
	}
	return [3]unit.Dimension{unit.Speed, unit.Acceleration, unit.Jerk}
}

// kind reads the kind, or tells it from the travel.
func (b axisBuilder) kind() Kind {
	if b.raw.Kind.Set {
		if w, _ := b.report.Choice(b.raw.Kind, b.path+"kind", "linear", "rotary"); w == "rotary" {
			return Rotary
		}
		return Linear
	}
	k := Linear
	for _, t := range b.raw.Travel.Items {
		q, err := unit.Parse(t.Text)
		if t.Text == endless || err == nil && (q.Dim == unit.Angle || q.Dim == unit.Turns) {
			k = Rotary
		}
	}
	b.report.Default(b.path+"kind", k.String(), "as its travel is written")
	return k
}

func (b axisBuilder) reverse() bool {
	if !b.raw.Direction.Set {
		b.report.Default(b.path+"direction", "forward", "it moves the way its numbers grow")
		return false
	}
	w, _ := b.report.Choice(b.raw.Direction, b.path+"direction", "forward", "reverse")
	return w == "reverse"
}

const endless = "endless"

func (b axisBuilder) travel(a *Axis) {
	t, path := b.raw.Travel, b.path+"travel"
	example := `["0 mm", "400 mm"]`
	if a.Kind == Rotary {
		example = `"endless" or ["-90 deg", "90 deg"]`
	}
	switch {
	case !t.Set:
		b.report.Missing(b.raw.Place, path, example)
	case t.Single && t.Items[0].Text == endless:
		a.Endless = a.Kind == Rotary
		if !a.Endless {
			b.report.Wrong(t.Items[0], path, "must be two ends on a linear axis", "such as "+example)
		}
	case t.Single || len(t.Items) != 2:
		b.report.Add(t.Place(), path, "", "must have two ends", "such as "+example)
	default:
		b.ends(a, t, path)
	}
}

func (b axisBuilder) ends(a *Axis, t source.Texts, path string) {
	low, ok := b.position(a.Kind, t.Items[0], path+"[1]")
	high, ok2 := b.position(a.Kind, t.Items[1], path+"[2]")
	if !ok || !ok2 {
		return
	}
	a.Min, a.Max = low.Float(), high.Float()
	switch {
	case high.Value.Less(low.Value):
		b.report.Wrong(t.Items[1], path, "must be above the first end, "+low.String(), "swap the two")
	case high.Value.Equal(low.Value):
		b.report.Wrong(t.Items[1], path, "must be above the first end, "+low.String(), "an axis without travel is no axis")
	}
}

// position reads a length or an angle, as the kind of axis has it. A text that
// was of the wrong shape has been reported already.
func (b axisBuilder) position(k Kind, t source.Text, path string) (unit.Quantity, bool) {
	if !t.Set {
		return unit.Quantity{}, false
	}
	want := unit.Length
	if k == Rotary {
		want = unit.Angle
	}
	return b.report.Quantity(t, path, want)
}

func (b axisBuilder) home(a *Axis) {
	t, path := b.raw.Home, b.path+"home"
	if !t.Set {
		a.Home = min(max(0, a.Min), a.Max)
		b.report.Default(path, fmt.Sprintf("%g %s", a.Home, a.Unit()), "the nearest to 0 in its travel")
		return
	}
	q, ok := b.position(a.Kind, t, path)
	if ok && a.Min < a.Max && !a.Contains(q.Float()) {
		b.report.Wrong(t, path, fmt.Sprintf("must be inside the travel, %g to %g %s", a.Min, a.Max, a.Unit()), "")
	}
	a.Home = q.Float()
}

// homeLine reads how it is homed, if otherwise than by the controller's line.
func (b axisBuilder) homeLine(a *Axis) {
	t, path := b.raw.HomeLine, b.path+"home-line"
	switch {
	case !t.Set && a.Endless:
		b.report.Default(path, none, "it is endless: any angle will do for its 0")
	case !t.Set:
	case t.Text == none:
		a.NoSwitch = true
	default:
		c := controllerBuilder{report: b.report, path: b.path}
		c.words(t, "home-line", &a.HomeLine)
	}
}

// homeClash finds a real-time byte in the line that homes an axis: it would be
// picked out of it.
func (raw RawAxis) homeClash(report *source.Report, path string, c Controller, a Axis) {
	for _, r := range []byte{c.Status, c.Hold, c.Resume, c.Abort} {
		if r != 0 && strings.IndexByte(a.HomeLine, r) >= 0 {
			report.Wrong(raw.HomeLine, path+"home-line", "must not hold the real-time byte "+byteName(r), "")
		}
	}
}

// limit reads a limit, which has to be there and above 0.
func (b axisBuilder) limit(t source.Text, key string, dim unit.Dimension) float64 {
	if !t.Set {
		b.report.Missing(b.raw.Place, b.path+key, fmt.Sprintf("%q", dim.Example()))
		return 0
	}
	q, ok := b.report.Quantity(t, b.path+key, dim)
	if ok && q.Value.Sign() <= 0 {
		b.report.Wrong(t, b.path+key, "must be above 0 "+dim.Unit(), "")
	}
	return q.Float()
}
