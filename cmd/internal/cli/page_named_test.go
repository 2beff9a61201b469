package cli

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/page"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
)

// A page that was begun without a shot moves no rig of metal, and opens no port.
func TestAPageWithoutANameDrivesNoPort(t *testing.T) {
	t.Chdir(t.TempDir())
	s, err := shot.Decode(starter.ShotName, starter.Shot(), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	core := pageCore{&PageOptions{}}
	p, err := core.Plan(s, r)
	require.NoError(t, err)
	_, err = core.Drive(p, page.DriveOptions{Port: filepath.Join(t.TempDir(), "port")}, nil)
	require.ErrorContains(t, err, "open it by its name")
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Empty(t, entries, "no log was begun")
}
