package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// measured works the period out from what was timed or counted.
func (b speedBuilder) measured(v *spin.Speed) (basis string) {
	readings, ok := b.readings()
	if !ok {
		return ""
	}
	m, err := spin.Measure(readings)
	if err != nil {
		b.report.Fail(b.raw.Measured.Items[0], b.path+"measured", err)
		return ""
	}
	if !b.inBounds(b.raw.Measured.Items[0], "measured", m.Period) {
		return ""
	}
	v.Period, v.Sigma = m.Period, m.Sigma
	if !m.Sigma.Less(m.Period) {
		b.report.Wrong(b.raw.Measured.Items[0], b.path+"measured", fmt.Sprintf("leaves an uncertainty of %s s, and it must be below the period, %s s",
			m.Sigma.Decimal(3), m.Period.Decimal(3)), "time more turns at a stretch")
	}
	return basisOf(readings)
}

func (b speedBuilder) readings() ([]spin.Reading, bool) {
	t, path := b.raw.Measured, b.path+"measured"
	assume := spin.Assume{Reaction: b.reaction}
	all := true
	if b.raw.FilmedAt.Set {
		assume.Capture, all = b.rate()
	}
	if t.Set && len(t.Items) == 0 {
		b.report.Add(t.Place(), path, "", "must have a line", `such as "20 turns in 412.3 s"`)
		return nil, false
	}
	var out []spin.Reading
	for i, item := range t.Items {
		at := path
		if !t.Single {
			at = fmt.Sprintf("%s[%d]", path, i+1)
		}
		r, ok := b.reading(item, at, assume)
		out, all = append(out, r), all && ok
	}
	return out, all
}

func (b speedBuilder) reading(t source.Text, path string, assume spin.Assume) (spin.Reading, bool) {
	if !t.Set {
		return spin.Reading{}, false
	}
	if b.raw.FilmedAt.Set && assume.Capture.Sign() == 0 { // a fault of the rate, told already
		assume.Capture = exact.Int(1)
	}
	r, err := spin.ParseReading(t.Text, assume)
	switch {
	case err == nil:
		return r, true
	case !b.raw.FilmedAt.Set && strings.Contains(t.Text, "frame"):
		b.report.Wrong(t, path, "counts frames, and no capture rate says how long one is", `give it, such as filmed-at = "119.88"`)
	default:
		b.report.Fail(t, path, err)
	}
	return r, false
}

// rate reads the capture rate at which frames were counted.
func (b speedBuilder) rate() (exact.Rat, bool) {
	r, err := clock.ParseRate(b.raw.FilmedAt.Text)
	if err != nil {
		b.report.Fail(b.raw.FilmedAt, b.path+"filmed-at", err)
		return exact.Rat{}, false
	}
	return r, true
}

// basisOf says where a period comes from: "60 turns timed in 3 readings".
func basisOf(readings []spin.Reading) string {
	var turns exact.Rat
	watch, picture := false, false
	for _, r := range readings {
		turns = turns.Add(r.Turns)
		watch, picture = watch || !r.Picture, picture || r.Picture
	}
	how := "by stopwatch"
	switch {
	case watch && picture:
		how = "by stopwatch and in the picture"
	case picture:
		how = "in the picture"
	}
	count := "one reading"
	if n := len(readings); n > 1 {
		count = fmt.Sprintf("%d readings", n)
	}
	return fmt.Sprintf("%s measured %s in %s", unit.Format(turns.Float(), unit.Turns), how, count)
}
