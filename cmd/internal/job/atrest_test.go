package job

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/base/list"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
)

// A rig alone makes a job on every kind of controller: each of its axes stands at home,
// in the order of the file, and nothing of it moves, fails or is refused.
func TestARigAlone(t *testing.T) {
	const more = "\n[axis.focus-ring]\nkind = \"rotary\"\nletter = \"Z\"\ntravel = [\"-20.125 deg\", \"270 deg\"]\nhome = \"12.0625 deg\"\nspeed = \"90 deg/s\"\n" +
		"acceleration = \"400 deg/s2\"\nsteps = \"20 per deg\"\n"
	for _, kind := range rig.DrivenKinds() {
		file := filepath.Join(t.TempDir(), "mine.toml")
		require.NoError(t, os.WriteFile(file, append(starter.RigWith(kind), more...), 0o600))
		j, err := AtRest(file)
		require.NoError(t, err, kind)
		names := list.Map(j.Plan.Axes, func(a plan.Axis) string { return a.Rig.Name })
		assert.Equal(t, []string{"rail", "table", "focus-ring"}, names, kind)
		for i, a := range j.Plan.Axes {
			assert.Equal(t, a.Rig.Home, j.Trajectory.TakeState(i, 1, 0).Pos)
			assert.Equal(t, a.Rig.Home, j.Trajectory.TakeState(i, 1, 0.5).Pos)
		}
		assert.NoError(t, j.Unable(), kind)
	}
	j, err := AtRest("")
	require.NoError(t, err)
	assert.Equal(t, "Bench rail and table", j.Rig.Name)
}

// What is no rig file is told what it is.
func TestNoRigAlone(t *testing.T) {
	dir := t.TempDir()
	shot, bad := filepath.Join(dir, "lantern.toml"), filepath.Join(dir, "bad.toml")
	require.NoError(t, os.WriteFile(shot, starter.Shot(), 0o600))
	require.NoError(t, os.WriteFile(bad, []byte("rig = \"Bad\"\n[axis.rail]\nspeed = \"fast\"\n"), 0o600))
	_, err := AtRest(shot)
	assert.ErrorContains(t, err, "this is a shot file; a rig file is wanted here")
	_, err = AtRest(bad)
	assert.ErrorContains(t, err, "bad.toml:3:9: axis rail: speed \"fast\"")
	_, err = AtRest(filepath.Join(dir, "none.toml"))
	assert.ErrorContains(t, err, "there is no file")
	require.NoError(t, os.WriteFile(bad, starter.RigWith(rig.TwoEnds), 0o600))
	_, err = AtRest(bad)
	assert.ErrorContains(t, err, "nothing is sent to it")
}
