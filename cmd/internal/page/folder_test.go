package page

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/hold"
	"seamrail/cmd/internal/starter"
)

// outside makes a file beside the folder, and a link to it and to its folder
// from within, and returns names that lead there.
func outside(t *testing.T, dir string) (secret string, names []string) {
	t.Helper()
	other := t.TempDir()
	secret = filepath.Join(other, "secret.toml")
	require.NoError(t, os.WriteFile(secret, []byte("secret = \"7f3\"\n"), 0o600))
	require.NoError(t, os.Symlink(secret, filepath.Join(dir, "link.toml")))
	require.NoError(t, os.Symlink(other, filepath.Join(dir, "away")))
	up, err := filepath.Rel(dir, secret)
	require.NoError(t, err)
	return secret, []string{secret, up, "./" + up, "sub/../" + up, "link.toml", "away/secret.toml", "../" + filepath.Base(dir) + "/" + up, "", ".", "a\x00b"}
}

func TestNothingOutsideTheFolderIsRead(t *testing.T) {
	s, dir := opened(t)
	_, names := outside(t, dir)
	for _, name := range names {
		_, err := s.first.doc.read(name)
		require.Error(t, err, name)
		w := posted(s, "/api/sequence", map[string]string{"file": name})
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, name)
		assert.NotContains(t, w.Body.String(), "7f3")
		quoted, _ := json.Marshal(name)
		w = posted(s, "/api/plan", map[string]string{"text": strings.Replace(string(starter.Shot()), `"bench-rail.toml"`, string(quoted), 1)})
		assert.NotContains(t, w.Body.String(), "7f3")
		assert.Contains(t, w.Body.String(), `"view":null`)
	}
	assert.Empty(t, s.first.plans.kept, "nothing of it came to be planned")
}

func TestNothingOutsideTheFolderIsWritten(t *testing.T) {
	s, dir := opened(t)
	secret, names := outside(t, dir)
	for _, name := range names {
		if name != "link.toml" { // that is replaced, and what it pointed to is not
			require.Error(t, s.first.doc.write(name, []byte("changed")), name)
		}
		w := posted(s, "/api/make", map[string]string{"text": string(starter.Shot()), "folder": name})
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, name)
	}
	require.NoError(t, s.first.doc.write("link.toml", []byte("changed")))
	w := posted(s, "/api/make", map[string]string{"text": string(starter.Shot()), "folder": "away"})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	data, err := os.ReadFile(secret)
	require.NoError(t, err)
	assert.Equal(t, "secret = \"7f3\"\n", string(data))
	entries, err := os.ReadDir(filepath.Dir(secret))
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

func TestAFolderIsNoFile(t *testing.T) {
	s, dir := opened(t)
	require.NoError(t, os.Mkdir(filepath.Join(dir, "sub"), 0o750))
	_, err := s.first.doc.read("sub")
	assert.ErrorContains(t, err, "is no plain file")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "long.toml"), make([]byte, largestFile+1), 0o600))
	_, err = s.first.doc.read("long.toml")
	assert.ErrorContains(t, err, "more than 1048576 bytes")
}

// What a page was killed amid is swept when it saves again, another run knows that
// a page works in the folder, and that what it reads is not to be written over.
func TestAPageAmongOtherRuns(t *testing.T) {
	dir := t.TempDir()
	f, err := openFolder(dir)
	require.NoError(t, err)
	left := filepath.Join(dir, atomicfile.PartName("lantern.toml"))
	require.NoError(t, os.WriteFile(left, nil, 0o600))
	require.NoError(t, f.write("lantern.toml", []byte("new")))
	h, err := hold.Take(filepath.Join(dir, "probe"))
	require.NoError(t, err)
	if h.Drop(); h.Sure {
		require.NoFileExists(t, left)
		require.False(t, hold.Free(dir))
	}
	_, err = f.read("lantern.toml")
	require.NoError(t, err)
	require.ErrorContains(t, atomicfile.Refused(filepath.Join(dir, "lantern.toml")), "is read by this very run")
	require.NoError(t, f.write("lantern.toml", []byte("saved by the page")))
	require.NoError(t, f.close())
	require.True(t, hold.Free(dir))
	_, err = openFolder(filepath.Join(dir, "none"))
	require.Error(t, err)
}
