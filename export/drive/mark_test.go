package drive_test

import (
	"bytes"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// synced is the run of two rounds with a mark before and after, on a kind of controller.
func synced(t *testing.T, k rig.ControllerKind, twitch bool) *machine {
	tr := smooth(t, k, 96)
	o := lit(tr)
	m := onVirtual(t, tr, 2, nil)
	s := &drive.SyncMark{Name: "lamp", Output: &o, Length: 0.2, Before: 2, After: 1}
	if twitch {
		s.Name, s.Output, s.Out, s.Back = "twitch of rail", nil, 1.5, 0.4
	} else {
		m.options.Outputs = []rig.Output{o}
	}
	m.options.Sync = s
	return m
}

// marks are the sync marks that the log of a run tells of.
func (m *machine) marks() takelog.Sync {
	m.t.Helper()
	l, err := takelog.Pick(bytes.NewReader(m.log.Bytes()), func(takelog.Take) bool { return true })
	require.NoError(m.t, err)
	require.Len(m.t, l.Takes, 1)
	return l.Takes[0].Sync
}

// firstStep is how long, in s, the rail takes for half a step of a gentle move from rest:
// with its greatest jerk of 60 000 mm/s3 (6*0.00625/60000)^(1/3).
const firstStep = 0.0086

// stray is by how many s a mark may be made earlier or later than planned: what the host
// does not know of how long lines take until the motion begins.
const stray = 0.025

// TestMarksAreWhereTheLogSays: the log has when each mark was made, from when the rig of
// software switched its output, or its motor took the first step, against the frame 0 of
// its motion.
func TestMarksAreWhereTheLogSays(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		for _, twitch := range []bool{false, true} {
			m := synced(t, k, twitch)
			r := m.run()
			require.Equal(t, drive.Finished, r.End, "%v %v: %s", k, twitch, r.Detail)
			assert.Empty(t, m.rig.Lit())
			begins, ends, first, second := m.happened(twitch)
			s := m.marks()
			assert.NotEmpty(t, s.Mark)
			assert.Less(t, s.Out, 0.015, "%v: known to two frames at the worst", k)
			late := 0.0
			if twitch { // the first step of a move comes later than it begins
				late = firstStep
			}
			assert.InDelta(t, first-begins-late/2, s.First, s.Out+late/2, "%v %v: the first is where the log has it", k, twitch)
			assert.InDelta(t, second-begins-late/2, s.Second, s.SecondOut+late/2, "%v %v: the second too", k, twitch)
			assert.InDelta(t, -2, first-begins, stray, "%v %v: as planned", k, twitch)
			assert.InDelta(t, 1, second-ends, stray, "%v %v: as planned", k, twitch)
		}
	}
}

// happened returns when frame 0 was and when the motion of the pass ended, and when the
// two marks began, in s since the board was powered. Frame 0 is a quarter of a round before
// the rail passes half its way, at speed: of an eased start the first step comes late.
func (m *machine) happened(twitch bool) (zero, ends, first, second float64) {
	rec, tr := m.rig.Record(), m.options.Trajectory
	at := m.w.passes[0].Began.Sub(virtual.Epoch).Seconds()
	until := m.w.passes[0].Ended.Sub(virtual.Epoch).Seconds()
	quarter := tr.Period().Float() / 4
	half := tr.TakeState(0, 2, quarter).Pos - tr.TakeState(0, 2, 0).Pos
	count := int64(math.Round(half * tr.Axis(0).StepsPerUnit.Float()))
	from, met, seen := int64(0), false, false
	first, second = math.Inf(1), math.Inf(1)
	rec.Steps(func(s virtual.Step) bool {
		if s.Axis == 0 && !seen {
			seen, from = true, s.Position-int64(s.Dir)
		}
		switch {
		case s.Axis != 0:
		case s.Seconds < at && s.Seconds > at-5:
			first = min(first, s.Seconds)
		case s.Seconds > until:
			second = min(second, s.Seconds)
		case s.Seconds >= at && !met && s.Position-from >= count:
			zero, met = s.Seconds-quarter, true
		}
		return true
	})
	require.True(m.t, met)
	ends = zero + 2*tr.Period().Float()
	if sw := rec.Switches(); !twitch {
		require.Len(m.t, sw, 4)
		first, second = sw[0].Seconds, sw[2].Seconds
	}
	return zero, ends, first, second
}

// TestAStopInAMark: whatever ends a run while the lamp is on, by the operator or by a
// fault, leaves it off, and the rig at rest.
func TestAStopInAMark(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		for name, ends := range map[string]func(m *machine){
			"stop": func(m *machine) { m.stopsLit(drive.Stop) },
			"quit": func(m *machine) { m.stopsLit(drive.Quit) },
			"both": func(m *machine) { m.stopsLit(drive.Stop); m.stopsLit(drive.Stop) },
		} {
			m := synced(t, k, false)
			ends(m)
			r := m.run()
			assert.NotEqual(t, drive.Finished, r.End, "%v %s", k, name)
			assert.Zero(t, r.Takes, "%v %s: it never began", k, name)
			sw := m.rig.Record().Switches()
			require.NotEmpty(t, sw, "%v %s: it was on", k, name)
			assert.False(t, sw[len(sw)-1].On, "%v %s", k, name)
			assert.Empty(t, m.rig.Lit(), "%v %s", k, name)
			assert.Less(t, sw[len(sw)-1].Seconds-sw[0].Seconds, 0.21, "%v %s: no longer than it would be, as a board of lines ends it by itself", k, name)
			assert.True(t, r.Known, "%v %s: nothing has moved", k, name)
		}
	}
}

// stopsLit has the operator stop in the middle of the mark.
func (m *machine) stopsLit(r drive.RequestKind) {
	m.w.script = append(m.w.script, cue{drive.Counting, 600 * time.Millisecond, drive.Request{Kind: r}})
}
