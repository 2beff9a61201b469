package rig

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// speedBuilder understands one speed of a stand.
type speedBuilder struct {
	report   *source.Report
	raw      RawStandSpeed
	path     string // "stand.display.speed.slow."
	reaction exact.Rat
}

// build returns the speed and where it comes from, in words.
func (b speedBuilder) build(name string) (v spin.Speed, basis string) {
	v = spin.Speed{Name: name, Period: exact.Int(1)} // something to go on after a fault
	switch {
	case b.raw.Period.Set && b.raw.Measured.Set:
		b.report.Add(b.raw.Period.Place(), b.path+"period", b.raw.Period.Quoted(), "is given, and so is measured", "keep what was measured")
	case b.raw.Period.Set:
		b.stated(&v)
		basis = "as stated"
	case b.raw.Measured.Set:
		basis = b.measured(&v)
	default:
		b.report.Missing(b.raw.Place, b.path+"measured", `["20 turns in 412.3 s"], or a period and its uncertainty`)
	}
	b.strays()
	return v, basis
}

// strays reports keys that belong to the other way of giving a period.
func (b speedBuilder) strays() {
	if b.raw.Uncertainty.Set && !b.raw.Period.Set {
		b.report.Wrong(b.raw.Uncertainty, b.path+"uncertainty", "belongs to period, and there is none", "what was measured has its own")
	}
	if b.raw.FilmedAt.Set && !b.raw.Measured.Set {
		b.report.Wrong(b.raw.FilmedAt, b.path+"filmed-at", "belongs to measured, and there is none", "")
	}
}

// stated reads a period and its uncertainty as they are written.
func (b speedBuilder) stated(v *spin.Speed) {
	q, ok := b.report.Quantity(b.raw.Period, b.path+"period", unit.Time)
	if !ok || !b.inBounds(b.raw.Period, "period", q.Value) {
		return
	}
	v.Period = q.Value
	t, path := b.raw.Uncertainty, b.path+"uncertainty"
	if !t.Set {
		b.report.Add(b.raw.Place, path, "", "is missing, and a label is not a measurement",
			`give it, such as uncertainty = "0.05 s", or time some turns and write measured = ["20 turns in 412.3 s"]`)
		return
	}
	u, ok := b.report.Quantity(t, path, unit.Time)
	switch {
	case !ok:
	case u.Value.Sign() < 0:
		b.report.Wrong(t, path, "must be 0 s or more", "")
	case !u.Value.Less(q.Value):
		b.report.Wrong(t, path, "must be below the period, "+q.String(), "one as large says that nothing is known; time some turns")
	}
	v.Sigma = u.Value
}

func (b speedBuilder) inBounds(t source.Text, key string, period exact.Rat) bool {
	if !period.Less(minPeriod) && !maxPeriod.Less(period) {
		return true
	}
	b.report.Wrong(t, b.path+key, fmt.Sprintf("must be from %s s to %s s a turn", minPeriod.Decimal(2), maxPeriod), `such as "20.4 s"`)
	return false
}
