package rig

import (
	"strconv"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// settings reads what the controller is set to for the axis; its own limits
// stand in where the rig does not say.
func (b axisBuilder) settings(a *Axis) {
	a.Settings.Acceleration, a.Settings.Speed = a.MaxAcc, a.MaxSpeed
	var raw RawSettings
	if b.raw.Settings != nil {
		raw = *b.raw.Settings
	}
	dims := b.dimensions(a.Kind)
	var filled []string
	for _, s := range []struct {
		key   string
		text  source.Text
		dim   unit.Dimension
		value *float64
		left  *bool
	}{
		{"acceleration", raw.Acceleration, dims[1], &a.Settings.Acceleration, &a.Assumed.Acceleration},
		{"speed", raw.Speed, dims[0], &a.Settings.Speed, &a.Assumed.Speed},
	} {
		if s.text.Set {
			*s.value = b.limit(s.text, "settings."+s.key, s.dim)
		} else {
			*s.left = true
			filled = append(filled, s.key+" "+unit.Format(*s.value, s.dim))
		}
	}
	if len(filled) > 0 {
		b.report.Default(b.path+"settings", strings.Join(filled, ", "), "as if the controller is set to the axis' limits")
	}
}

// Names of the settings that a buffered controller prints, for its letters in
// this order: the first is that of steps, ten on that of speed, twenty on that
// of acceleration, thirty on that of travel (common practice of the kind).
const (
	settingLetters                                            = "XYZABC"
	stepsSetting, speedSetting, accelerationOf, travelSetting = 100, 110, 120, 130
)

// UsualNames returns the names that a controller has for the settings of the
// axis with a letter, as far as its kind tells.
func (c Controller) UsualNames(letter string) AxisSettings {
	i := strings.Index(settingLetters, letter)
	if !c.Kind.Counted() || c.SettingsLine == "" || letter == "" || i < 0 {
		return AxisSettings{}
	}
	name := func(base int) string { return "$" + strconv.Itoa(base+i) }
	return AxisSettings{
		StepsName: name(stepsSetting), SpeedName: name(speedSetting), AccelerationName: name(accelerationOf), TravelName: name(travelSetting),
	}
}

// reports reads the names under which the controller prints its settings for
// the axis. It wants the letter.
func (raw RawAxis) reports(report *source.Report, path string, c Controller, a *Axis) {
	names := c.UsualNames(a.Letter)
	var given RawReports
	if raw.Reports != nil {
		given = *raw.Reports
	}
	b := controllerBuilder{report: report, path: path + "reports."}
	b.words(given.Steps, "steps", &names.StepsName)
	b.words(given.Speed, "speed", &names.SpeedName)
	b.words(given.Acceleration, "acceleration", &names.AccelerationName)
	b.words(given.Travel, "travel", &names.TravelName)
	if len(b.filled) > 0 {
		report.Default(path+"reports", strings.Join(b.filled, ", "), "as a "+c.Kind.String()+" controller prints them")
	}
	names.Acceleration, names.Speed = a.Settings.Acceleration, a.Settings.Speed
	a.Settings = names
}
