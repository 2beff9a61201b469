package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/clock"
	"seamrail/motion/exact"
	"seamrail/motion/source"
	"seamrail/motion/spin"
	"seamrail/motion/unit"
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
	switch said := b.said(); {
	case len(said) == 0:
		b.report.Add(b.raw.Place, b.path+"period", "", "is missing, and so are timed and came-back",
			`give one, such as timed = ["20 turns in 412.3 s"]`)
	case len(said) > 1:
		b.report.Add(b.raw.Place, strings.TrimSuffix(b.path, "."), "", "has "+strings.Join(said, " and "), "keep the one that was measured best")
	case b.raw.Period.Set:
		b.stated(&v)
		basis = "as stated"
	case b.raw.Timed.Set:
		basis = b.timed(&v)
	default:
		basis = b.filmed(&v)
	}
	b.strays()
	return v, basis
}

// said lists which of the ways to give a period are there.
func (b speedBuilder) said() []string {
	var out []string
	for _, k := range []struct {
		key string
		set bool
	}{{"period", b.raw.Period.Set}, {"timed", b.raw.Timed.Set}, {"came-back", b.raw.CameBack.Set}} {
		if k.set {
			out = append(out, k.key)
		}
	}
	return out
}

// strays reports keys that belong to another way.
func (b speedBuilder) strays() {
	if b.raw.Uncertainty.Set && !b.raw.Period.Set {
		b.report.Wrong(b.raw.Uncertainty, b.path+"uncertainty", "belongs to period, and there is none", "what was measured has its own")
	}
	if b.raw.FilmedAt.Set && !b.raw.CameBack.Set {
		b.report.Wrong(b.raw.FilmedAt, b.path+"filmed-at", "belongs to came-back, and there is none", "")
	}
}

// stated reads a period and its uncertainty as they are written.
func (b speedBuilder) stated(v *spin.Speed) {
	q, ok := b.report.Quantity(b.raw.Period, b.path+"period", unit.Time)
	if !ok {
		return
	}
	if !b.inBounds(b.raw.Period, "period", q.Value) {
		return
	}
	v.Period = q.Value
	if !b.raw.Uncertainty.Set {
		b.report.Add(b.raw.Place, b.path+"uncertainty", "", "is missing: a label is not a measurement",
			`give it, such as uncertainty = "0.05 s", or time some turns and write timed = ["20 turns in 412.3 s"]`)
		return
	}
	u, ok := b.report.Quantity(b.raw.Uncertainty, b.path+"uncertainty", unit.Time)
	switch {
	case !ok:
	case u.Value.Sign() < 0:
		b.report.Wrong(b.raw.Uncertainty, b.path+"uncertainty", "must be 0 s or more", "")
	case !u.Value.Less(q.Value):
		b.report.Wrong(b.raw.Uncertainty, b.path+"uncertainty", "must be below the period, "+q.String(), "one as large says that nothing is known; time some turns")
	}
	v.Sigma = u.Value
}

func (b speedBuilder) inBounds(t source.Text, key string, period exact.Rat) bool {
	if period.Less(leastPeriod) || mostPeriod.Less(period) {
		b.report.Wrong(t, b.path+key, fmt.Sprintf("must be from %s s to %s s a turn", leastPeriod.Decimal(2), mostPeriod), `such as "20.4 s"`)
		return false
	}
	return true
}

// rate reads the capture rate at which frames were counted.
func (b speedBuilder) rate() (exact.Rat, bool) {
	if !b.raw.FilmedAt.Set {
		b.report.Missing(b.raw.Place, b.path+"filmed-at", `"119.88"`)
		return exact.Rat{}, false
	}
	r, err := clock.ParseRate(b.raw.FilmedAt.Text)
	if err != nil {
		b.report.Fail(b.raw.FilmedAt, b.path+"filmed-at", err)
	}
	return r, err == nil
}

// timed works the period out from a stopwatch.
func (b speedBuilder) timed(v *spin.Speed) string {
	list, ok := b.readings(b.raw.Timed, "timed", unit.Time)
	if !ok {
		return ""
	}
	return b.fit(v, list, exact.Int(1), b.reaction)
}

// filmed works the period out from the frames at which a mark was back.
func (b speedBuilder) filmed(v *spin.Speed) string {
	rate, known := b.rate()
	list, ok := b.readings(b.raw.CameBack, "came-back", unit.Frames)
	if !ok || !known {
		return ""
	}
	return b.fit(v, list, rate, b.reaction)
}

func (b speedBuilder) fit(v *spin.Speed, list []reading, perSecond, each exact.Rat) string {
	var turns, sum exact.Rat
	for _, r := range list {
		turns, sum = turns.Add(exact.Int(r.turns)), sum.Add(r.value)
	}
	v.Period = sum.Quo(turns).Quo(perSecond)
	v.Sigma = each.Quo(turns)
	return "measured"
}
