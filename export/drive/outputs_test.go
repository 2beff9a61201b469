package drive_test

import (
	"testing"

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
