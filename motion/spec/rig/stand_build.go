package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// Bounds of a stand. A turn in a hundredth of a second throws whatever stands
// on it, a turn a day is the slowest clockwork there is; a speed that wanders
// by more than a tenth is no speed.
var (
	minPeriod, maxPeriod = exact.New(1, 100), exact.Int(86_400)
	maxDrift             = exact.New(1, 10)
	maxReaction          = exact.Int(1) // s: slower than that is no stopwatch
)

// stands reads every stand. A name that an axis has is taken.
func (raw Raw) stands(report *source.Report, prefix string) []Stand {
	var out []Stand
	for _, name := range source.InOrder(raw.Stand, func(s RawStand) source.Place { return s.Place }) {
		b := standBuilder{report, raw.Stand[name], prefix + "stand." + name + "."}
		CheckName(report, b.raw.Place, strings.TrimSuffix(b.path, "."), name)
		if _, taken := raw.Axis[name]; taken {
			report.Add(b.raw.Place, strings.TrimSuffix(b.path, "."), "", "is the name of an axis already", "call one of the two something else")
		}
		before := report.Wrongs()
		one := b.build(name)
		one.Faulty = report.Wrongs() > before
		out = append(out, one)
	}
	return out
}

// standBuilder understands one stand.
type standBuilder struct {
	report *source.Report
	raw    RawStand
	path   string // "stand.display."
}

func (b standBuilder) build(name string) Stand {
	s := Stand{Phased: b.raw.StartInPhase.On}
	s.Name, s.Direction, s.Regulation, s.Regulated = name, b.direction(), b.drift(), b.raw.Drift.Set
	if !b.raw.StartInPhase.Set {
		b.report.Default(b.path+"start-in-phase", "false", "most stands start wherever they stopped")
	}
	reaction := b.reaction()
	if len(b.raw.Speed) == 0 {
		b.report.Add(b.raw.Place, b.path+"speed", "", "is missing: a stand has at least one speed",
			fmt.Sprintf(`give it, such as [%sspeed.slow] with measured = ["20 turns in 412.3 s"]`, b.path))
	}
	for _, speed := range source.InOrder(b.raw.Speed, func(v RawStandSpeed) source.Place { return v.Place }) {
		m := speedBuilder{b.report, b.raw.Speed[speed], b.path + "speed." + speed + ".", reaction}
		CheckName(b.report, m.raw.Place, strings.TrimSuffix(m.path, "."), speed)
		v, basis := m.build(speed)
		s.Speeds, s.Bases = append(s.Speeds, v), append(s.Bases, basis)
	}
	return s
}

func (b standBuilder) direction() spin.Direction {
	if !b.raw.Direction.Set {
		b.report.Default(b.path+"direction", spin.Clockwise.String(), "seen from above")
		return spin.Clockwise
	}
	d, err := spin.ParseDirection(b.raw.Direction.Text)
	if err != nil {
		b.report.Fail(b.raw.Direction, b.path+"direction", err)
	}
	return d
}

func (b standBuilder) drift() exact.Rat {
	if !b.raw.Drift.Set {
		b.report.Default(b.path+"drift", "not known", "the rig states none, so that no bound is known to be kept")
		return exact.Rat{}
	}
	q, ok := b.report.Quantity(b.raw.Drift, b.path+"drift", unit.Number)
	if ok && (q.Value.Sign() < 0 || maxDrift.Less(q.Value)) {
		b.report.Wrong(b.raw.Drift, b.path+"drift", "must be from 0 % to 10 %", `such as "1 %"`)
	}
	return q.Value
}

// reaction reads the standard uncertainty of one press of the stopwatch.
func (b standBuilder) reaction() exact.Rat {
	t, path := b.raw.Reaction, b.path+"reaction"
	usual := spin.Reaction.Decimal(3) + " s"
	if !t.Set {
		if b.watched() {
			b.report.Default(path, usual, "an assumption: how far off a press of the stopwatch is")
		}
		return spin.Reaction
	}
	q, ok := b.report.Quantity(t, path, unit.Time)
	if ok && (q.Value.Sign() <= 0 || maxReaction.Less(q.Value)) {
		b.report.Wrong(t, path, "must be above 0 s and at most "+maxReaction.String()+" s", fmt.Sprintf("%q is usual", usual))
		return spin.Reaction
	}
	return q.Value
}

// watched tells whether a stopwatch was used for any speed.
func (b standBuilder) watched() bool {
	for _, v := range b.raw.Speed {
		for _, t := range v.Measured.Items {
			if !strings.Contains(t.Text, "frame") {
				return true
			}
		}
	}
	return false
}
