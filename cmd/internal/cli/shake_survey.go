package cli

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/export/shakereport"
	"seamrail/motion/calm"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shake/ringdown"
	"seamrail/motion/shot"
	"seamrail/motion/trajectory"
	"seamrail/motion/unit"
)

// survey loads the shot, finds out how the axis swings, and looks at it.
func (o *ShakeOptions) survey() (shakereport.Data, error) {
	var d shakereport.Data
	s, r, err := o.Shot.load(o.Streams.In)
	if err != nil {
		return d, err
	}
	i, err := shakenAxis(s, r, o.Shot.Axis)
	if err != nil {
		return d, err
	}
	m, source, err := o.spring(r.Axes[i])
	if err != nil {
		return d, err
	}
	known := r.Axes[i].Shake
	r.Axes[i].Shake = m
	p, err := plan.Build(s, r)
	if err != nil {
		return d, err
	}
	d.Title, d.Rig, d.Source = p.Title, r.Name, source
	if m != known {
		d.Keep = keep(r.Axes[i].Name, m)
	}
	if d.PerUnit, err = o.pixels(s, r, p, r.Axes[i]); err != nil {
		return d, err
	}
	for k := range p.Axes {
		if p.Axes[k].Rig.Name == r.Axes[i].Name {
			d.Survey = calm.Look(calm.Of(p, &p.Axes[k]), m)
		}
	}
	return d, nil
}

// shakenAxis picks the axis that was named, or the first that moves and whose
// swing is known, or the first that goes there and back, or the first that
// moves.
func shakenAxis(s shot.Shot, r rig.Rig, name string) (int, error) {
	rank := func(a rig.Axis) int {
		m, moves := s.Axis(a.Name)
		switch {
		case !moves:
			return 0
		case a.Shake.Spring.Known() && m.Move != shot.Hold:
			return 3
		case m.Move == shot.ThereAndBack:
			return 2
		}
		return 1
	}
	best, most := 0, 0
	for i, a := range r.Axes {
		switch {
		case a.Name == name && rank(a) == 0:
			return 0, fmt.Errorf("--axis %q does not move in this shot", name)
		case a.Name == name:
			return i, nil
		case rank(a) > most:
			best, most = i, rank(a)
		}
	}
	if name != "" {
		return 0, fmt.Errorf("--axis %q is not on the rig; it has %s", name, strings.Join(r.Names(), ", "))
	}
	if most == 0 {
		return 0, errors.New("no axis of the rig moves in this shot")
	}
	return best, nil
}

// spring is how the axis swings, by the flags or by its rig.
func (o *ShakeOptions) spring(a rig.Axis) (ringdown.Measured, string, error) {
	given := 0
	for _, is := range []bool{o.Frequency != "" || o.Damping != "", len(o.Peaks) > 0, o.RingDown != ""} {
		if is {
			given++
		}
	}
	switch {
	case given > 1:
		return ringdown.Measured{}, "", misused("give one of --frequency, --peaks and --ring-down: each says how it swings")
	case o.Column != 0 && o.RingDown == "":
		return ringdown.Measured{}, "", misused("--column belongs to --ring-down, and there is none")
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
func (o *ShakeOptions) stated(m ringdown.Measured) (ringdown.Measured, string, error) {
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
		return m, "", misused("--damping belongs to a frequency, and there is none; give --frequency")
	}
	if err := m.Spring.Check(); err != nil {
		return m, "", fmt.Errorf("--frequency, --damping: %w", err)
	}
	return m, source, nil
}

func (o *ShakeOptions) fromPeaks() (ringdown.Measured, string, error) {
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

func (o *ShakeOptions) fromRecord() (ringdown.Measured, string, error) {
	fail := func(err error) (ringdown.Measured, string, error) {
		return ringdown.Measured{}, "", fmt.Errorf("--ring-down %s: %w", o.RingDown, err)
	}
	text, err := readRecord(o.RingDown)
	if err != nil {
		return ringdown.Measured{}, "", err
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

// pixels is the scale of the picture at the product, 0 where nothing says it or
// the axis turns.
func (o *ShakeOptions) pixels(s shot.Shot, r rig.Rig, p *plan.Plan, a rig.Axis) (float64, error) {
	if o.Pixels != "" {
		q, err := unit.ParseAs(o.Pixels, unit.Number)
		switch {
		case err != nil:
			return 0, fmt.Errorf("--pixels-per-mm: %w", err)
		case q.Value.Sign() <= 0:
			return 0, fmt.Errorf("--pixels-per-mm %s must be above 0", q)
		case a.Kind == rig.Rotary:
			return 0, fmt.Errorf("--pixels-per-mm says nothing of %s, which turns", a.Name)
		}
		return q.Float(), nil
	}
	if a.Kind == rig.Rotary {
		return 0, nil
	}
	return pixelsPerMM(s, r, trajectory.New(p)), nil
}
