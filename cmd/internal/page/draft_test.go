package page

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

const oneTab, otherTab = "aaaaaaaa1", "bbbbbbbb2"

// keepDraft tells what a tab has not saved.
func keepDraft(t *testing.T, s *Server, id, text string) {
	t.Helper()
	w := posted(s, "/api/draft", draftQuestion{ID: id, Text: text, Revision: revision(starter.Shot())})
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
}

// hiddenIn are the drafts in a folder.
func hiddenIn(t *testing.T, dir string) (out []string) {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, ".*"+draftEnding))
	require.NoError(t, err)
	for _, f := range found {
		out = append(out, filepath.Base(f))
	}
	return out
}

// What is not saved outlives the program, and nobody takes it for a shot.
func TestADraftOutlivesTheProgram(t *testing.T) {
	s, dir := opened(t)
	mine := strings.Replace(string(starter.Shot()), `"100 mm"`, `"91 mm"`, 1)
	keepDraft(t, s, oneTab, mine)
	assert.Equal(t, []string{".lantern.toml." + oneTab + draftEnding}, hiddenIn(t, dir))
	require.NoError(t, s.Close())
	t.Chdir(dir)
	s, err := Open(Options{})
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	shelf := answeredBy[Shelf](t, s, "", "/api/shelf", struct{}{})
	require.Len(t, shelf.Shots, 1)
	assert.True(t, shelf.Shots[0].Unsaved)
	r := request(s, http.MethodGet, "/api/start", nil)
	r.Header.Set(shotHeader, "lantern.toml")
	body := served(s, r).Body.String()
	assert.Contains(t, body, `\"91 mm\"`)
	assert.Contains(t, body, revision(starter.Shot()))
	assert.Equal(t, string(starter.Shot()), onDisk(t, dir))
}

// Two tabs of a shot keep one each. A tab takes one over only as it has seen it.
func TestTwoTabsKeepTheirOwn(t *testing.T) {
	s, dir := opened(t)
	keepDraft(t, s, oneTab, "one")
	keepDraft(t, s, otherTab, "other")
	assert.Len(t, started(t, s).Drafts, 2)
	posted(s, "/api/draft", draftQuestion{ID: otherTab, Text: "other, earlier", Drop: true})
	assert.Len(t, hiddenIn(t, dir), 2, "it is another by now")
	posted(s, "/api/draft", draftQuestion{ID: otherTab, Text: "other", Drop: true})
	kept := started(t, s).Drafts
	require.Len(t, kept, 1)
	assert.Equal(t, "one", kept[0].Text)
	assert.Equal(t, oneTab, kept[0].ID)
	assert.Equal(t, revision(starter.Shot()), kept[0].Revision)
	assert.InDelta(t, float64(kept[0].When), float64(kept[0].When), 0)
}

// What is saved, or is as the file has it, is no draft any more.
func TestADraftEndsWithItsReason(t *testing.T) {
	s, dir := opened(t)
	first := started(t, s)
	keepDraft(t, s, oneTab, "x")
	keepDraft(t, s, oneTab, first.Text)
	assert.Empty(t, hiddenIn(t, dir))
	mine := first.Text + "# more\n"
	keepDraft(t, s, oneTab, mine)
	keepDraft(t, s, otherTab, "not that")
	w := posted(s, "/api/save", Disk{mine, first.Revision})
	require.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, []string{".lantern.toml." + otherTab + draftEnding}, hiddenIn(t, dir))
	keepDraft(t, s, oneTab, "y")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "lantern.toml"), []byte("y"), 0o640))
	drafts := started(t, s).Drafts
	require.Len(t, drafts, 1, "another program wrote the very same")
	assert.Equal(t, otherTab, drafts[0].ID)
}

// A shot of which there is nothing but what was not saved is opened with that, and can
// be saved.
func TestADraftWithoutItsFile(t *testing.T) {
	s, dir := opened(t)
	keepDraft(t, s, oneTab, "shot = \"x\"")
	require.NoError(t, os.Remove(filepath.Join(dir, "lantern.toml")))
	first := started(t, s)
	assert.True(t, first.New)
	assert.Equal(t, "shot = \"x\"", first.Text)
	shelf := answeredBy[Shelf](t, s, "", "/api/shelf", struct{}{})
	require.Len(t, shelf.Shots, 1)
	assert.Equal(t, OnShelf{"lantern.toml", true, true}, shelf.Shots[0])
	w := posted(s, "/api/save", Disk{first.Text, first.Revision})
	require.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, "shot = \"x\"", onDisk(t, dir))
	assert.Empty(t, hiddenIn(t, dir))
}

func TestADraftIsKeptUnderNoOtherName(t *testing.T) {
	s, dir := opened(t)
	for _, id := range []string{"", "short", "../../../../x", "UPPERCASE", "a.b.c.d.e", strings.Repeat("a", 25)} {
		w := posted(s, "/api/draft", draftQuestion{ID: id, Text: "x"})
		assert.Equal(t, http.StatusBadRequest, w.Code, id)
	}
	assert.Empty(t, hiddenIn(t, dir))
}
