package drive_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// turned is a loop in which the rail goes there and back and the table turns.
func turned(t testing.TB) *trajectory.Trajectory {
	tr := sample.Make(t, 96, bench(rig.Buffered), sample.Rail(t, "cycloidal", 100), sample.Table(t))
	tr.Plan().Rig.Controller.Greeting = ""
	return tr
}

// set sets a setting of the board.
func set(k rig.Setting, to float64) func(*virtual.Options) {
	return func(o *virtual.Options) { o.Set[k] = to }
}

// state states a setting in the rig file, and nothing on the board.
func state(k rig.Setting, is float64) func(*rig.Controller) {
	return func(c *rig.Controller) { c.Stated[k] = rig.Stated{Value: is, Known: true} }
}

// Each setting that a take cannot be driven with is refused before anything
// moves, in words that say what it is and what would do.
func TestSettingsThatAreRefused(t *testing.T) {
	for _, c := range []struct {
		name  string
		board func(*virtual.Options)
		file  func(*rig.Controller)
		tr    func(testing.TB) *trajectory.Trajectory
		said  []string
	}{
		{name: "motors lose their current", board: set(rig.IdleWait, 25), said: []string{
			"idle delay: $1 is 25 ms, and the plan was made as if its motors keep their current: at each end of motion and each dwell it would be 25 ms out of step with the frames",
			"a carriage on an incline falls", `Set $1=255, or say idle-delay = "25 ms" in the rig file and plan again`}},
		{name: "motors lose their current at once", board: set(rig.IdleWait, 0), said: []string{
			"idle delay: $1 is 0 ms", "0 ms out of step", `Set $1=255, or say idle-delay = "0 ms"`}},
		{name: "at once, and told of a delay", board: set(rig.IdleWait, 25), file: func(c *rig.Controller) { c.IdleAtOnce, c.IdleStated = true, true },
			said: []string{"25 ms out of step"}},
		{name: "another idle delay", board: set(rig.IdleWait, 25), file: func(c *rig.Controller) { c.IdleDelay, c.IdleStated = 0.1, true },
			said: []string{"as if it waits 100 ms", "75 ms out of step", "Set $1=255, or say"}},
		{name: "no idle delay", board: set(rig.IdleWait, 255), file: func(c *rig.Controller) { c.IdleDelay, c.IdleStated = 0.1, true },
			said: []string{"it would be 100 ms early after each end of motion and each dwell", `Say idle-delay = "none"`}},
		{name: "idle delay not printed", board: func(o *virtual.Options) { o.Names[rig.IdleWait] = "" },
			file: func(c *rig.Controller) { c.IdleDelay, c.IdleStated = 0.025, true }, said: []string{"idle-delay: it does not print $1, and the rig file says what it is"}},
		{name: "corners", board: func(o *virtual.Options) { o.JunctionDeviation = 0.02 }, said: []string{
			"junction deviation: $11 is 0.02 mm and the rig file says 0.01 mm", "another pace", `Set $11=0.01, or say junction-deviation = "0.02 mm"`}},
		{name: "inches", board: set(rig.Inches, 1), said: []string{"inches: $13 is 1", "degrees of axis table", "Set $13=0"}},
		{name: "soft limits round a table", board: set(rig.SoftLimits, 1), said: []string{
			"axis table: soft limits are on ($20=1) and it is endless", "Set $20=0"}},
		{name: "soft limits short of the take", board: func(o *virtual.Options) { o.Set[rig.SoftLimits], o.Axes[0].Travel = 1, 80 },
			tr: func(t testing.TB) *trajectory.Trajectory { return smooth(t, rig.Buffered, 96) }, said: []string{
				"axis rail: soft limits are on ($20=1) and let it go 80 mm ($130), and the take goes from 40.000 to 140.000 mm", "100.000", "set $130 to the travel the axis has, 400 mm"}},
		{name: "laser", board: set(rig.Laser, 1), said: []string{"laser mode: $32 is 1", "Set $32=0"}},
		{name: "a pulse as not stated", file: state(rig.StepPulse, 2.5), board: set(rig.StepPulse, 10), said: []string{
			`step-pulse: $0 is 10 and the rig file says "2.5 us": a motor driver misses`, `say step-pulse = "10 us" under settings of the controller`}},
		{name: "steps as not stated", file: state(rig.StepInvert, 1), board: set(rig.StepInvert, 0), said: []string{"step-invert: $2 is 0 and the rig file says 1", "Set $2=1"}},
		{name: "directions as not stated", file: state(rig.DirectionInvert, 1), board: set(rig.DirectionInvert, 3), said: []string{
			"direction-invert: $3 is 3 and the rig file says 1: an axis then goes the other way", "say direction-invert = 3"}},
		{name: "enable as not stated", file: state(rig.EnableInvert, 1), board: set(rig.EnableInvert, 0), said: []string{
			"enable-invert: $4 is 0 and the rig file says true", "Set $4=1", "say enable-invert = false"}},
		{name: "soft limits as not stated", file: state(rig.SoftLimits, 1), board: set(rig.SoftLimits, 0), said: []string{"soft-limits: $20 is 0 and the rig file says true", "Set $20=1"}},
		{name: "switches as not stated", file: state(rig.HardLimits, 1), board: set(rig.HardLimits, 0), said: []string{"hard-limits: $21 is 0 and the rig file says true"}},
		{name: "homing as not stated", file: state(rig.Homing, 1), board: set(rig.Homing, 0), said: []string{"homing: $22 is 0 and the rig file says true", "Set $22=1"}},
		{name: "ends as not stated", file: state(rig.HomeInvert, 3), board: set(rig.HomeInvert, 1), said: []string{"home-invert: $23 is 1 and the rig file says 3: an axis then looks for its switch at the end"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan := turned
			if c.tr != nil {
				plan = c.tr
			}
			tr := plan(t)
			if c.file != nil {
				c.file(&tr.Plan().Rig.Controller)
			}
			m := onVirtual(t, tr, 1, c.board)
			r := m.run()
			require.Equal(t, drive.Mismatched.String(), r.End.String(), r.Detail)
			for _, want := range c.said {
				require.Contains(t, r.Detail, want)
			}
			require.Zero(t, m.rig.Record().Len(), "nothing moves")
			require.NotContains(t, m.w.states, drive.Approaching)
		})
	}
}

// A board as the rig file states it all is driven, and what is not stated is
// told.
func TestSettingsThatAreTold(t *testing.T) {
	tr := turned(t)
	c := &tr.Plan().Rig.Controller
	c.IdleDelay, c.IdleStated = 0.025, true
	state(rig.DirectionInvert, 1)(c)
	m := onVirtual(t, tr, 1, nil)
	r := m.run()
	require.NoError(t, r.Err())
	said := strings.Join(m.w.said, "\n")
	require.Contains(t, said, "it waits 25 ms at each end of motion and each dwell ($1), as the plan knows, and then takes the current off its motors")
	require.Contains(t, said, "it is set to $0=10 (step pulse, us), $2=0 (inverted steps, a bit an axis), $4=0")
	require.NotContains(t, said, "$3=")

	tr = turned(t)
	tr.Plan().Rig.Controller.IdleAtOnce, tr.Plan().Rig.Controller.IdleStated = true, true
	m = onVirtual(t, tr, 1, set(rig.IdleWait, 0))
	require.NoError(t, m.run().Err())
	require.Contains(t, strings.Join(m.w.said, "\n"), "it does not wait at an end of motion or a dwell ($1=0), as the rig file says, and then takes the current off")

	m = onVirtual(t, turned(t), 1, func(o *virtual.Options) { o.Names[rig.Junction], o.Names[rig.Laser] = "", "" })
	require.NoError(t, m.run().Err())
	require.Contains(t, m.w.said, "it does not print $11, $32: what these settings are is not known")

	tr = turned(t) // a mask where others have a switch is on all the same
	state(rig.EnableInvert, 1)(&tr.Plan().Rig.Controller)
	require.NoError(t, onVirtual(t, tr, 1, set(rig.EnableInvert, 15)).run().Err())
}

// Reports in inches are read as such: the take ends where it should, and never
// was elsewhere.
func TestReportsInInches(t *testing.T) {
	m := onVirtual(t, smooth(t, rig.Buffered, 96), 2, set(rig.Inches, 1))
	r := m.run()
	require.NoError(t, r.Err())
	require.Contains(t, m.w.said, "it reports places in inches ($13=1): they are read as such")
	// Four decimals of an inch are 0.0025 mm; between two askings it goes on.
	require.InDelta(t, 0, m.w.passes[0].Worst[0], 0.1)
}

// Homing that is off is known before it is asked for.
func TestHomingThatIsOff(t *testing.T) {
	m := onVirtual(t, smooth(t, rig.Buffered, 96), 1, set(rig.Homing, 0))
	m.options.Settle = drive.ByHoming
	r := m.run()
	require.Equal(t, drive.Unplanned, r.End, r.Detail)
	require.Contains(t, r.Detail, "it cannot home by itself")
	require.Contains(t, strings.Join(m.w.said, "\n"), "it does not home ($22=0), though the rig file has a line for it")
	require.Zero(t, m.rig.Record().Len())
}

// Within the soft limits, a take runs on a board whose travel lies below its 0,
// above it, or as in the rig file. One that would leave them is refused once it
// is known where the rig stands, before it goes anywhere.
func TestSoftLimitsOnceHomed(t *testing.T) {
	for _, c := range []struct {
		name           string
		travel, counts float64 // of the board, and what it counts at 40 mm
		fits           bool
	}{
		{"above 0", 400, 40, true},
		{"above 0, short", 139, 40.5, false},
		{"below 0", 150, -140, true},
		{"below 0, too near its end", 150, -90, false},
		{"at 0, and nothing is known", 150, 0, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := stage(t, smooth(t, rig.Buffered, 96))
			s.p.settings = append(without(printed, "$20=0", "$130=200.000"), "$20=1", fmt.Sprintf("$130=%.3f", c.travel))
			s.p.pos['X'] = c.counts
			s.options.Source = func() drive.Source { return &idle{left: 1} }
			r := s.run()
			if c.fits {
				require.NotEqual(t, drive.Mismatched, r.End, r.Detail)
				told := strings.Count(strings.Join(s.w.said, "\n"), "they may lie on either side")
				require.Equal(t, c.counts == 0, told == 1, "%v", s.w.said)
				return
			}
			require.Equal(t, drive.Mismatched, r.End)
			require.Contains(t, r.Detail, "it would stop with an alarm on the way. Home it at the other end, move the take, or set $20=0")
			require.Empty(t, s.p.moves)
		})
	}
}

// On the virtual rig, which counts as its rig file does, homing leads into a
// take under soft limits, also where the travel has ends on both sides of 0.
func TestSoftLimitsOnTheVirtualRig(t *testing.T) {
	tr := smooth(t, rig.Buffered, 96)
	tr.Plan().Rig.Axes[0].Min = -50
	m := onVirtual(t, tr, 1, set(rig.SoftLimits, 1))
	m.options.Settle = drive.ByHoming
	require.NoError(t, m.run().Err())
	require.Zero(t, m.rig.Stats().Alarms)
	require.NotContains(t, strings.Join(m.w.said, "\n"), "a jog beyond them")

	m = onVirtual(t, smooth(t, rig.Buffered, 96), 1, func(o *virtual.Options) { o.Set[rig.SoftLimits], o.Axes[0].Travel = 1, 380 })
	require.NoError(t, m.run().Err())
	require.Contains(t, m.w.said, "axis rail: soft limits let it go 380 mm ($130=380) and the rig file 400: a jog beyond them stops with an alarm")
}

// without is a list without some of its lines.
func without(lines []string, some ...string) []string {
	return slices.DeleteFunc(slices.Clone(lines), func(l string) bool { return slices.Contains(some, l) })
}

// Whatever a board is set to, either it is refused and nothing moves, or the take
// ends where it should.
func TestAnySettings(t *testing.T) {
	tr := turned(t)
	take := chosen(t, tr, 1)
	ends := map[drive.End]int{}
	rapid.Check(t, func(rt *rapid.T) {
		file := turned(t)
		c := &file.Plan().Rig.Controller
		for _, k := range []rig.Setting{rig.StepPulse, rig.DirectionInvert, rig.SoftLimits, rig.HardLimits, rig.Homing} {
			if rapid.IntRange(0, 4).Draw(rt, "states "+k.String()) == 0 {
				state(k, float64(rapid.IntRange(0, 1).Draw(rt, "stated "+k.String())))(c)
			}
		}
		m := onVirtualWith(t, file, 1, func() drive.Source { return program.New(file, take) }, func(o *virtual.Options) {
			for k := range rig.SettingCount {
				usual := o.Set[k]
				o.Set[k] = rapid.SampledFrom([]float64{usual, usual, usual, usual, 0, 1, 255}).Draw(rt, k.String())
			}
			o.Axes[0].Travel = rapid.SampledFrom([]float64{0, 80, 120}).Draw(rt, "travel")
		})
		r := m.run()
		ends[r.End]++
		if r.End == drive.Finished {
			return
		}
		if r.End != drive.Mismatched || m.rig.Record().Len() > 0 || m.rig.Stats().Alarms > 0 {
			rt.Fatalf("%v %s, %d slices of motion", r.End, r.Detail, m.rig.Record().Len())
		}
	})
	require.Len(t, ends, 2, "some are refused and some run: %v", ends)
}

// Controllers that print their settings in another way are compared by the
// names that the rig file says.
func TestSettingsByOtherNames(t *testing.T) {
	tr := smooth(t, rig.Lockstep, 96)
	c := &tr.Plan().Rig.Controller
	c.SettingsLine = "M503"
	c.Reports[rig.Junction], c.Reports[rig.SoftLimits] = "M205 J", "M211 S"
	state(rig.SoftLimits, 0)(c)
	m := onVirtual(t, tr, 1, nil)
	require.NoError(t, m.run().Err(), "%v", m.w.said)
	m = onVirtual(t, tr, 1, func(o *virtual.Options) { o.JunctionDeviation = 0.02; o.Set[rig.SoftLimits] = 1 })
	r := m.run()
	require.Equal(t, drive.Mismatched, r.End)
	require.Contains(t, r.Detail, "junction deviation: M205 J is 0.02 mm and the rig file says 0.01 mm")
	require.Contains(t, r.Detail, "soft-limits: M211 S is 1 and the rig file says false")
	require.Zero(t, m.rig.Record().Len())
}
