package page

import (
	"net/http"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// folderOpened is a page that was begun without a shot, in a folder with files.
func folderOpened(t *testing.T, files map[string]string) *Server {
	t.Helper()
	t.Chdir(t.TempDir())
	for name, text := range files {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o640))
	}
	s, err := Open(Options{Version: "test"})
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// A page that was begun without a shot moves no rig: nothing is driven that is not named,
// and no log is begun.
func TestAPageWithoutANameDrivesNothing(t *testing.T) {
	s := folderOpened(t, nil)
	for _, port := range []string{virtualPort, "/dev/ttyNONE0"} {
		w := posted(s, "/api/drive/open", map[string]string{"text": string(starter.Shot()), "port": port})
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
		assert.Contains(t, w.Body.String(), errNoShot.Error())
	}
	assert.False(t, s.driven())
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Empty(t, entries, "no log was begun")
}
