package rig_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
	"seamrail/motion/turntable/spin"
)

const stands = `[axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[stand.display]
direction = "anticlockwise"
start-in-phase = true
drift = "1 %"
reaction = "0.2 s"
[stand.display.speed.slow]
period = "20.4 s"
uncertainty = "0.05 s"
[stand.display.speed.fast]
measured = ["20 turns in 206 s", "20 turns in 206.4 s"]
[stand.display.speed.filmed]
measured = ["3 turns in 7200 frames"]
filmed-at = "120"
`

func TestStands(t *testing.T) {
	r, _, err := rig.Decode("s", []byte(stands))
	require.NoError(t, err)
	s, ok := r.Stand("display")
	require.True(t, ok)
	assert.Equal(t, []string{"slow", "fast", "filmed"}, s.SpeedNames())
	assert.Equal(t, spin.Anticlockwise, s.Direction)
	assert.True(t, s.Phased)
	assert.True(t, s.Regulation.Equal(exact.New(1, 100)))

	slow, _ := s.Speed("slow")
	assert.True(t, slow.Period.Equal(exact.New(204, 10)))
	assert.True(t, slow.Sigma.Equal(exact.New(5, 100)))
	// 360 / 20.4 deg/s, anticlockwise being above 0.
	assert.True(t, s.Rate(slow).Equal(exact.New(3600, 204)))

	// Two timings of 20 turns, 206.2 s on average: 10.31 s a turn. Each is off by
	// two presses of 0.2 s, 0.2*sqrt(2); their mean by 0.2, and a turn by 0.01 s.
	fast, _ := s.Speed("fast")
	assert.InDelta(t, 10.31, fast.Period.Float(), 1e-12)
	assert.InDelta(t, 0.01, fast.Sigma.Float(), 1e-9)
	assert.Equal(t, "40 turns measured by stopwatch in 2 readings", s.Basis("fast"))

	// 7200 frames at 120 a second are a minute. The ends are frames, whose
	// difference has the standard deviation of a triangle of half width one
	// frame, 1/sqrt(6) of it, over three turns.
	filmed, _ := s.Speed("filmed")
	assert.True(t, filmed.Period.Equal(exact.Int(20)))
	assert.InDelta(t, 1/(2.449489742783178*120*3), filmed.Sigma.Float(), 1e-9)
	assert.Equal(t, "3 turns measured in the picture in one reading", s.Basis("filmed"))
}

func TestStandsSayWhatTheyLeaveOut(t *testing.T) {
	text := strings.NewReplacer("direction = \"anticlockwise\"\n", "", "start-in-phase = true\n", "", "drift = \"1 %\"\n", "", "reaction = \"0.2 s\"\n", "").Replace(stands)
	r, defaults, err := rig.Decode("s", []byte(text))
	require.NoError(t, err)
	assert.Equal(t, spin.Clockwise, r.Stands[0].Direction)
	said := map[string]string{}
	for _, d := range defaults {
		said[d.Key] = d.Value
	}
	assert.Equal(t, "clockwise", said["stand.display.direction"])
	assert.Equal(t, "false", said["stand.display.start-in-phase"])
	assert.Equal(t, "not known", said["stand.display.drift"])
	assert.Equal(t, "0.1 s", said["stand.display.reaction"])
}

// One slip, one fault that begins as said.
func TestStandFaults(t *testing.T) {
	const slow = "period = \"20.4 s\"\nuncertainty = \"0.05 s\"\n"
	for _, c := range []struct{ old, new, want string }{
		{`"20.4 s"`, `"0 s"`, `12:10: stand.display.speed.slow.period "0 s" must be from 0.01 s to 86400 s a turn; such as "20.4 s"`},
		{`"20.4 s"`, `"20.4 mm"`, `12:10: stand.display.speed.slow.period "20.4 mm" is a length`},
		{`"0.05 s"`, `"20.4 s"`, `13:15: stand.display.speed.slow.uncertainty "20.4 s" must be below the period, 20.4 s; one as large says that nothing is known`},
		{`"0.05 s"`, `"-1 s"`, `13:15: stand.display.speed.slow.uncertainty "-1 s" must be 0 s or more`},
		{"uncertainty = \"0.05 s\"\n", ``, `11:22: stand.display.speed.slow.uncertainty is missing, and a label is not a measurement; give it, such as uncertainty = "0.05 s", or time some turns`},
		{slow, ``, `11:22: stand.display.speed.slow.measured is missing; give it, such as measured = ["20 turns in 412.3 s"], or a period and its uncertainty`},
		{"uncertainty = \"0.05 s\"", `measured = "20.4 s"`, `12:10: stand.display.speed.slow.period "20.4 s" is given, and so is measured; keep what was measured`},
		{"period = \"20.4 s\"\n", "measured = \"20.4 s\"\n", `13:15: stand.display.speed.slow.uncertainty "0.05 s" belongs to period, and there is none`},
		{slow, slow + "filmed-at = \"24\"\n", `14:13: stand.display.speed.slow.filmed-at "24" belongs to measured, and there is none`},
		{`"1 %"`, `"11 %"`, `9:9: stand.display.drift "11 %" must be from 0 % to 10 %`},
		{`"0.2 s"`, `"0 s"`, `10:12: stand.display.reaction "0 s" must be above 0 s and at most 1 s; "0.1 s" is usual`},
		{`"anticlockwise"`, `"left"`, `7:13: stand.display.direction "left" must be clockwise or anticlockwise, seen from above`},
		{`"20 turns in 206 s"`, `"20 turns in 206 frames"`, `15:13: stand.display.speed.fast.measured[1] "20 turns in 206 frames" counts frames, and no capture rate says how long one is; give it, such as filmed-at = "119.88"`},
		{`"20 turns in 206 s"`, `"0 turns in 206 s"`, `15:13: stand.display.speed.fast.measured[1] "0 turns in 206 s" must be of more than 0 turns`},
		{`"20 turns in 206 s"`, `"a while"`, `15:13: stand.display.speed.fast.measured[1] "a while" is no reading; write it like "20 turns in 412.3 s" or "2446 frames"`},
		{`["20 turns in 206 s", "20 turns in 206.4 s"]`, `[]`, `15:1: stand.display.speed.fast.measured must have a line; such as "20 turns in 412.3 s"`},
		{`["20 turns in 206 s", "20 turns in 206.4 s"]`, `"0.001 s"`, `15:12: stand.display.speed.fast.measured "0.001 s" must be from 0.01 s to 86400 s a turn`},
		{`["20 turns in 206 s", "20 turns in 206.4 s"]`, `"0.25 s"`, `15:12: stand.display.speed.fast.measured "0.25 s" leaves an uncertainty of 0.283 s, and it must be below the period, 0.25 s; time more turns`},
		{`filmed-at = "120"`, `filmed-at = "0"`, `18:13: stand.display.speed.filmed.filmed-at`},
		{`[stand.display.speed.filmed]`, `[stand.display.speed."a b"]`, `16:22: stand.display.speed.a b must be a letter and then at most 31`},
		{`drift = "1 %"`, `drft = "1 %"`, `9:1: stand.display.drft is not a key that means anything here; did you mean "drift"?`},
		{`[axis.rail]`, `[axis.display]`, `6:8: stand.display is the name of an axis already`},
	} {
		t.Run(c.new, func(t *testing.T) {
			require.Contains(t, stands, c.old)
			_, _, err := rig.Decode("s", []byte(strings.Replace(stands, c.old, c.new, 1)))
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			assert.True(t, strings.HasPrefix(err.Error(), "s:"+c.want), err.Error())
		})
	}
}

func TestAStandNeedsASpeed(t *testing.T) {
	text, _, _ := strings.Cut(stands, "[stand.display.speed.slow]")
	_, _, err := rig.Decode("s", []byte(text))
	assert.ErrorContains(t, err, `s:6:8: stand.display.speed is missing: a stand has at least one speed; give it, such as [stand.display.speed.slow] with measured = ["20 turns in 412.3 s"]`)
}

func TestEverythingWrongWithAStandIsSaidAtOnce(t *testing.T) {
	text := strings.NewReplacer(`"20.4 s"`, `"0 s"`, `"1 %"`, `"90 %"`, `"0.2 s"`, `"9 s"`, `"20 turns in 206 s"`, `"soon"`).Replace(stands)
	_, _, err := rig.Decode("s", []byte(text))
	var list fault.List
	require.ErrorAs(t, err, &list)
	assert.Len(t, list, 4)
}

// However turns are split into readings, and whatever the period, a watch
// without error gives it back to the picosecond it is rounded to.
func TestPerfectReadingsGiveThePeriod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		period := exact.New(rapid.Int64Range(100, 1_000_000).Draw(t, "ms"), 1000)
		var lines []string
		for _, n := range rapid.SliceOfN(rapid.Int64Range(60, 1000), 1, 6).Draw(t, "turns") {
			lines = append(lines, `"`+exact.Int(n).String()+" turns in "+period.Mul(exact.Int(n)).Decimal(6)+` s"`)
		}
		text := strings.Replace(stands, `"20 turns in 206 s", "20 turns in 206.4 s"`, strings.Join(lines, ", "), 1)
		r, _, err := rig.Decode("s", []byte(text))
		require.NoError(t, err)
		v, _ := r.Stands[0].Speed("fast")
		assert.True(t, v.Period.Equal(period), "%s of %s", v.Period, period)
		assert.Positive(t, v.Sigma.Sign())
	})
}

// A stand that decodes can be counted on.
func FuzzStand(f *testing.F) {
	f.Add("20 turns in 412.3 s", "0.05 s", "119.88")
	f.Add("3 turns in 7341 frames", "1/3 s", "24")
	f.Fuzz(func(t *testing.T, measured, reaction, rate string) {
		quote := func(s string) string { return "'" + strings.NewReplacer("'", "", "\n", "").Replace(s) + "'" }
		text := stands[:strings.Index(stands, "[stand")] + "[stand.s]\nreaction = " + quote(reaction) +
			"\n[stand.s.speed.a]\nmeasured = " + quote(measured) + "\nfilmed-at = " + quote(rate) + "\n"
		r, _, err := rig.Decode("s", []byte(text))
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		require.Empty(t, r.Stands[0].Faults())
		v := r.Stands[0].Speeds[0]
		assert.True(t, v.Period.Sign() > 0 && v.Sigma.Sign() > 0 && v.Sigma.Less(v.Period))
	})
}
