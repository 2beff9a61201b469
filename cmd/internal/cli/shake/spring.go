package shake

import (
	"fmt"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/unit"
	"seamrail/motion/spec/rig"
	"seamrail/motion/vibration/ringdown"
)

// spring is how the axis swings, by the flags or by its rig. What hardly fades is
// refused, as in a rig file: it would swing for ever.
func (o *Options) spring(a rig.Axis) (ringdown.Measured, string, error) {
	m, source, err := o.found(a)
	if d := m.Spring.Damping; err == nil && m.Spring.Known() && !(d >= rig.MinDamping) {
		err = fmt.Errorf("the damping of %.3g %% must be %g %% or more, such as \"2 %%\": else it swings for ever", 100*d, 100*rig.MinDamping)
	}
	return m, source, err
}

func (o *Options) found(a rig.Axis) (ringdown.Measured, string, error) {
	given := 0
	for _, is := range []bool{o.Frequency != "" || o.Damping != "", len(o.Peaks) > 0, o.RingDown != ""} {
		if is {
			given++
		}
	}
	switch {
	case given > 1:
		return ringdown.Measured{}, "", exit.Misused("give one of --frequency, --peaks and --ring-down: each says how it swings")
	case o.Column != 0 && o.RingDown == "":
		return ringdown.Measured{}, "", exit.Misused("--column belongs to --ring-down, and there is none")
	case o.RingDown != "":
		return o.fromRecord()
	case len(o.Peaks) > 0:
		return o.fromPeaks()
	case given > 0:
		return o.stated(a.Shake)
	case a.Shake.Spring.Known():
		source := "the rig file"
		if a.Shake.Peaks > 0 {
			source += fmt.Sprintf(", %d peaks", a.Shake.Peaks)
		}
		return a.Shake, source, nil
	}
	return ringdown.Measured{}, "", fmt.Errorf("nobody has said how %s swings: give --ring-down, --peaks or --frequency here, or in the rig file shake = { frequency = \"6 Hz\", damping = \"3 %%\" } under [axis.%s]", a.Name, a.Name)
}

// usualDamping is what a bolted frame has, as in a rig file.
const usualDamping = 0.02

// stated is what --frequency and --damping say, on top of what the rig does.
func (o *Options) stated(m ringdown.Measured) (ringdown.Measured, string, error) {
	source := "the flags"
	if o.Frequency != "" {
		q, err := unit.ParseAs(o.Frequency, unit.Frequency)
		if err != nil {
			return m, "", fmt.Errorf("--frequency: %w", err)
		}
		m.Spring.Frequency, m.FrequencySure = q.Float(), 0
	}
	switch {
	case o.Damping != "":
		q, err := unit.ParseAs(o.Damping, unit.Number)
		if err != nil {
			return m, "", fmt.Errorf("--damping: %w", err)
		}
		m.Spring.Damping, m.DampingSure = q.Float(), 0
	case m.Spring.Damping == 0:
		m.Spring.Damping = usualDamping
		source += "; damping is an assumption, as bolted frames have it"
	}
	if !m.Spring.Known() {
		return m, "", exit.Misused("--damping belongs to a frequency, and there is none; give --frequency")
	}
	if err := m.Spring.Check(); err != nil {
		return m, "", fmt.Errorf("--frequency, --damping: %w", err)
	}
	return m, source, nil
}

func (o *Options) fromPeaks() (ringdown.Measured, string, error) {
	var peaks []ringdown.Peak
	for _, text := range o.Peaks {
		p, err := ringdown.ParsePeak(strings.TrimSpace(text))
		if err != nil {
			return ringdown.Measured{}, "", fmt.Errorf("--peaks: %w", err)
		}
		peaks = append(peaks, p)
	}
	m, err := ringdown.FromPeaks(peaks)
	if err != nil {
		return m, "", fmt.Errorf("--peaks: %w", err)
	}
	return m, fmt.Sprintf("%d peaks", m.Peaks), nil
}

func (o *Options) fromRecord() (ringdown.Measured, string, error) {
	fail := func(err error) (ringdown.Measured, string, error) {
		return ringdown.Measured{}, "", fmt.Errorf("--ring-down %s: %w", o.RingDown, err)
	}
	text, err := textfile.Record(o.RingDown)
	if err != nil {
		return ringdown.Measured{}, "", fmt.Errorf("--ring-down: %w", err)
	}
	r, err := ringdown.ParseRecord(text)
	if err != nil {
		return fail(err)
	}
	column := r.Liveliest()
	if o.Column != 0 {
		column = o.Column - 1
	}
	m, err := ringdown.FromRecord(r, column)
	if err != nil {
		return fail(err)
	}
	name := fmt.Sprintf("column %d", column+1)
	if r.Names[column] != "" {
		name = r.Names[column]
	}
	return m, fmt.Sprintf("%s of %s, %.3g to %.3g s, of whose movement one swing explains %.1f %%",
		name, o.RingDown, m.From, m.To, 100*m.Explained), nil
}

// keep are the lines for the rig file.
func keep(axis string, m ringdown.Measured) []string {
	out := []string{
		fmt.Sprintf("[axis.%s.shake]", axis),
		fmt.Sprintf("frequency = \"%.4g Hz\"", m.Spring.Frequency),
		fmt.Sprintf("damping = \"%.3g %%\"", 100*m.Spring.Damping),
	}
	if m.FrequencySure > 0 {
		out = append(out, fmt.Sprintf("uncertainty = \"%.2g Hz\"", m.FrequencySure))
	}
	return out
}
