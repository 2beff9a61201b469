package drive_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// fine is a loop in which a table turns by a seventh, of so many steps that 24 bits
// tell them well apart up to 2048 degrees, 39 rounds.
func fine(t testing.TB) *trajectory.Trajectory {
	tr := sample.Make(t, 96, bench(rig.Buffered), sample.Rail(t, "cycloidal", 40), sample.Table(t))
	p := tr.Plan()
	p.Rig.Controller.Greeting = ""
	p.Rig.Controller.SinglePrecision, p.Rig.Controller.StepRate = true, 1e6
	for i := range p.Rig.Axes {
		if p.Rig.Axes[i].Endless {
			p.Rig.Axes[i].StepsPerUnit = exact.Int(2560)
		}
	}
	for i := range p.Axes {
		if p.Axes[i].Rig.Endless {
			p.Axes[i].Rig.StepsPerUnit = exact.Int(2560)
		}
	}
	return tr
}

// A table goes round and round in take after take. Where the controller could not
// tell its steps apart to the end of one, that does not begin.
func TestTakesAreCountedOn(t *testing.T) {
	tr := fine(t)
	take := followed(t, tr, 20).Take
	for _, reports := range []bool{true, false} {
		for _, single := range []bool{true, false} {
			c := &tr.Plan().Rig.Controller
			c.SinglePrecision = single
			if !reports {
				c.Status, c.HomeLine = 0, "" // which begins without an alarm
			}
			m := onVirtualWith(t, tr, 20, func() drive.Source { return program.New(tr, take) }, nil)
			m.options.Takes = 3
			err := m.run().Err()
			guess := strings.Contains(strings.Join(m.w.said, "\n"), "taken to have been switched on just before this run; if axis table had turned far before")
			require.Equal(t, single && !reports, guess, "what is not known is said, where it matters")
			if !single {
				require.NoError(t, err)
				require.Len(t, m.w.passes, 3)
				continue
			}
			var fault *drive.Failure
			require.ErrorAs(t, err, &fault)
			require.Equal(t, drive.Outcounted, fault.End, fault.Detail)
			require.Len(t, m.w.passes, 1, "the second would end above 2048 degrees")
			require.Contains(t, fault.Detail, "axis table: the controller counts on from 10", "1080 deg, and what it stood at when nothing had been reported")
			require.Contains(t, fault.Detail, "18 rounds more would do, and the take has 20. Switch it off and on")
		}
	}
}

// A take that goes on until asked ends before it is counted out.
func TestATakeWithoutAnEndIsCountedOut(t *testing.T) {
	m := onVirtual(t, fine(t), 0, nil)
	m.options.Takes = 1
	require.NoError(t, m.run().Err())
	require.Len(t, m.w.passes, 1)
	require.EqualValues(t, 39, m.w.passes[0].Rounds, "2048 degrees are 39 rounds and some")
	require.Contains(t, strings.Join(m.w.said, "\n"), "ends by itself after 39 rounds: the controller can count no further up")
}
