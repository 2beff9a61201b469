package unit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]struct {
		value string
		dim   unit.Dimension
	}{
		"240 mm": {"240", unit.Length}, "24 cm": {"240", unit.Length}, "0.24 m": {"240", unit.Length},
		"240mm": {"240", unit.Length}, "-5 mm": {"-5", unit.Length}, "+.5 mm": {"1/2", unit.Length},
		// The inch is 25.4 mm and the foot 304.8 mm exactly: international yard and
		// pound agreement of 1959.
		"9.5 in": {"2413/10", unit.Length}, "1 ft": {"1524/5", unit.Length},
		"90 deg": {"90", unit.Angle}, "90°": {"90", unit.Angle}, "1 degree": {"1", unit.Angle},
		"1/6 turn": {"1/6", unit.Turns}, "2 turns": {"2", unit.Turns}, "-1 / 3 turn": {"-1/3", unit.Turns},
		"6 s": {"6", unit.Time}, "500 ms": {"1/2", unit.Time}, "2 min": {"120", unit.Time},
		"1/250 s": {"1/250", unit.Time}, "144 frames": {"144", unit.Frames}, "1 frame": {"1", unit.Frames},
		"200 mm/s": {"200", unit.Speed}, "0.2 m/s": {"200", unit.Speed}, "600 mm/min": {"10", unit.Speed},
		"800 mm/s2": {"800", unit.Acceleration}, "800 mm/s^2": {"800", unit.Acceleration},
		"800 mm/s²": {"800", unit.Acceleration}, "800 mm / s^2": {"800", unit.Acceleration},
		"3600 mm/min2": {"1", unit.Acceleration}, "60000 mm/s3": {"60000", unit.Jerk},
		"60 m/s^3": {"60000", unit.Jerk}, "1 mm/s³": {"1", unit.Jerk},
		"90 deg/s": {"90", unit.AngularSpeed}, "0.5 turn/s": {"180", unit.AngularSpeed},
		"90°/s": {"90", unit.AngularSpeed}, "1 turn/min": {"6", unit.AngularSpeed},
		"720 deg/s2": {"720", unit.AngularAcceleration}, "2 turn/s²": {"720", unit.AngularAcceleration},
		"1 deg/s3": {"1", unit.AngularJerk}, "40000 steps/s": {"40000", unit.StepRate},
		"40000 /s": {"40000", unit.StepRate}, "60 steps/min": {"1", unit.StepRate},
		"50 Hz": {"50", unit.Frequency}, "4500 lm": {"4500", unit.LightFlow}, "3000 lx": {"3000", unit.Illuminance}, "5600 K": {"5600", unit.Temperature},
		"2400 g": {"12/5", unit.Mass}, "2.4 kg": {"12/5", unit.Mass}, "3 N": {"3", unit.Force}, "44 N cm": {"11/25", unit.Torque},
		"0.44 N m": {"11/25", unit.Torque}, "20 mN m": {"1/50", unit.Torque}, "54 g cm2": {"27/5", unit.Inertia},
		"0.004 kg m2": {"4000", unit.Inertia}, "4000 kg mm2": {"4000", unit.Inertia},
		"5.9 um": {"59/10000", unit.Length}, "5.9 µm": {"59/10000", unit.Length}, "5.9 μm": {"59/10000", unit.Length},
		"10 us": {"1/100000", unit.Time}, "2.5 µs": {"1/400000", unit.Time}, "2.5 μs": {"1/400000", unit.Time},
		"3": {"3", unit.Number}, " 1/2 ": {"1/2", unit.Number}, "50 %": {"1/2", unit.Number},
		"-0": {"0", unit.Number}, "1000000000": {"1000000000", unit.Number},
	} {
		q, err := unit.Parse(text)
		require.NoError(t, err, text)
		assert.Equal(t, want.value, q.Value.String(), text)
		assert.Equal(t, want.dim, q.Dim, text)
	}
}

func TestParseRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"":                       "does not begin with a number",
		"mm":                     "does not begin with a number",
		"NaN mm":                 "does not begin with a number",
		"inf":                    "does not begin with a number",
		"-":                      "does not begin with a number",
		"--3 mm":                 "does not begin with a number",
		"50 hz":                  `has the unit "hz"; write "Hz"`,
		"5600 k":                 `has the unit "k"; write "K"`,
		"4500 LM":                `has the unit "LM"; write "lm"`,
		"50 Hz/s":                "unknown unit",
		"1e3 mm":                 "has an exponent",
		"1E-3":                   "has an exponent",
		"9,5 mm":                 "decimal comma",
		"1.2.3 mm":               "not a number",
		". mm":                   "not a number",
		"1/0 mm":                 "divides by zero",
		"1234567890123456789":    "more than 18 digits",
		"1/1234567890123456789":  "more than 18 digits",
		"240 MM":                 `write "mm"`,
		"240 furlong":            "unknown unit",
		"240 mm/":                "unknown unit",
		"240 mm/s4":              "unknown unit",
		"240 mm/m":               "unknown unit",
		"6 s/s":                  "unknown unit",
		"1 steps/s2":             "unknown unit",
		"40 steps":               "unknown unit",
		"1 mm mm":                "unknown unit",
		"1000000001 mm":          "out of range",
		"-1000001 m":             "out of range",
		"9 \x00":                 "unknown unit",
		strings.Repeat("9", 1e5): "at most 18 digits",
	} {
		_, err := unit.Parse(text)
		assert.ErrorContains(t, err, says, text)
	}
}

func TestParseErrorsStayShort(t *testing.T) {
	for _, text := range []string{"1 " + strings.Repeat("x", 1e5), strings.Repeat("9", 1e5), strings.Repeat("é", 1e5)} {
		_, err := unit.Parse(text)
		require.Error(t, err)
		assert.Less(t, len(err.Error()), 400)
	}
}

func TestParseAs(t *testing.T) {
	for _, c := range []struct {
		text  string
		want  []unit.Dimension
		value string
		dim   unit.Dimension
	}{
		{"240 mm", []unit.Dimension{unit.Length}, "240", unit.Length},
		{"6 s", []unit.Dimension{unit.Frames, unit.Time}, "6", unit.Time},
		{"1/2", []unit.Dimension{unit.Number}, "1/2", unit.Number},
		{"1/6 turn", []unit.Dimension{unit.Angle}, "60", unit.Angle},
		{"60 deg", []unit.Dimension{unit.Turns}, "1/6", unit.Turns},
		{"60 deg", []unit.Dimension{unit.Turns, unit.Angle}, "60", unit.Angle},
	} {
		q, err := unit.ParseAs(c.text, c.want...)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.value, q.Value.String(), c.text)
		assert.Equal(t, c.dim, q.Dim, c.text)
	}
}

func TestParseAsErrorsSayWhatWouldDo(t *testing.T) {
	for _, c := range []struct {
		text string
		want []unit.Dimension
		says string
	}{
		{"240", []unit.Dimension{unit.Length}, `"240" needs a unit, such as "240 mm"`},
		{"6", []unit.Dimension{unit.Time, unit.Frames}, `"6" needs a unit, such as "6 s" or "6 frames"`},
		{"1/4", []unit.Dimension{unit.Number, unit.Length, unit.Angle, unit.Time}[1:],
			`"1/4" needs a unit, such as "1/4 mm", "1/4 deg" or "1/4 s"`},
		{"6 s", []unit.Dimension{unit.Length},
			`"6 s" is a time; it must be a length (mm, cm, m, in or ft), such as "240 mm"`},
		{"6 s", []unit.Dimension{unit.Number}, `"6 s" is a time; it must be a plain number (no unit), such as "3"`},
		{"1e3", []unit.Dimension{unit.Length}, "has an exponent"},
	} {
		_, err := unit.ParseAs(c.text, c.want...)
		assert.ErrorContains(t, err, c.says)
	}
	assert.Panics(t, func() { _, _ = unit.ParseAs("1 mm") })
}

func TestEveryDimensionReadsItsOwnExampleAndUnit(t *testing.T) {
	for d := unit.Number; d <= unit.Inertia; d++ {
		q, err := unit.Parse(d.Example())
		require.NoError(t, err)
		assert.Equal(t, d, q.Dim, d.Example())
		again, err := unit.Parse(q.Value.String() + " " + d.Unit())
		require.NoError(t, err)
		assert.True(t, again.Dim == d && again.Value.Equal(q.Value), d.String())
	}
	assert.Equal(t, "an unknown dimension", unit.Dimension(99).String())
}

// Scaling the number scales the value: the factor of a unit is one number.
func TestParseIsLinear(t *testing.T) {
	symbols := rapid.SampledFrom([]string{"mm", "cm", "in", "deg", "turn", "ms", "min", "mm/s", "turn/s2", "m/s3", ""})
	rapid.Check(t, func(t *rapid.T) {
		n, d := rapid.Int64Range(-1e4, 1e4).Draw(t, "n"), rapid.Int64Range(1, 1e4).Draw(t, "d")
		symbol := symbols.Draw(t, "unit")
		one, err := unit.Parse("1 " + symbol)
		require.NoError(t, err)
		q, err := unit.Parse(fmt.Sprintf("%d/%d %s", n, d, symbol))
		require.NoError(t, err)
		assert.True(t, q.Dim == one.Dim && q.Value.Equal(one.Value.Mul(exact.New(n, d))))
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"240 mm", "-1/6 turn", "1/250 s", "90°", "800 mm/s²", "1e3 mm", "40000 /s", "9,5 mm", "", "\xff"} {
		f.Add(s)
	}
	limit := exact.Int(unit.MaxMagnitude)
	f.Fuzz(func(t *testing.T, s string) {
		q, err := unit.Parse(s)
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		require.False(t, limit.Less(q.Value.Abs()), "%q is out of range", s)
		require.NotContains(t, strings.ToLower(unit.Format(q.Float(), q.Dim)), "nan")
		if len(q.Value.Num().String()) <= 18 && len(q.Value.Den().String()) <= 18 {
			again, err := unit.Parse(q.Value.String() + " " + q.Dim.Unit())
			require.NoError(t, err, s)
			require.True(t, again.Dim == q.Dim && again.Value.Equal(q.Value), s)
		}
	})
}
