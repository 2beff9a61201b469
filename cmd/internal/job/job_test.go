package job

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/exact"
	"seamrail/motion/move"
)

func made(t *testing.T, x Source) *Job {
	t.Helper()
	j, err := x.Job(strings.NewReader(string(starter.Shot())))
	require.NoError(t, err)
	return j
}

// A shot comes from a file and the rig beside it, from standard input, or is the
// built-in one; with both ends of a move and no shot it is a move of the rail alone.
func TestWhereAShotComesFrom(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(file, starter.Shot(), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.Rig(), 0o600))
	built := made(t, Source{})
	for _, x := range []Source{{Shot: file}, {Shot: textfile.Stdin, Rig: filepath.Join(dir, starter.RigName)}} {
		assert.Equal(t, built.Plan.Hash(), made(t, x).Plan.Hash(), x.Shot)
	}
	assert.Equal(t, filepath.Join(dir, starter.RigName), Source{Shot: file}.RigFile(built.Shot))
	assert.Empty(t, Source{}.RigFile(built.Shot))
	from, to := Value{Key: "from", Of: Rail, Text: "20 mm"}, Value{Key: "to", Of: Rail, Text: "90 mm"}
	assert.Len(t, made(t, Source{Over: []Value{from}}).Plan.Axes, 2, "one end changes the built-in shot")
	bare := made(t, Source{Over: []Value{from, to}})
	require.Len(t, bare.Plan.Axes, 1)
	assert.Nil(t, bare.Picture)
	assert.ErrorIs(t, bare.Pictured(), ErrNoScene)
	_, err := Source{Shot: filepath.Join(dir, "none.toml")}.Job(nil)
	assert.ErrorContains(t, err, "there is no file")
}

// A value is of the axis that has its move, unless one is named.
func TestWhoseValueItIs(t *testing.T) {
	turns := Value{Key: "turns", Of: Table, Text: "1/3", Origin: "--turns"}
	j := made(t, Source{Over: []Value{turns}})
	m, ok := j.Shot.Axis("table")
	require.True(t, ok)
	assert.Equal(t, exact.New(1, 3), m.Does.(move.Turner).Turned())
	_, err := Source{Over: []Value{turns}, Axis: "rail"}.Job(nil)
	assert.ErrorContains(t, err, "--turns", "a rail does not turn")
	_, err = Source{Axis: "nothing"}.Job(nil)
	assert.ErrorContains(t, err, `"nothing" is not on the rig`)
}

// What keeps a plan from being run is a matter of limits, and forced only when it is said.
func TestTrouble(t *testing.T) {
	sound := made(t, Source{})
	require.NoError(t, sound.Trouble())
	require.NoError(t, sound.Unable())
	require.NotNil(t, sound.Expected())
	assert.NoError(t, Refuse(sound.Unable(), false))
	far := made(t, Source{Over: []Value{{Key: "to", Of: Rail, Text: "390 mm"}}})
	err := far.Trouble()
	assert.Equal(t, exit.Limits, exit.Code(err))
	assert.ErrorContains(t, err, "the plan breaks")
	assert.Equal(t, err, far.Unable(), "no controller is asked in vain")
	assert.Nil(t, far.Expected())
	assert.ErrorContains(t, Refuse(err, false), "nothing was written")
	assert.NoError(t, Refuse(err, true))
	assert.NotEmpty(t, far.Fits())
}
