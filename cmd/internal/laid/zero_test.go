package laid_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/laid"
	"seamrail/export/report/footagereport"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/pace"
)

func number(value, sure float64) against.Number { return against.Number{Value: value, Sure: sure} }

// A round begins as late as the one before ended, whether or not it took longer itself; what is
// within what it may be out by is as planned.
func TestHowRoundsWent(t *testing.T) {
	d := footagereport.Data{Plan: &against.Result{Frame0: against.Frame0{Known: true}, Rounds: []against.Round{
		{Index: 0, Known: true, Late: number(2, 0.1), Longer: number(2, 0.1)},
		{Index: 1, Known: true, Late: number(2, 0.1), Longer: number(0, 0.1)},
		{Index: 2, Known: true, Late: number(0.19, 0.1), Longer: number(-1.8, 0.1)},
		{Index: 3, Late: number(7, 0.1), Longer: number(7, 0.1)},
	}}}
	run := laid.Runs(d)
	for n, want := range []filmed.Run{{Longer: 2}, {Late: 2}, {Late: 2, Longer: -1.8}, {}, {}} {
		assert.Equal(t, want, run(int64(n)), "round %d", n)
	}
}

// Frame 0 is that of the picture or, where that is not known, of the times at which it changes.
func TestWhatTellsFrame0(t *testing.T) {
	d := footagereport.Data{First: 100, Plan: &against.Result{Frame0: against.Frame0{Number: number(7, 0.1), Known: true}}}
	at, sure, by := laid.ZeroOf(d)
	assert.Equal(t, [2]float64{107, 0.1}, [2]float64{at, sure})
	assert.Equal(t, filmed.ByPicture, by)
	d.Plan.Frame0.Known = false
	_, _, by = laid.ZeroOf(d)
	assert.Equal(t, filmed.Nothing, by)
	d.Pace = &pace.Result{
		Frame0: pace.Frame0{Number: pace.Number{Value: 9, Sure: 0.2}, Known: true}, Rounds: []pace.Round{{Index: 1, Late: pace.Number{Value: 0.4}, Known: true}},
	}
	_, _, by = laid.ZeroOf(d)
	assert.Equal(t, filmed.Nothing, by, "not by a verdict that is none")
	d.Pace.Verdict.Kind = pace.ByTimes
	at, _, by = laid.ZeroOf(d)
	assert.Equal(t, 109.0, at)
	assert.Equal(t, filmed.ByTimes, by)
	assert.Equal(t, filmed.Run{Late: 0.4}, laid.Runs(d)(1))
}
