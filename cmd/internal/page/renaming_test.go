package page

import (
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/hold"
	"seamrail/cmd/internal/logbook"
	"seamrail/cmd/internal/starter"
)

func namesIn(t *testing.T, dir string) (out []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestSavingUnderAnotherName(t *testing.T) {
	s, dir := opened(t)
	moved := answeredBy[Moved](t, s, "", "/api/save-as", saveAsQuestion{"nearer", "text"})
	assert.Equal(t, "nearer.toml", moved.File)
	assert.Equal(t, revision([]byte("text")), moved.Revision)
	assert.Equal(t, string(starter.Shot()), onDisk(t, dir))
	for _, name := range []string{"nearer", "lantern.toml", starter.RigName} {
		w := posted(s, "/api/save-as", saveAsQuestion{name, "other"})
		assert.Equal(t, http.StatusConflict, w.Code, name)
	}
	data, err := os.ReadFile(filepath.Join(dir, "nearer.toml"))
	require.NoError(t, err)
	assert.Equal(t, "text", string(data))
}

// A shot goes with its takes and with what tabs have not saved of it.
func TestRenamingTakesTheLogAlong(t *testing.T) {
	s, dir := opened(t)
	log := filepath.Join(dir, logbook.NameOf("lantern.toml"))
	require.NoError(t, os.WriteFile(log, []byte("{}\n"), 0o600))
	keepDraft(t, s, oneTab, "mine")
	moved := answeredBy[Moved](t, s, "", "/api/rename", nameQuestion{"reveal"})
	assert.Equal(t, Moved{"reveal.toml", revision(starter.Shot()), []string{"reveal.takes.jsonl"}}, moved)
	assert.Equal(t, []string{".reveal.toml." + oneTab + draftEnding, starter.RigName, "reveal.takes.jsonl", "reveal.toml"}, namesIn(t, dir))
	info, err := os.Stat(filepath.Join(dir, "reveal.toml"))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
}

// All of it is renamed or none: a name of any of it that is taken leaves all as it was.
func TestRenamingAllOrNothing(t *testing.T) {
	s, dir := opened(t)
	log := logbook.NameOf("lantern.toml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, log), []byte("{}\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "reveal.takes.jsonl"), []byte("another's"), 0o600))
	before := namesIn(t, dir)
	w := posted(s, "/api/rename", nameQuestion{"reveal"})
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Contains(t, w.Body.String(), "reveal.takes.jsonl is already there")
	assert.Equal(t, before, namesIn(t, dir))
	w = posted(s, "/api/rename", nameQuestion{"bench-rail"})
	assert.Equal(t, http.StatusConflict, w.Code)
	held, err := hold.Take(filepath.Join(dir, "."+log+".lock"))
	require.NoError(t, err)
	if held.Sure {
		w = posted(s, "/api/rename", nameQuestion{"other"})
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
		assert.Contains(t, w.Body.String(), "another run logs its takes")
	}
	held.Drop()
	assert.Equal(t, before, namesIn(t, dir))
	release, err := s.driving.take()
	require.NoError(t, err)
	w = posted(s, "/api/rename", nameQuestion{"other"})
	assert.Equal(t, http.StatusLocked, w.Code)
	release()
	require.NoError(t, os.Remove(filepath.Join(dir, "lantern.toml")))
	w = posted(s, "/api/rename", nameQuestion{"other"})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code, "there is nothing to rename")
}

// Where the disk has no second names, a copy goes before the first loses its old one.
func TestRenamingByCopies(t *testing.T) {
	s, dir := opened(t)
	f := s.folder
	require.NoError(t, f.copied("lantern.toml", "b.toml", "b.toml"))
	data, err := os.ReadFile(filepath.Join(dir, "b.toml"))
	require.NoError(t, err)
	assert.Equal(t, string(starter.Shot()), string(data))
	assert.ErrorContains(t, f.copied("lantern.toml", "none/c.toml", "none/c.toml"), "cannot write")
	require.Error(t, f.copied("lantern.toml", "b.toml", "b.toml"))
	// A loss half way gives all their old names again.
	require.NoError(t, os.Remove(filepath.Join(dir, "lantern.toml")))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "c.toml"), []byte("c"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "d.toml"), []byte("c"), 0o600))
	require.ErrorIs(t, f.back([][2]string{{"lantern.toml", "b.toml"}, {"c.toml", "d.toml"}}, fs.ErrPermission), fs.ErrPermission)
	assert.Equal(t, []string{"bench-rail.toml", "c.toml", "lantern.toml"}, namesIn(t, dir))
}

// What is not in the folder is neither renamed nor saved to.
func TestRenamingNothingOutside(t *testing.T) {
	s, dir := opened(t)
	for _, name := range []string{"../x", "/tmp/x", "sub/x", strings.Repeat("../", 9) + "x"} {
		for _, path := range []string{"/api/rename", "/api/save-as"} {
			w := posted(s, path, map[string]string{"file": name})
			assert.Equal(t, http.StatusUnprocessableEntity, w.Code, name)
		}
	}
	assert.Equal(t, []string{"bench-rail.toml", "lantern.toml"}, namesIn(t, dir))
}
