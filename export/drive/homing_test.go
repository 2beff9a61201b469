package drive_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// homed is the turned loop on a rig whose axes are homed as told.
func homed(t *testing.T, change func(rail, table *rig.Axis, c *rig.Controller)) *trajectory.Trajectory {
	t.Helper()
	tr := turned(t)
	p := tr.Plan()
	change(&p.Rig.Axes[0], &p.Rig.Axes[1], &p.Rig.Controller)
	for i := range p.Axes {
		p.Axes[i].Rig = p.Rig.Axes[i]
	}
	return tr
}

// lines are what the board has been sent, but for status bytes.
func lines(s *scene) []string {
	return strings.Split(strings.ReplaceAll(s.p.log.String(), "?", ""), "\n")
}

// An axis is homed by its own line, the others by the controller's, each line
// once; an endless axis without one is not homed, and what is assumed of it is
// said.
func TestHomesEachAxisByItsLine(t *testing.T) {
	const marked, stands = "axis table has no switch", "as it stands now counts as its 0.000 deg"
	for _, c := range []struct {
		name      string
		change    func(rail, table *rig.Axis, c *rig.Controller)
		sent, not string
		assumed   bool
	}{
		{"the controller's line", func(*rig.Axis, *rig.Axis, *rig.Controller) {}, "$H", "$HX", true},
		{"its own line", func(rail, _ *rig.Axis, _ *rig.Controller) { rail.HomeLine = "$HX" }, "$HX", "$H", true},
		{"a line each", func(rail, table *rig.Axis, _ *rig.Controller) { rail.HomeLine, table.HomeLine = "$HX", "$HA" }, "$HX\n$HA", "$H", false},
		{"the controller's, and one of its own", func(_, table *rig.Axis, _ *rig.Controller) { table.HomeLine = "$HA" }, "$H\n$HA", "$HX", false},
		{"one line for both", func(rail, table *rig.Axis, _ *rig.Controller) { rail.HomeLine, table.HomeLine = "$HXA", "$HXA" }, "$HXA", "$H", false},
		{"its own, and no other", func(rail, _ *rig.Axis, c *rig.Controller) { rail.HomeLine, c.HomeLine = "$HX", "" }, "$HX", "$H", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			tr := homed(t, c.change)
			s := stage(t, tr)
			s.options.Settle = drive.ByHoming
			s.p.failTo = map[string]string{"$HX": "ok", "$HA": "ok", "$HXA": "ok"}
			r := s.run()
			require.NoError(t, r.Err(), "%v", s.w.said)
			all := lines(s)
			require.Contains(t, strings.Join(all, "\n"), "\n"+c.sent+"\n")
			require.NotContains(t, all, c.not)
			require.Equal(t, c.assumed, strings.Contains(strings.Join(s.w.said, "\n"), marked))
			require.Equal(t, c.assumed, strings.Contains(strings.Join(s.w.said, "\n"), stands))
		})
	}
}

// On the virtual rig each line homes its axis alone.
func TestVirtualHomesOneAxis(t *testing.T) {
	tr := homed(t, func(rail, table *rig.Axis, c *rig.Controller) { rail.HomeLine = "$HX" })
	m := onVirtual(t, tr, 1, func(o *virtual.Options) {
		require.Equal(t, "$HX", o.Axes[0].HomeLine)
		o.Axes[0].Place, o.Axes[1].Place = 150, 33
	})
	m.options.Settle = drive.ByHoming
	r := m.run()
	require.NoError(t, r.Err(), "%v", m.w.said)
	require.InDelta(t, 40, m.rig.Place()[0], 0.02, "back at the start, counted from the switch")
	require.InDelta(t, 33+tr.TakeState(1, 1, -0.25).Pos, m.rig.Place()[1], 1, "counted from where it stood")
}

// An axis without a switch is not taken to be homed: the operator brings it to
// the start and says so, while those that have been homed keep their place,
// also when they are jogged meanwhile.
func TestAnAxisWithoutASwitch(t *testing.T) {
	ask := func(k drive.RequestKind) drive.Request { return drive.Request{Kind: k} }
	second := time.Second
	tr := homed(t, func(rail, table *rig.Axis, c *rig.Controller) {
		rail.NoSwitch = true
		table.Endless, table.Min, table.Max, table.HomeLine = false, -360, 360, "$HA"
	})
	m := onVirtual(t, tr, 1, func(o *virtual.Options) {
		require.False(t, o.Axes[0].Switches)
		o.Axes[0].Place, o.Axes[1].Place = 36, 100
	})
	m.options.Takes, m.options.Settle = 0, drive.AskOperator
	m.w.script = []cue{
		{drive.Unsettled, second, ask(drive.Home)},
		{drive.Unsettled, 5 * time.Minute, drive.Request{Kind: drive.Jog, Axis: 1, By: -9}}, // homed: to a place
		{drive.Unsettled, 6 * time.Minute, ask(drive.Go)},                                   // not yet
		{drive.Unsettled, 7 * time.Minute, drive.Request{Kind: drive.Jog, Axis: 0, By: 4}},  // not homed: by so much
		{drive.Unsettled, 8 * time.Minute, ask(drive.Here)},
		{drive.Ready, second, drive.Request{Kind: drive.Mark, Name: "here"}},
		{drive.Ready, 2 * second, ask(drive.Go)},
		{drive.Running, second, ask(drive.Finish)},
		{drive.Ready, second, ask(drive.Quit)},
	}
	m.world.Ask(virtual.Asking{At: time.Hour, Request: ask(drive.Quit)})
	r := m.run()
	require.NoError(t, r.Err(), "%v %v", m.w.states, m.w.said)
	require.Contains(t, m.w.said, "axis rail is without a switch: bring it to the start of the take by hand, and say so; the others may be left where they are")
	require.Contains(t, m.w.said, "position is not known: home it, or bring it to the start and say so")
	require.Equal(t, []float64{40, -9}, m.w.marks["here"])
	require.Len(t, m.w.passes, 1)
	require.InDelta(t, 40, m.rig.Place()[0], 0.02, "brought from 36 to 40 by hand")
}

// A run that has nobody to ask does not claim what it cannot know.
func TestNobodyBringsAnAxisToItsStart(t *testing.T) {
	tr := homed(t, func(rail, table *rig.Axis, c *rig.Controller) { rail.NoSwitch, table.HomeLine = true, "$HA" })
	m := onVirtual(t, tr, 1, nil)
	m.options.Settle = drive.ByHoming
	r := m.run()
	require.Equal(t, drive.Unplanned, r.End)
	require.Contains(t, r.Detail, "axis rail is without a switch, and nobody is asked to bring it to the start")
	require.Zero(t, m.rig.Record().Len(), "not even the other one moves")
	require.False(t, r.Known)
}

// What was homed is forgotten when a stop loses it.
func TestAStopForgetsWhatWasHomed(t *testing.T) {
	ask := func(k drive.RequestKind) drive.Request { return drive.Request{Kind: k} }
	tr := homed(t, func(rail, table *rig.Axis, c *rig.Controller) {
		rail.NoSwitch, table.HomeLine = true, "$HA"
	})
	m := onVirtual(t, tr, 1, nil)
	m.options.Takes, m.options.Settle = 0, drive.AskOperator
	m.w.script = []cue{
		{drive.Unsettled, time.Second, ask(drive.Home)},
		{drive.Unsettled, 5 * time.Second, drive.Request{Kind: drive.Jog, Axis: 1, By: 90}},
		{drive.Unsettled, 6 * time.Second, ask(drive.Stop)},
		{drive.Unsettled, time.Minute, ask(drive.Quit)},
	}
	r := m.run()
	require.False(t, r.Known)
	require.Contains(t, m.w.said, "where the axes stand that had been homed is not known any more", "%v", m.w.states)
}

// Homed again while all is known, a table keeps its place.
func TestHomingAgainKeepsTheTable(t *testing.T) {
	ask := func(k drive.RequestKind) drive.Request { return drive.Request{Kind: k} }
	m := onVirtual(t, turned(t), 1, nil)
	m.options.Takes, m.options.Settle = 0, drive.AskOperator
	m.w.script = []cue{
		{drive.Unsettled, time.Second, ask(drive.Home)},
		{drive.Ready, time.Second, drive.Request{Kind: drive.Jog, Axis: 1, By: 30}},
		{drive.Ready, time.Minute, ask(drive.Home)},
		{drive.Ready, 3 * time.Minute, drive.Request{Kind: drive.Mark, Name: "again"}},
		{drive.Ready, 4 * time.Minute, ask(drive.Quit)},
	}
	m.world.Ask(virtual.Asking{At: time.Hour, Request: ask(drive.Quit)})
	r := m.run()
	require.NoError(t, r.Err())
	require.Equal(t, []float64{0, 30}, m.w.marks["again"])
}
