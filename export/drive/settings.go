package drive

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/spec/rig"
)

// settings are what a controller prints of itself, by name: "$100" of a line
// "$100=80.000", "M92 X" of a line "M92 X80.00 Y400.00".
type settings map[string]float64

// hear takes one line in. Lines of another form are passed over.
func (s settings) hear(line string) { pairs(line, s.keep) }

// pairs tells the settings of a line: what it calls each, and what stands there.
func pairs(line string, each func(name, value string)) {
	if name, value, ok := strings.Cut(line, "="); ok {
		if f := strings.Fields(value); len(f) > 0 {
			each(strings.TrimSpace(name), f[0])
		}
		return
	}
	line = line[strings.LastIndexByte(line, ':')+1:]
	words := strings.Fields(line)
	for _, w := range words[min(1, len(words)):] {
		each(words[0]+" "+w[:1], w[1:])
	}
}

func (s settings) keep(name, value string) {
	if x, ok := number(value); ok {
		s[name] = x
	}
}

// settingGrain is how far a printed setting may be from the rig file's, as a
// share: controllers print three decimals of 80 steps a millimetre.
const settingGrain = 1e-4

// differences returns, in words, every setting of an axis that is not as the
// rig file says.
func (s settings) differences(a rig.Axis) []string {
	var out []string
	perMinute := a.Settings.Speed * secondsMinute
	for _, c := range []struct {
		name, what string
		want       []float64
	}{
		{a.Settings.StepsName, "steps per " + a.Unit(), []float64{a.StepsPerUnit.Float()}},
		// Controllers print speeds a second or a minute.
		{a.Settings.SpeedName, "speed, " + a.Unit() + "/min", []float64{perMinute, a.Settings.Speed}},
		{a.Settings.AccelerationName, "acceleration, " + a.Unit() + "/s2", []float64{a.Settings.Acceleration}},
	} {
		got, told := s[c.name]
		switch {
		case c.name == "":
		case !told:
			out = append(out, fmt.Sprintf("axis %s: %s: it does not print %s", a.Name, c.what, c.name))
		case !near(got, c.want...):
			out = append(out, fmt.Sprintf("axis %s: %s: %s is %v and the rig file says %v", a.Name, c.what, c.name, got, c.want[0]))
		}
	}
	return out
}

func near(got float64, want ...float64) bool {
	as := func(w float64) bool { return math.Abs(got-w) <= settingGrain*math.Abs(w) }
	return slices.ContainsFunc(want, as)
}

// check reads the settings back and refuses to go on when any differs, or is one
// that a take cannot be driven with.
func (t *lineController) check() error {
	if t.controller.Status == 0 {
		t.Observer.Say("it does not report where it stands: that it moves as planned is known from its answers alone")
	}
	if t.controller.SettingsLine == "" {
		t.Observer.Say("it does not print its settings: they are not compared with the rig file")
		return nil
	}
	if err := t.readSettings(); err != nil {
		return err
	}
	var all []string
	for _, a := range t.axes {
		all = append(all, t.read.differences(a)...)
		if _, told := t.read[a.Settings.StepsName]; !told && t.controller.DoubtfulLetter(a) {
			all = append(all, fmt.Sprintf("axis %s: a board of this kind may have X, Y and Z alone, and then no %s: give the axis the letter that its motor is wired to", a.Name, a.Letter))
		}
	}
	if all = append(all, t.checkBoard(t.read)...); len(all) > 0 {
		return failed(Mismatched, "%s", strings.Join(all, "\n"))
	}
	return nil
}

// readSettings makes it print its settings, and keeps them. It is not late while it
// prints: texts of some kilobytes take seconds on a slow wire.
func (t *lineController) readSettings() error {
	t.read = settings{}
	t.ear = func(line string) {
		t.read.hear(line)
		for i := range t.flight {
			t.flight[i].by = t.now.Add(patience)
		}
	}
	defer func() { t.ear = nil }()
	return t.exchange(t.controller.SettingsLine, patience)
}
