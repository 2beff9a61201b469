package page

import (
	"encoding/json"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

func started(t *testing.T, s *Server) Start {
	t.Helper()
	w := served(s, request(s, http.MethodGet, "/api/start", nil))
	require.Equal(t, http.StatusOK, w.Code)
	var out Start
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &out))
	return out
}

func onDisk(t *testing.T, dir string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "lantern.toml"))
	require.NoError(t, err)
	return string(data)
}

// What was typed goes to its place, and every other byte stays, comments too.
func TestSaveKeepsComments(t *testing.T) {
	s, dir := opened(t)
	first := started(t, s)
	text, err := s.first.edited(t.Context(), first.Text, []Edit{{Path: "axis.rail.to", Value: ptr("91 mm")}, {Path: "clock.loop", Value: ptr("5 s")}})
	require.NoError(t, err)
	w := posted(s, "/api/save", map[string]string{"text": text, "revision": first.Revision})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	want := strings.Replace(string(starter.Shot()), `"100 mm"`, `"91 mm"`, 1)
	want = strings.Replace(want, `= "6 s"`, `= "5 s"`, 1)
	assert.Equal(t, want, onDisk(t, dir))
	info, err := os.Stat(filepath.Join(dir, "lantern.toml"))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 2, "nothing half written is left")
	assert.Equal(t, started(t, s).Revision, revisionOf(t, w.Body.Bytes()))
}

func ptr(s string) *string { return &s }

func revisionOf(t *testing.T, body []byte) string {
	t.Helper()
	var out conflict
	require.NoError(t, json.Unmarshal(body, &out))
	return out.Revision
}

// Neither the editor's change nor the page's is lost.
func TestAChangeOnDiskIsNotWrittenOver(t *testing.T) {
	s, dir := opened(t)
	first := started(t, s)
	theirs := strings.Replace(first.Text, `"100 mm"`, `"95 mm"`, 1)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "lantern.toml"), []byte(theirs), 0o640))
	ours := strings.Replace(first.Text, `"100 mm"`, `"91 mm"`, 1)
	w := posted(s, "/api/save", map[string]string{"text": ours, "revision": first.Revision})
	assert.Equal(t, http.StatusConflict, w.Code)
	assert.Equal(t, theirs, onDisk(t, dir))
	var both conflict
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &both))
	assert.Equal(t, theirs, both.Text)
	w = posted(s, "/api/save", map[string]string{"text": ours, "revision": both.Revision})
	assert.Equal(t, http.StatusOK, w.Code, "the person has seen the other and chosen")
	assert.Equal(t, ours, onDisk(t, dir))
}

func TestALockedFileIsSaid(t *testing.T) {
	s, dir := opened(t)
	require.NoError(t, os.Chmod(filepath.Join(dir, "lantern.toml"), 0o440))
	first := started(t, s)
	w := posted(s, "/api/save", map[string]string{"text": "x", "revision": first.Revision})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "cannot write lantern.toml: it is locked against writing; nothing was changed")
	assert.Equal(t, first.Text, onDisk(t, dir))
}

func TestAFileThatIsGoneIsWrittenAgain(t *testing.T) {
	s, dir := opened(t)
	first := started(t, s)
	require.NoError(t, os.Remove(filepath.Join(dir, "lantern.toml")))
	w := posted(s, "/api/save", map[string]string{"text": first.Text, "revision": first.Revision})
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, first.Text, onDisk(t, dir))
}

func TestTroubleOfTheDiskIsSaidPlainly(t *testing.T) {
	full := &fs.PathError{Op: "write", Path: ".lantern.toml.0.part", Err: syscall.ENOSPC}
	assert.EqualError(t, unable("write", "lantern.toml", full), "cannot write lantern.toml: no space left on device; nothing was changed")
	link := &os.LinkError{Op: "rename", Old: "a", New: "b", Err: syscall.EACCES}
	assert.EqualError(t, unable("write", "lantern.toml", link), "cannot write lantern.toml: permission denied; nothing was changed")
}
