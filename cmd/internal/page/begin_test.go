package page

import (
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/spec/rig"
)

// asBegun is what a kind on the built-in rig is begun with.
func asBegun(kind, file string) startQuestion {
	return startQuestion{Controller: rig.Buffered.String(), Kind: kind, File: file}
}

func withAnswers(kind string, answers kinds.Answers) startQuestion {
	q := asBegun(kind, "a")
	q.Answers = answers
	return q
}

// Whatever a kind is begun with is written with its rig, and opens as a plan, on each
// built-in rig that can do it; where one cannot, it says why and nothing is written.
func TestEveryKindBegins(t *testing.T) {
	for _, controller := range rig.KindNames() {
		for _, noTable := range []bool{false, true} {
			if noTable && controller != rig.Buffered.String() {
				continue // what a table is for, the controller does not change
			}
			s := folderOpened(t, nil)
			on := startQuestion{Controller: controller, NoTable: noTable}
			all := answeredBy[[]KindAnswer](t, s, "", "/api/kinds", on)
			require.Len(t, all, 1+len(kinds.Names()))
			can := 0
			for _, k := range all {
				on.Kind = k.Name
				asked := answeredBy[KindAnswer](t, s, "", "/api/kind", on)
				assert.Equal(t, k.Why, asked.Why, k.Name)
				on.File = asked.File
				w := posted(s, "/api/begin", on)
				if k.Why != "" {
					assert.Equal(t, http.StatusUnprocessableEntity, w.Code, k.Name)
					assert.NoFileExists(t, asked.File)
					continue
				}
				can++
				require.Equal(t, http.StatusOK, w.Code, w.Body.String())
				card := answeredBy[Card](t, s, asked.File, "/api/card", struct{}{})
				assert.Empty(t, card.Faults, k.Name)
				assert.True(t, card.Headline.Ready, "%s: %s", k.Name, card.Headline.Words)
				assert.InDelta(t, asked.Seconds, card.Seconds, 0, "what was shown is what was written")
				assert.Equal(t, asked.Headline, card.Headline)
			}
			assert.Positive(t, can)
		}
	}
}

// The numbers of a kind come with their bounds, and an answer that would not do is told
// with what would.
func TestTheNumbersOfAKind(t *testing.T) {
	s := folderOpened(t, nil)
	a := answeredBy[KindAnswer](t, s, "", "/api/kind", withAnswers("pass", kinds.Answers{"loop": "10 s", "from": "9000"}))
	require.Len(t, a.Questions, 5)
	assert.Equal(t, "8 s", a.Questions[1].Value)
	assert.Equal(t, "2 s", a.Questions[1].Least)
	assert.Contains(t, a.Questions[2].Wrong, "must be from 0 mm to 400 mm")
	assert.Zero(t, a.Frames)
	a = answeredBy[KindAnswer](t, s, "", "/api/kind", withAnswers("pass", kinds.Answers{"loop": "10 s"}))
	assert.InDelta(t, 10, a.Seconds, 0.05)
	assert.Equal(t, starter.RigName, a.RigFile)
	assert.True(t, a.Writes)
	assert.Contains(t, a.Headline.Words, "Whether the controller follows is being worked out")
	q := withAnswers("pass", kinds.Answers{"loop": "10 s"})
	q.Fully = true
	assert.NotContains(t, answeredBy[KindAnswer](t, s, "", "/api/kind", q).Headline.Words, "is being worked out")
	w := posted(s, "/api/begin", withAnswers("pass", kinds.Answers{"from": "9000"}))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	w = posted(s, "/api/begin", asBegun("spiral", "a"))
	assert.Equal(t, http.StatusBadRequest, w.Code)
	entries, _ := os.ReadDir(".")
	assert.Empty(t, entries)
}

// What is there stays: neither shot nor rig is written over, and a rig that was measured
// is not taken for the built-in one.
func TestBeginningWritesOverNothing(t *testing.T) {
	s := folderOpened(t, map[string]string{"pass.toml": "mine", starter.RigName: "rig = \"measured\"\n"})
	w := posted(s, "/api/begin", asBegun("pass", "pass"))
	assert.Equal(t, http.StatusConflict, w.Code)
	entries, _ := os.ReadDir(".")
	assert.Len(t, entries, 2, "no rig without its shot")
	a := answeredBy[KindAnswer](t, s, "", "/api/kind", asBegun("pass", ""))
	assert.Equal(t, "pass-2.toml", a.File)
	assert.Equal(t, "bench-rail-2.toml", a.RigFile)
	for _, name := range []string{a.File, "again"} {
		w = posted(s, "/api/begin", asBegun("pass", name))
		require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	}
	assert.NoFileExists(t, "bench-rail-3.toml", "the very same rig serves both")
	for name, want := range map[string]string{"pass.toml": "mine", starter.RigName: "rig = \"measured\"\n"} {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, want, string(data))
	}
}

// A shot on a rig of the folder names that file, and no other is written.
func TestBeginningOnARigThatIsThere(t *testing.T) {
	s := folderOpened(t, map[string]string{"my-rig.toml": string(starter.WithoutTable(starter.Rig()))})
	on := startQuestion{Rig: "my-rig.toml"}
	for _, k := range answeredBy[[]KindAnswer](t, s, "", "/api/kinds", on) {
		assert.Equal(t, k.Name == "turntable" || k.Name == "still-turn" || k.Name == lantern || k.Name == "display-stand", k.Why != "", "%s: %s", k.Name, k.Why)
	}
	w := posted(s, "/api/begin", startQuestion{Rig: "my-rig.toml", Kind: "hand", File: "bead"})
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	data, err := os.ReadFile("bead.toml")
	require.NoError(t, err)
	assert.Contains(t, string(data), `file = "my-rig.toml"`)
	assert.NoFileExists(t, starter.RigName)
	for _, away := range []string{"../rig.toml", "/etc/passwd", "none.toml", "bead.toml"} {
		w := posted(s, "/api/begin", startQuestion{Rig: away, Kind: "hand", File: "c"})
		assert.Equal(t, http.StatusUnprocessableEntity, w.Code, away)
	}
	assert.NoFileExists(t, "c.toml")
}

func TestBeginningInALockedFolder(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("nothing is locked for root")
	}
	s := folderOpened(t, nil)
	dir, err := filepath.Abs(".")
	require.NoError(t, err)
	require.NoError(t, os.Chmod(dir, 0o550))
	t.Cleanup(func() { _ = os.Chmod(dir, 0o750) })
	w := posted(s, "/api/begin", asBegun("pass", "a"))
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Contains(t, w.Body.String(), "permission denied")
}

// The picture of a shot that is not begun is drawn as one of the folder is.
func TestThePictureOfAKind(t *testing.T) {
	s := folderOpened(t, nil)
	w := posted(s, "/api/kind/picture", map[string]any{"kind": "pass", "controller": "buffered", "width": 64, "every": 200})
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	assert.Positive(t, w.Body.Len())
	w = posted(s, "/api/kind/picture", map[string]any{"kind": "turntable", "controller": "buffered", "noTable": true, "width": 64})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
}
