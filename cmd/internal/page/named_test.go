package page

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// A page that was begun without a shot moves no rig of metal, and opens no port.
func TestAPageWithoutANameDrivesNoPort(t *testing.T) {
	t.Chdir(t.TempDir())
	s, err := shot.Decode(starter.ShotName, starter.Shot(), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	p, err := job.Plan(s, r, false)
	require.NoError(t, err)
	server := &Server{}
	_, err = server.onRig(p, driveOptions{port: filepath.Join(t.TempDir(), "port")})
	require.ErrorContains(t, err, "open it by its name")
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Empty(t, entries, "no log was begun")
}
