package rig

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
)

// defaultDamping is what a bolted frame of aluminium with a camera on it has,
// one to three hundredths of critical: common practice.
var defaultDamping = exact.New(2, 100)

// MinDamping keeps a loop that is in step with the rig from growing without
// end: nothing made of screws rings longer.
const MinDamping = 0.0005

// RawShake is a shake = { ... } value of an axis: how what it carries swings.
type RawShake struct {
	Place       source.Place `toml:"-"`
	Frequency   source.Text  `toml:"frequency" jsonschema:"example=5.2 Hz" jsonschema_description:"Natural frequency of what the axis carries, along the axis."`
	Uncertainty source.Text  `toml:"uncertainty" jsonschema:"example=0.1 Hz" jsonschema_description:"Standard uncertainty of the frequency."`
	Damping     source.Text  `toml:"damping" jsonschema:"example=3 %" jsonschema_description:"Damping as a share of critical."`
	Peaks       source.Texts `toml:"peaks" jsonschema_description:"Instead of both: heights and times of peaks as it comes to rest after a knock, such as 4.2 at 0.31 s."`
}

// shake reads how the axis swings; the zero value where the rig does not say.
func (b axisBuilder) shake() ringdown.Measured {
	if b.raw.Shake == nil {
		return ringdown.Measured{}
	}
	s := shakeBuilder{b.report, *b.raw.Shake, b.path + "shake."}
	if s.raw.Peaks.Set {
		return s.peaks()
	}
	return s.stated()
}

type shakeBuilder struct {
	report *source.Report
	raw    RawShake
	path   string // "axis.rail.shake."
}

func (b shakeBuilder) stated() ringdown.Measured {
	var m ringdown.Measured
	if !b.raw.Frequency.Set {
		b.report.Missing(b.raw.Place, b.path+"frequency", `"5.2 Hz"`)
	} else if q, ok := b.report.Quantity(b.raw.Frequency, b.path+"frequency", unit.Frequency); ok {
		m.Spring.Frequency = q.Float()
		if !(m.Spring.Frequency >= spring.MinFrequency && m.Spring.Frequency <= spring.MaxFrequency) {
			b.report.Wrong(b.raw.Frequency, b.path+"frequency", fmt.Sprintf("must be from %g Hz to %d Hz", spring.MinFrequency, spring.MaxFrequency), "")
			m.Spring.Frequency = 0
		}
	}
	m.FrequencySure = b.uncertainty(m.Spring.Frequency)
	m.Spring.Damping = b.damping()
	return m
}

func (b shakeBuilder) uncertainty(frequency float64) float64 {
	t, path := b.raw.Uncertainty, b.path+"uncertainty"
	if !t.Set {
		return 0
	}
	q, ok := b.report.Quantity(t, path, unit.Frequency)
	if ok && (q.Value.Sign() < 0 || frequency > 0 && q.Float() > frequency/2) {
		b.report.Wrong(t, path, "must be from 0 Hz to half the frequency", "measure it again: more peaks are better")
	}
	return q.Float()
}

func (b shakeBuilder) damping() float64 {
	t, path := b.raw.Damping, b.path+"damping"
	if !t.Set {
		b.report.Default(path, "2 %", "an assumption: bolted frames have one to three")
		return defaultDamping.Float()
	}
	q, ok := b.report.Quantity(t, path, unit.Number)
	if d := q.Float(); ok && !(d >= MinDamping && d <= spring.MaxDamping) {
		b.report.Wrong(t, path, fmt.Sprintf("must be from %g %% to %g %%", 100*MinDamping, 100*spring.MaxDamping), `such as "2 %"`)
	}
	return q.Float()
}

// peaks works both out from a ring-down.
func (b shakeBuilder) peaks() ringdown.Measured {
	for _, other := range []struct {
		key  string
		text source.Text
	}{{"frequency", b.raw.Frequency}, {"damping", b.raw.Damping}, {"uncertainty", b.raw.Uncertainty}} {
		if other.text.Set {
			b.report.Wrong(other.text, b.path+other.key, "is given, and so are peaks that say it", "keep one of the two")
		}
	}
	var peaks []ringdown.Peak
	path := b.path + "peaks"
	for i, t := range b.raw.Peaks.Items {
		if !t.Set {
			return ringdown.Measured{}
		}
		p, err := ringdown.ParsePeak(t.Text)
		if err != nil {
			b.report.Fail(t, fmt.Sprintf("%s[%d]", path, i+1), err)
			return ringdown.Measured{}
		}
		peaks = append(peaks, p)
	}
	m, err := ringdown.FromPeaks(peaks)
	if err == nil && m.Spring.Damping < MinDamping {
		err = fmt.Errorf("the peaks say a damping of %.2g %%, and it must be %g %% or more", 100*m.Spring.Damping, 100*MinDamping)
	}
	if err != nil {
		b.report.Add(b.raw.Peaks.Place(), path, "", err.Error(), `such as peaks = ["8.1 at 0.10 s", "6.7 at 0.29 s", "5.6 at 0.48 s"]`)
		return ringdown.Measured{}
	}
	return m
}
