package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

const lackingShot = `shot = "s"
[clock]
playback = "24"
loop = "96 frames"
[rig]
file = "r.toml"
[axis.rail]
from = "40 mm"
to = "60 mm"
[axis.table]
turns = "1/6"
[axis.pan]
move = "aim"
as = "pan"
follow = "rail"
point = ["40 mm", "400 mm", "0 mm"]
[scene.axis.rail]
heading = "push-in"
[scene.axis.table]
role = "table"
[scene.product]
sides = 6
radius = "45 mm"
`

func lackingRig(t *testing.T, axes ...string) rig.Rig {
	t.Helper()
	const (
		turns  = "kind = \"rotary\"\ntravel = \"endless\"\nspeed = \"90 deg/s\"\nacceleration = \"180 deg/s2\"\nsteps = \"160 per deg\"\n"
		slides = "travel = [\"0 mm\", \"400 mm\"]\nspeed = \"400 mm/s\"\nacceleration = \"3000 mm/s2\"\nsteps = \"80 per mm\"\n"
	)
	text := "rig = \"r\"\n"
	for i, a := range axes {
		text += "[axis." + a + "]\nletter = \"" + "XYZ"[i:i+1] + "\"\n" + map[bool]string{true: slides, false: turns}[a == "rail"]
	}
	r, _, err := rig.Decode("r.toml", []byte(text))
	require.NoError(t, err)
	return r
}

// What a rig lacks is told with what remains, and the faults of a plan are those.
func TestLacking(t *testing.T) {
	for _, c := range []struct {
		name    string
		axes    []string
		lacks   []string
		remains string
	}{
		{"a rail alone", []string{"rail"}, []string{"table", "pan"}, "the there-and-back of rail, and the product then shows one face"},
		{"a table alone", []string{"table"}, []string{"rail", "pan"}, "the turn of table, and the camera then stays where it is"},
		{"no pan", []string{"rail", "table"}, []string{"pan"}, "the there-and-back of rail, the turn of table"},
		{"none of them", []string{"boom"}, []string{"rail", "table", "pan"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, s := lackingRig(t, c.axes...), decoded(t, lackingShot)
			var names []string
			_, faults := plan.Partly(s, r)
			for _, l := range plan.Lacking(s, r) {
				names = append(names, l.Name)
				assert.Equal(t, c.remains, l.Remains)
				n := 0
				for _, f := range faults {
					if l.Is(f) {
						n++
					}
				}
				assert.Equal(t, 1, n, "one fault says that it is not there: %s", faults.Error())
			}
			assert.Equal(t, c.lacks, names)
		})
	}
	s := decoded(t, lackingShot)
	assert.Empty(t, plan.Lacking(s, rig.Rig{}), "of a rig that could not be read nothing is known")
}

// A rail gone takes what follows it along: nothing of the shot is left to move.
func TestWhatFollowsIsGoneToo(t *testing.T) {
	s := decoded(t, lackingShot)
	s.Axes = []shot.AxisMove{s.Axes[0], s.Axes[2]}
	l := plan.Lacking(s, lackingRig(t, "pan"))
	require.Len(t, l, 1)
	assert.Empty(t, l[0].Remains)
	assert.False(t, l[0].Is(fault.Fault{Axis: "rail", Quantity: "speed"}))
}

// A stand that the rig has not is one of what it lacks.
func TestLackingAStand(t *testing.T) {
	s := decoded(t, lackingShot+"on = \"table\"\n[spin.display]\nsymmetry = 6\n")
	r := lackingRig(t, "rail", "table", "pan")
	l := plan.Lacking(s, r)
	require.Len(t, l, 1)
	assert.True(t, l[0].Stand)
	_, faults := plan.Partly(s, r)
	require.Len(t, faults, 1)
	assert.True(t, l[0].Is(faults[0]), faults.Error())
}
