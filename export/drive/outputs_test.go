package drive_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// lit gives the rig of a trajectory an output.
func lit(tr *trajectory.Trajectory) rig.Output {
	o := rig.Output{Name: "lamp", On: "M8", Off: "M9", Unsure: 0.01, Pulse: 0.05}
	if tr.Rig().Controller.Kind.PlaysSteps() {
		o.On, o.Off, o.Number = "", "", 2
	}
	tr.Plan().Rig.Outputs = []rig.Output{o}
	return o
}

// TestAnOutputThatTheBoardDoesNotHave is told of before anything moves.
func TestAnOutputThatTheBoardDoesNotHave(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		for _, x := range []struct {
			name  string
			spoil func(o *virtual.Options)
			end   drive.End
			says  string
		}{
			{"has it", func(*virtual.Options) {}, drive.Finished, ""},
			{"does not", func(o *virtual.Options) { o.Outputs[0].Lacks, o.Numbered = true, 1 }, map[bool]drive.End{true: drive.Mismatched, false: drive.Refused}[k.PlaysSteps()], "output lamp"},
			{"has none", func(o *virtual.Options) { o.Outputs[0].Lacks, o.Numbered = true, 0 }, map[bool]drive.End{true: drive.Mismatched, false: drive.Refused}[k.PlaysSteps()], "output lamp"},
		} {
			tr := smooth(t, k, 96)
			o := lit(tr)
			m := onVirtual(t, tr, 1, x.spoil)
			m.options.Outputs = []rig.Output{o}
			r := m.run()
			require.Equal(t, x.end, r.End, "%v %s: %s", k, x.name, r.Detail)
			if x.says != "" {
				assert.Contains(t, r.Detail, x.says)
				assert.Zero(t, r.Takes, "%v %s", k, x.name)
				assert.Zero(t, m.rig.Stats().Starts, "%v %s: nothing has moved", k, x.name)
			}
			assert.Empty(t, m.rig.Lit())
		}
	}
}

// leaving is a world whose wire is lost as soon as an output is on.
type leaving struct {
	*virtual.World
	rig *virtual.Rig
}

func (w leaving) Wait(until time.Time) drive.Event {
	if len(w.rig.Lit()) > 0 {
		return drive.Event{Kind: drive.Gone, Err: errors.New("unplugged")}
	}
	return w.World.Wait(until)
}

func (w leaving) Write(p []byte) (int, error) {
	if len(w.rig.Lit()) > 0 {
		return 0, errors.New("unplugged")
	}
	return w.World.Write(p)
}

// TestAnOutputGoesOutByItself: whatever becomes of the program or the wire while a mark is
// made or a frame is exposed, every kind of board ends it by itself.
func TestAnOutputGoesOutByItself(t *testing.T) {
	for _, k := range rig.DrivenKinds() {
		for name, m := range map[string]*machine{
			"mark": synced(t, k, false), "pulse": byFrame(t, k, stills),
			"bulb": byFrame(t, k, strings.Replace(stills, "card =", "shutter = \"bulb\"\ncard =", 1)),
		} {
			r := drive.Run(leaving{m.world, m.rig}, m.options)
			require.Equal(t, drive.PortLost, r.End, "%v %s", k, name)
			m.rig.Advance(time.Second)
			assert.Len(t, m.rig.Record().Switches(), 2, "%v %s", k, name)
			assert.Empty(t, m.rig.Lit(), "%v %s", k, name)
			assert.NotContains(t, strings.Join(m.w.said, " "), "this program alone", "%v %s", k, name)
		}
	}
}

// TestAnOutputThatAProgramAloneSwitchesOff: where the board can not time it, that is said; an
// exposure is as long as it is to be all the same.
func TestAnOutputThatAProgramAloneSwitchesOff(t *testing.T) {
	for name, x := range map[string]struct {
		kind  rig.ControllerKind
		spoil func(tr *trajectory.Trajectory)
		held  float64
	}{
		"a grain too coarse": {rig.Buffered, func(*trajectory.Trajectory) {}, 0.33},
		"no room":            {rig.Lockstep, func(tr *trajectory.Trajectory) { tr.Plan().Rig.Controller.ReceiveBuffer = 10 }, 0.5},
	} {
		text := strings.Replace(stills, "card =", "shutter = \"bulb\"\ncard =", 1)
		m := byFrame(t, x.kind, strings.Replace(text, "1/2 s", fmt.Sprint(x.held, " s"), 1))
		x.spoil(m.options.Trajectory)
		require.NoError(t, m.run().Err(), name)
		assert.Contains(t, strings.Join(m.w.said, " "), "output release is switched off by this program alone", name)
		all := m.rig.Record().Switches()
		require.Len(t, all, 24, name)
		for i := 0; i < len(all); i += 2 {
			assert.InDelta(t, x.held, all[i+1].Seconds-all[i].Seconds, 0.02, name)
		}
	}
}

// TestABoardThatDwellsTooShort: a board that takes seconds for something else is found out
// by the first exposure.
func TestABoardThatDwellsTooShort(t *testing.T) {
	m := byFrame(t, rig.Lockstep, stills)
	r := drive.Run(hasty{m.world}, m.options)
	require.Equal(t, drive.Mismatched, r.End, "%s", r.Detail)
	assert.Contains(t, r.Detail, `output release was to be on for 0.200 s and was for 0.0`)
	assert.Contains(t, r.Detail, `look at what its board makes of "G4 P0.2"`)
	assert.Empty(t, m.rig.Lit())
}

// hasty is a world whose board takes the seconds of a dwell for ms.
type hasty struct{ *virtual.World }

func (w hasty) Write(p []byte) (int, error) {
	_, err := w.World.Write(bytes.ReplaceAll(p, []byte("G4 P0."), []byte("G4 P0.000")))
	return len(p), err
}
