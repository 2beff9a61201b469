package page

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive"
)

// Every beat reaches the page, also those that fall together, with a number and a time.
func TestEveryBeatIsCalled(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Counting)
		d.s.stage.Count(1)
		d.s.stage.Enter(drive.Running)
		d.s.stage.Count(0)
		d.s.stage.Called(drive.Beat{Text: "fog, left hand", Left: 1})
		d.s.stage.Called(drive.Beat{Text: "petal, right hand"})
		at := float64(time.Now().UnixMicro()) / 1000
		assert.Equal(t, []Call{
			{1, false, "count-in", 1, at}, {2, false, "count-in", 0, at}, {3, true, "fog, left hand", 1, at}, {4, true, "petal, right hand", 0, at},
		}, d.state().Calls)
		for range 2 * callsKept {
			d.s.stage.Called(drive.Beat{Text: "fog"})
		}
		calls := d.state().Calls
		assert.Len(t, calls, callsKept)
		assert.Equal(t, 2*callsKept+4, calls[callsKept-1].Number)
		d.s.stage.Passed(drive.Pass{Take: 1})
		assert.Empty(t, d.state().Calls)
		d.s.stage.Called(drive.Beat{Text: "fog"})
		assert.Equal(t, 2*callsKept+5, d.state().Calls[0].Number, "numbers go on")
	})
}

// Where it is and where the plan is come as one, and last no longer than the rig is there.
func TestWhereItIsIsOfOneInstant(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		next := &drive.Coming{Beat: drive.Beat{Text: "fog, left hand"}, In: 2}
		d.s.stage.Progress(drive.Progress{Take: 3, Round: 1, Rounds: 3, Ahead: 1.25, Next: next, Seen: drive.Sighting{
			Round: 1, Frame: 7.5, Reported: true, At: []float64{370}, Plan: []float64{369}, Off: []float64{1}, InRound: []float64{10},
		}})
		x := d.state()
		assert.Equal(t, &Seen{1, 7.5, false, true, []float64{370}, []float64{369}, []float64{1}, []float64{10}}, x.Seen)
		assert.Equal(t, []float64{370}, x.Pos)
		assert.EqualValues(t, 3, x.Rounds)
		assert.Equal(t, &Coming{"fog, left hand", 2}, x.Next)
		d.s.stage.Enter(drive.Slowing)
		d.s.stage.Enter(drive.Resting)
		assert.NotNil(t, d.state().Seen, "held, it is still there")
		d.s.stage.Enter(drive.Returning)
		assert.Nil(t, d.state().Seen)
		assert.Empty(t, d.state().Pos, "on the way nobody is told")
	})
}

// What a rig does when nobody tells it anything any more is told beforehand, and where that
// rests on a model, so it says.
func TestWhatARigDoesByItself(t *testing.T) {
	said := map[string]drive.State{}
	for x := drive.Opening; x <= drive.Over; x++ {
		words := runsOn(x, false, 1.26)
		said[words] = x
		assert.Contains(t, runsOn(x, true, 1.26), "made of software", x)
	}
	assert.Contains(t, runsOn(drive.Running, false, 1.26), "by the model of what it was sent, about 1.3 s of motion more")
	assert.Equal(t, runsOn(drive.Running, false, 1), runsOn(drive.Draining, false, 1))
	assert.Len(t, said, 5)
	assert.Contains(t, runsOn(drive.Ready, false, 0), "It rested")
	driven(t, func(d driver) {
		d.s.stage.change(func(x *DriveState) { x.Where = "/dev/one" })
		d.s.stage.Enter(drive.Homing)
		assert.Contains(t, d.state().RunsOn, "switches")
		d.s.stage.Enter(drive.Running)
		d.s.stage.Progress(drive.Progress{Ahead: 2})
		assert.Contains(t, d.state().RunsOn, "2.0 s")
	})
}
