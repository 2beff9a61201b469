package page

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

// The page reads a board as the command does, and what it offers can be saved as a new
// file, and over no other.
func TestARigIsReadFromABoard(t *testing.T) {
	s, dir := opened(t)
	w := posted(s, "/api/rig/read", map[string]any{"port": "virtual"})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	var a rigAnswer
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &a))
	assert.Contains(t, a.Said, "115200 baud: listening")
	assert.Contains(t, a.Report, "A buffered controller answers at 115200 baud")
	r, _, err := rig.Decode("f", []byte(a.Text))
	require.NoError(t, err)
	assert.NotEmpty(t, r.Doubts)
	untouched(t, s, dir)

	w = posted(s, "/api/rig/new", map[string]string{"file": "bench.toml", "text": a.Text})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	data, err := os.ReadFile(filepath.Join(dir, "bench.toml"))
	require.NoError(t, err)
	assert.Equal(t, a.Text, string(data))

	for name, want := range map[string]int{
		"bench.toml": http.StatusConflict, starter.RigName: http.StatusConflict, "rig.txt": http.StatusBadRequest,
		"../bench.toml": http.StatusUnprocessableEntity, "none/bench.toml": http.StatusUnprocessableEntity,
	} {
		w := posted(s, "/api/rig/new", map[string]string{"file": name, "text": a.Text})
		assert.Equal(t, want, w.Code, name)
	}
	w = posted(s, "/api/rig/new", map[string]string{"file": "other.toml", "text": "[axis.rail]\n"})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.NoFileExists(t, filepath.Join(dir, "other.toml"), "what is not understood is not written")
	data, err = os.ReadFile(filepath.Join(dir, starter.RigName))
	require.NoError(t, err)
	assert.Equal(t, starter.Rig(), data)
}

// The rig made of software is the one of the shot at hand, whatever else is wrong with that.
func TestTheRigOfTheShotIsRead(t *testing.T) {
	s, dir := opened(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "steps.toml"), starter.RigWith(rig.StepPlayer), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "buttons.toml"), starter.RigWith(rig.TwoEnds), 0o600))
	on := func(file, rest string) (int, string) {
		w := posted(s, "/api/rig/read", map[string]any{"port": "virtual", "text": "[rig]\nfile = \"" + file + "\"\n" + rest})
		return w.Code, w.Body.String()
	}
	code, told := on("steps.toml", "")
	require.Equal(t, http.StatusOK, code, told)
	assert.Contains(t, told, "A step-player controller answers at 115200 baud")
	code, told = on("buttons.toml", "")
	assert.Equal(t, http.StatusUnprocessableEntity, code)
	assert.Contains(t, told, "nothing is sent to it, and nothing answers")
	code, told = on("none.toml", "")
	assert.Equal(t, http.StatusUnprocessableEntity, code)
	assert.Contains(t, told, "none.toml")
}

func TestARigIsNotReadWhileItIsDriven(t *testing.T) {
	s, _ := opened(t)
	r := newFakeRun()
	s.drivesInstead(r)
	w := posted(s, "/api/drive/open", map[string]any{"text": string(starter.Shot()), "port": "virtual"})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	assert.Equal(t, http.StatusLocked, posted(s, "/api/rig/read", map[string]any{"port": "virtual"}).Code)
	close(r.over)

	s, _ = opened(t)
	release, err := s.driving.take()
	require.NoError(t, err)
	w = posted(s, "/api/drive/open", map[string]any{"text": string(starter.Shot()), "port": "virtual"})
	assert.Equal(t, http.StatusLocked, w.Code, "nor driven while it is read")
	release()
	assert.Equal(t, http.StatusOK, posted(s, "/api/rig/read", map[string]any{"port": "virtual"}).Code)
}

// Why nobody answers is said, and nobody is kept from driving by it.
func TestABoardThatCannotBeRead(t *testing.T) {
	s, _ := opened(t)
	w := posted(s, "/api/rig/read", map[string]any{"port": "/dev/no-such-port"})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "is not there")
	w = posted(s, "/api/rig/read", map[string]any{"port": "virtual", "flags": map[string]string{"baud": "9600"}})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "tried were 9600 baud")
	assert.Equal(t, http.StatusBadRequest, posted(s, "/api/rig/read", map[string]any{}).Code)
	assert.Empty(t, s.driving.claim)
}
