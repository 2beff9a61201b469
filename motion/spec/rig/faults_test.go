package rig_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
)

// One slip in the bench rig, one fault that begins as said.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`"40000 steps/s"`, `-4`, `4:13: controller.step-rate "-4" must be above 0 and at most 100000000 steps/s`},
		{`"40000 steps/s"`, `"40 mm"`, `4:13: controller.step-rate "40 mm" is a length`},
		{`"40000 steps/s"`, `inf`, `4:13: controller.step-rate "inf"`},
		{`"per-minute"`, `"per-minuet"`, `5:8: controller.feed "per-minuet" must be one of inverse-time, per-minute; did you mean "per-minute"?`},
		{`line-length = 100`, `line-length = 3`, `6:15: controller.line-length "3" must be from 40 to 256`},
		{`decimals = 4`, `decimals = 0.5`, `7:12: controller.decimals "0.5" must be a whole number; 0 or 1 would do`},
		{`decimals = 4`, `decimals = nan`, `7:12: controller.decimals "nan" is not a number`},
		{`"linear"`, `"sliding"`, `9:8: axis rail: kind "sliding" must be one of linear, rotary`},
		{`"x"`, `"Q"`, `10:10: axis rail: letter "Q" must be one of X, Y`},
		{`["-10 mm", "40 cm"]`, `["40 cm", "0 mm"]`, `11:20: axis rail: travel "0 mm" must be above the first end, 400 mm; swap the two`},
		{`["-10 mm", "40 cm"]`, `["9 mm", "9 mm"]`, `11:19: axis rail: travel "9 mm" must be above the first end`},
		{`["-10 mm", "40 cm"]`, `["9 mm"]`, `11:1: axis rail: travel must have two ends`},
		{`["-10 mm", "40 cm"]`, `"endless"`, `11:10: axis rail: travel "endless" must be two ends on a linear axis`},
		{`["-10 mm", "40 cm"]`, `{ a = 1 }`, `11:10: axis rail: travel (a table) must be text`},
		{`["-10 mm", "40 cm"]`, `[true, "40 cm"]`, `11:11: axis rail: travel[1] "true" must be text`},
		{`"5 mm"`, `"401 mm"`, `12:8: axis rail: home "401 mm" must be inside the travel, -10 to 400 mm`},
		{`"5 mm"`, `"5 deg"`, `12:8: axis rail: home "5 deg" is an angle`},
		{`"400 mm/s"`, `"-400 mm/s"`, `13:9: axis rail: speed "-400 mm/s" must be above 0 mm/s`},
		{`"400 mm/s"`, `"0 mm/s"`, `13:9: axis rail: speed "0 mm/s" must be above 0 mm/s`},
		{`"400 mm/s"`, `400`, `13:9: axis rail: speed "400" needs a unit, such as "400 mm/s"`},
		{`"400 mm/s"`, `"99999999999999 mm/s"`, `13:9: axis rail: speed "99999999999999 mm/s" is out of range`},
		{`speed = "400 mm/s"`, `sped = "400 mm/s"`, `13:1: axis rail: sped is not a key that means anything here; did you mean "speed"?`},
		{`speed = "400 mm/s"`, ``, `8:7: axis rail: speed is missing; give it, such as speed = "`},
		{`"60000 mm/s3"`, `"inf mm/s3"`, `15:8: axis rail: jerk "inf mm/s3"`},
		{`pitch = "2 mm"`, `pitch = "-2 mm"`, `16:18: axis rail: belt.pitch "-2 mm" must be above 0 mm`},
		{`teeth = 20`, `teeth = 0`, `16:34: axis rail: belt.teeth "0" must be from 1 to 10000`},
		{`, teeth = 20`, ``, `16:8: axis rail: belt.teeth is missing`},
		{`belt = { pitch = "2 mm", teeth = 20 }`, `belt = "2 mm"`, `16:8: axis rail: belt "2 mm" must be a table`},
		{`belt = { pitch = "2 mm", teeth = 20 }`, ``, `8:7: axis rail: belt is missing, and so are screw and steps`},
		{`direction = "reverse"`, `screw = { lead = "8 mm" }`, `20:9: axis rail: screw cannot drive the axis as well as a belt`},
		{`direction = "reverse"`, `steps = "80 per mm"`, `20:9: axis rail: steps "80 per mm" says already what belt, gear, motor-steps, microsteps would say`},
		{`"1:1"`, `"1:0"`, `17:8: axis rail: gear "1:0" must be two numbers above 0`},
		{`"1:1"`, `"99999999:1"`, `17:8: axis rail: gear "99999999:1" must be from 1:1000000 to 1000000:1`},
		{`microsteps = 16`, `microsteps = 0`, `19:14: axis rail: microsteps "0" must be from 1 to 4096`},
		{`microsteps = 16`, ``, `8:7: axis rail: microsteps is missing`},
		{`direction = "reverse"`, `backlash = "-1 mm"`, `20:12: axis rail: backlash "-1 mm" must be from 0 to 100 mm`},
		{`direction = "reverse"`, `backlash = "1 deg"`, `20:12: axis rail: backlash "1 deg" is an angle`},
		{`"reverse"`, `"left"`, `20:13: axis rail: direction "left" must be one of forward, reverse`},
		{`travel = "endless"`, "travel = \"endless\"\nletter = \"X\"", `23:10: axis table: letter "X" is the letter of rail already; free: A, B, C`},
		{`gear = "90:1"`, `belt = { pitch = "2 mm", teeth = 20 }`, `25:8: axis table: belt must be on a linear axis`},
		{`[axis.table]`, `[axis."my table"]`, `21:7: axis.my table must be a letter and then at most 31`},
	} {
		t.Run(c.new, func(t *testing.T) {
			require.Contains(t, bench, c.old)
			_, _, err := rig.Decode("b", []byte(strings.Replace(bench, c.old, c.new, 1)))
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			assert.True(t, strings.HasPrefix(err.Error(), "b:"+c.want), err.Error())
		})
	}
}

func TestStepsThatAreNoSteps(t *testing.T) {
	for steps, want := range map[string]string{
		"0 per mm": "must be above 0", "80": "must be a number above 0 per mm",
		"80 per deg": "must be a number above 0 per mm", "-80 per mm": "must be a number above 0 per mm",
		"1/0 per mm": "divides by zero", "1..2 per mm": "is not a number",
		"1/99999 per mm": "must be from 1/1000 to", "9999999999 per mm": "must be from 1/1000 to",
		"11111111111111111111 per mm": "more than 18 digits",
	} {
		_, _, err := rig.Decode("b", []byte(one(`["0 mm", "10 mm"]`, `"5 mm/s"`, `steps = "`+steps+`"`)))
		assert.ErrorContains(t, err, want, steps)
	}
}

func TestEverythingWrongIsSaidAtOnce(t *testing.T) {
	_, _, err := rig.Decode("b", []byte("[controller]\nfeed = 1\ndecimals = 99\n[axis.a]\n[axis.b]\ntravel = 3\n"))
	var list fault.List
	require.ErrorAs(t, err, &list)
	for _, want := range []string{"b:2:8:", "b:3:12:", "axis a: travel", "axis a: speed", "axis a: acceleration", "axis a: belt", "b:6:10: axis b: travel"} {
		assert.ErrorContains(t, err, want)
	}
}

func TestARigNeedsAnAxis(t *testing.T) {
	_, _, err := rig.Decode("b", []byte(`rig = "nothing"`))
	assert.ErrorContains(t, err, "axis is missing; a rig has at least one axis")
	_, _, err = rig.Decode("b", nil)
	assert.ErrorContains(t, err, "b: the file is empty")
}

// A rig without faults is one that can be counted on.
func FuzzDecode(f *testing.F) {
	f.Add(bench)
	f.Add(every + plainAxis)
	f.Add(one(`"endless"`, `"5 deg/s"`, `steps = "1/7 per turn"`))
	f.Fuzz(func(t *testing.T, text string) {
		r, _, err := rig.Decode("f", []byte(text))
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		require.NotEmpty(t, r.Axes)
		c := r.Controller
		assert.True(t, c.Baud > 0 && c.LineLength > 0 && c.Blocks >= 3 && c.DegreeAs > 0 && c.JunctionDeviation >= 0)
		assert.True(t, c.Kind != rig.Buffered || c.LineLength < c.ReceiveBuffer)
		assert.True(t, c.StepRate == 0 || c.SlowestStepRate < c.StepRate)
		for _, a := range r.Axes {
			assert.Positive(t, a.StepsPerUnit.Sign())
			assert.True(t, a.MaxSpeed > 0 && a.MaxAcc > 0 && a.MaxJerk >= 0)
			assert.True(t, a.Contains(a.Home))
			assert.True(t, a.Endless || a.Min < a.Max)
			assert.Len(t, a.Letter, 1)
			assert.True(t, a.Settings.Acceleration > 0 && a.Settings.Speed > 0)
		}
	})
}
