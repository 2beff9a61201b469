package page

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// answeredBy posts a question of a shot, "" for none, and reads the answer.
func answeredBy[T any](t *testing.T, s *Server, shot, path string, q any) (out T) {
	t.Helper()
	r := request(s, http.MethodPost, path, q)
	r.Header.Set(shotHeader, url.PathEscape(shot))
	w := served(s, r)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &out))
	return out
}

func filesOf(list []OnShelf) (out []string) {
	for _, x := range list {
		out = append(out, x.File)
	}
	return out
}

// The shots of the folder are listed, broken ones too, and nothing that is none.
func TestTheShelfHasTheShotsOfItsFolder(t *testing.T) {
	rigText := string(starter.Rig())
	s := folderOpened(t, map[string]string{
		"lantern.toml": string(starter.Shot()), starter.RigName: rigText, "broken.toml": "shot = \"Half\n[clock]\n",
		"other.toml": "[project]\nname = \"x\"\n", "notes.txt": "shot = \"no\"", ".hidden.toml": string(starter.Shot()),
		"half-rig.toml": "rig = \"Bench\"\n[controller]\n",
	})
	require.NoError(t, os.MkdirAll("day/deeper", 0o750))
	require.NoError(t, os.Mkdir(".away", 0o750))
	for _, name := range []string{"day/one.toml", "day/deeper/two.toml", ".away/three.toml"} {
		require.NoError(t, os.WriteFile(name, starter.Shot(), 0o640))
	}
	for i, name := range []string{"broken.toml", "lantern.toml", "day/one.toml"} {
		when := time.Now().Add(time.Duration(i) * time.Hour)
		require.NoError(t, os.Chtimes(name, when, when))
	}
	shelf := answeredBy[Shelf](t, s, "", "/api/shelf", struct{}{})
	assert.Equal(t, []string{"day/one.toml", "lantern.toml", "broken.toml"}, filesOf(shelf.Shots), "the last changed first")
	require.Len(t, shelf.Rigs, 2)
	assert.Equal(t, RigFile{starter.RigName, "Bench rail and table", ""}, shelf.Rigs[0])
	assert.NotEmpty(t, shelf.Rigs[1].Why)
	assert.Len(t, shelf.BuiltIn, 4)
	assert.Zero(t, shelf.Left)
	assert.False(t, shelf.Driving)
}

func TestAShelfHasAnEnd(t *testing.T) {
	s := folderOpened(t, nil)
	for i := range shelved + 3 {
		require.NoError(t, os.WriteFile(fmt.Sprintf("a%03d.toml", i), []byte("shot = \"x\""), 0o640))
	}
	shelf := answeredBy[Shelf](t, s, "", "/api/shelf", struct{}{})
	assert.Len(t, shelf.Shots, shelved)
	assert.Equal(t, 3, shelf.Left)
}

func TestCards(t *testing.T) {
	s := folderOpened(t, map[string]string{
		"lantern.toml": string(starter.Shot()), starter.RigName: string(starter.Rig()),
		"broken.toml": "shot = \"Half of it\"\n[clock]\nloop = 3 s\n",
		"wrong.toml":  strings.Replace(string(starter.Shot()), `= "6 s"`, `= "six"`, 1),
		"fast.toml":   strings.Replace(string(starter.Shot()), `= "6 s"`, `= "1 s"`, 1),
	})
	whole := answeredBy[Card](t, s, "lantern.toml", "/api/card", struct{}{})
	assert.Equal(t, "Fernhollow lantern, slow reveal", whole.Title)
	assert.Empty(t, whole.Faults)
	assert.InDelta(t, 6.006, whole.Seconds, 0.01)
	assert.True(t, whole.Pictured)
	assert.True(t, whole.Headline.Ready)
	assert.NotEqual(t, good, whole.Headline.Level, "the controller was not looked at yet")
	assert.Equal(t, string(starter.Shot()), whole.Text)
	broken := answeredBy[Card](t, s, "broken.toml", "/api/card", struct{}{})
	assert.Equal(t, "broken", broken.Title)
	require.NotEmpty(t, broken.Faults)
	assert.Equal(t, 3, broken.Faults[0].Line)
	wrong := answeredBy[Card](t, s, "wrong.toml", "/api/card", struct{}{})
	assert.Equal(t, "Fernhollow lantern, slow reveal", wrong.Title)
	assert.NotEmpty(t, wrong.Faults)
	assert.Zero(t, wrong.Frames)
	assert.Equal(t, bad, answeredBy[Card](t, s, "fast.toml", "/api/card", struct{}{}).Headline.Level)
}

// A folder of many shots holds the plans of few.
func TestAShelfKeepsFewPlans(t *testing.T) {
	s := folderOpened(t, map[string]string{starter.RigName: string(starter.Rig())})
	for i := range 3 * desksKept {
		name := fmt.Sprintf("a%d.toml", i)
		require.NoError(t, os.WriteFile(name, starter.Shot(), 0o640))
		answeredBy[Card](t, s, name, "/api/card", struct{}{})
	}
	kept := 0
	for _, d := range s.desks.open {
		kept += len(d.plans.kept)
	}
	assert.Equal(t, desksKept, kept)
}

// The first screen is what a page without a shot begins with, and any page on demand.
func TestWhatTheAddressOpens(t *testing.T) {
	shelf := func(s *Server, address string) bool {
		w := served(s, request(s, http.MethodGet, address, nil))
		require.Equal(t, http.StatusOK, w.Code)
		return strings.Contains(w.Body.String(), `joined/shelf.js"`)
	}
	s, _ := opened(t)
	assert.False(t, shelf(s, "/"))
	assert.True(t, shelf(s, "/?shots"))
	assert.False(t, shelf(s, "/?shot=lantern.toml"))
	s = folderOpened(t, nil)
	assert.True(t, shelf(s, "/"))
	assert.True(t, shelf(s, "/?shots"))
	assert.False(t, shelf(s, "/?shot=lantern.toml"))
}

// A rig file that is not there is a fault where the shot names it, with what is there
// instead; when it comes, or changes, those who watch hear of it.
func TestARigThatIsMissing(t *testing.T) {
	s, dir := opened(t)
	rigFile := filepath.Join(dir, starter.RigName)
	require.NoError(t, os.Rename(rigFile, filepath.Join(dir, "my-rig.toml")))
	a := s.first.answer(t.Context(), question{Text: string(starter.Shot())})
	require.Len(t, a.Faults, 1)
	assert.Nil(t, a.View)
	assert.Equal(t, `rig.file "bench-rail.toml" is not there`, a.Faults[0].Text)
	assert.Equal(t, "in its folder there is my-rig.toml; or put the rig's file there, and it is planned at once", a.Faults[0].Fit)
	require.Len(t, a.Faults[0].Mends, 1, "what is there is a button")
	assert.Equal(t, `file = "my-rig.toml"`, a.Faults[0].Mends[0].Text)
	assert.NotNil(t, s.first.answer(t.Context(), question{Text: string(starter.Shot()), Edits: a.Faults[0].Mends[0].Edits}).View)
	_ = s.first.answer(t.Context(), question{Text: string(starter.Shot())})
	assert.Equal(t, 1+strings.Count(strings.Split(string(starter.Shot()), "file = ")[0], "\n"), a.Faults[0].Line)
	seen := map[string]string{}
	look := func() []string {
		files, _ := s.first.doc.under.changed(seen, s.first.doc.read)
		return files
	}
	assert.Empty(t, look())
	require.NoError(t, os.WriteFile(rigFile, starter.Rig(), 0o640))
	assert.Equal(t, []string{starter.RigName}, look())
	assert.Empty(t, s.first.answer(t.Context(), question{Text: string(starter.Shot())}).Faults)
	require.NoError(t, os.WriteFile(rigFile, starter.WithoutTable(starter.Rig()), 0o640))
	assert.Equal(t, []string{starter.RigName}, look())
	a = s.first.answer(t.Context(), question{Text: strings.Replace(string(starter.Shot()), `= "6 s"`, `= "six"`, 1)})
	assert.NotEmpty(t, a.Faults)
}
