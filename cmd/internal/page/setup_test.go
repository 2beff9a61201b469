package page

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/shot"

	"seamrail/cmd/internal/starter"
)

// onTable is a page of a shot of the built-in sequence, with what lies under it.
func onTable(t *testing.T) (s *Server, dir, text string) {
	t.Helper()
	dir = t.TempDir()
	files, err := starter.Clip()
	require.NoError(t, err)
	for name, data := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o640))
	}
	s, err = Open(Options{Shot: filepath.Join(dir, "reveal.toml")})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s, dir, string(files["reveal.toml"])
}

func valueAt(t *testing.T, v *View, path string) Value {
	t.Helper()
	for _, x := range v.Values {
		if x.Path == path {
			return x
		}
	}
	t.Fatalf("there is no %s", path)
	return Value{}
}

func fileIn(t *testing.T, dir, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	return string(data)
}

// What is wrong with a value under the shot is mended over it, for this shot.
func TestWhatIsWrongUnderTheShotIsMendedOverIt(t *testing.T) {
	s, dir, text := onTable(t)
	good := fileIn(t, dir, "table.toml")
	for old, bad := range map[string]string{
		`shape  = "prism"`: `shape  = "prsim"`,
		`role = "table"`:   `role = "tabel"`,
		`iso      = 2500`:  `iso      = -3`,
	} {
		if !assert.Contains(t, good, old) {
			continue
		}
		spoilt := strings.Replace(good, old, bad, 1)
		require.NoError(t, os.WriteFile(filepath.Join(dir, "table.toml"), []byte(spoilt), 0o640))
		a := s.first.answer(t.Context(), question{Text: text})
		require.NotEmpty(t, a.Faults, bad)
		require.NotEmpty(t, a.Faults[0].Mends, "%s: %s; %s", bad, a.Faults[0].Text, a.Faults[0].Fit)
		for _, m := range a.Faults[0].Mends {
			assert.Contains(t, m.Text, ", for this shot alone")
			b := s.first.answer(t.Context(), question{Text: text, Edits: m.Edits})
			assert.Empty(t, b.Faults, m.Text)
			assert.NotNil(t, b.View, m.Text)
		}
		assert.Equal(t, spoilt, fileIn(t, dir, "table.toml"), "what lies under it stays")
	}
}

// The page shows what lies under the shot, and changes it for this shot alone.
func TestAValueUnderTheShotIsChangedForThisShot(t *testing.T) {
	s, dir, text := onTable(t)
	a := s.first.answer(t.Context(), question{Text: text})
	require.Empty(t, a.Faults)
	assert.Equal(t, "table.toml", valueAt(t, a.View, "camera.aperture").File)
	assert.Equal(t, "lens.toml", valueAt(t, a.View, "camera.focal-length").File)
	assert.Equal(t, "lens.toml", valueAt(t, a.View, "camera.apertures[2]").File)
	assert.Empty(t, valueAt(t, a.View, "camera.focus").File)
	before := a.View.Plan
	a = s.first.answer(t.Context(), question{Text: text, Edits: []Edit{{Path: "camera.aperture", Value: ptr("f/11")}, {Path: "take.rounds", Value: ptr("4")}}})
	require.Empty(t, a.Faults)
	assert.Contains(t, a.Text, "[camera]\naperture = \"f/11\"\nfocus")
	assert.Contains(t, a.Text, "# The rail pushes in")
	changed := valueAt(t, a.View, "camera.aperture")
	assert.Equal(t, "f/11", changed.Value)
	assert.Empty(t, changed.File)
	assert.Equal(t, &Over{"f/18", "table.toml"}, changed.Over)
	assert.Equal(t, before, a.View.Plan)
	assert.Contains(t, fileIn(t, dir, "table.toml"), `aperture = "f/18"`)
	a = s.first.answer(t.Context(), question{Text: text, Edits: []Edit{{Path: "camera.aperture", Value: ptr("f/45")}}})
	require.Len(t, a.Faults, 1)
	assert.Contains(t, a.Faults[0].Text, "must be from f/2.8 to f/22")
}

// It changes it where it stands for all shots, at once, and keeps every other byte.
func TestAValueIsChangedForAllShots(t *testing.T) {
	s, dir, text := onTable(t)
	was := fileIn(t, dir, "table.toml")
	ask := func(path, value, was string) (int, string) {
		w := posted(s, "/api/set-up", map[string]string{"text": text, "path": path, "value": value, "was": was})
		return w.Code, w.Body.String()
	}
	code, body := ask("camera.aperture", "f/16", "f/18")
	require.Equal(t, http.StatusOK, code, body)
	assert.JSONEq(t, `{"file": "table.toml", "path": "camera.aperture"}`, body)
	assert.Equal(t, strings.Replace(was, `"f/18"`, `"f/16"`, 1), fileIn(t, dir, "table.toml"))
	assert.Equal(t, "f/16", valueAt(t, s.first.answer(t.Context(), question{Text: text}).View, "camera.aperture").Value, "the plan that is kept is another one's")
	code, body = ask("camera.focal-length", "60 mm", "50 mm")
	require.Equal(t, http.StatusOK, code, body)
	assert.JSONEq(t, `{"file": "lens.toml", "path": "focal-length"}`, body)
	code, body = ask("camera.apertures[2]", "f/32", "f/22")
	require.Equal(t, http.StatusOK, code, body)
	assert.Contains(t, fileIn(t, dir, "lens.toml"), `["f/2.8", "f/32"]   # the widest`)

	now := fileIn(t, dir, "table.toml")
	for _, x := range []struct {
		path, value, was string
		code             int
		says             string
	}{
		{"camera.aperture", "f/8", "f/18", http.StatusConflict, "f/16"}, // another program was quicker
		{"camera.aperture", "f/64", "f/16", http.StatusUnprocessableEntity, "which the lens has"},
		{"camera.aperture", "wide", "f/16", http.StatusUnprocessableEntity, "camera.aperture"},
		{"camera.focus", "300 mm", "380 mm", http.StatusUnprocessableEntity, "stands in the shot itself"},
		{"camera.nothing", "1", "", http.StatusUnprocessableEntity, "stands in the shot itself"},
	} {
		code, body := ask(x.path, x.value, x.was)
		assert.Equal(t, x.code, code, body)
		assert.Contains(t, body, x.says)
		assert.Equal(t, now, fileIn(t, dir, "table.toml"), "nothing was written")
	}
	text = string(starter.Shot())
	code, body = ask("camera.aperture", "f/8", "f/18")
	assert.Equal(t, http.StatusUnprocessableEntity, code)
	assert.Contains(t, body, "nothing lies under this shot")
}

// What another program does to a file under the shot is told, and what the page did itself.
func TestChangesUnderTheShotAreTold(t *testing.T) {
	s, dir, text := onTable(t)
	require.Empty(t, s.first.answer(t.Context(), question{Text: text}).Faults)
	seen := map[string]string{}
	look := func() ([]string, bool) { return s.first.doc.under.changed(seen, s.first.doc.read) }
	files, _ := look()
	assert.Empty(t, files, "they are seen for the first time")
	files, _ = look()
	assert.Empty(t, files)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "lens.toml"), []byte(fileIn(t, dir, "lens.toml")+"# cleaned\n"), 0o640))
	files, own := look()
	assert.Equal(t, []string{"lens.toml"}, files)
	assert.False(t, own)
	w := posted(s, "/api/set-up", map[string]string{"text": text, "path": "camera.iso", "value": "1600", "was": "2500"})
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	files, own = look()
	assert.Equal(t, []string{"table.toml"}, files)
	assert.True(t, own)
	require.NoError(t, os.Remove(filepath.Join(dir, "table.toml")))
	files, own = look()
	assert.Equal(t, []string{"table.toml"}, files)
	assert.False(t, own)
	a := s.first.answer(t.Context(), question{Text: text})
	require.Len(t, a.Faults, 1)
	assert.Contains(t, a.Faults[0].Text, "table.toml")
	files, _ = look()
	assert.Empty(t, files)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "table.toml"), []byte("set-up = \"new\"\n"), 0o640))
	files, _ = look()
	assert.Equal(t, []string{"table.toml"}, files, "one that was not there is looked for")
}

// A question that reads the shot and not its rig leaves the rig watched.
func TestTheRigIsWatchedWhateverIsAsked(t *testing.T) {
	s, dir, text := onTable(t)
	require.Empty(t, s.first.answer(t.Context(), question{Text: text}).Faults)
	seen := map[string]string{}
	look := func() []string {
		files, _ := s.first.doc.under.changed(seen, s.first.doc.read)
		return files
	}
	look()
	rig := s.first.doc.rigName(understood(t, s, text))
	require.NoError(t, os.Rename(filepath.Join(dir, rig), filepath.Join(dir, "away.toml")))
	assert.Equal(t, []string{rig}, look())
	require.NotEmpty(t, s.first.answer(t.Context(), question{Text: text}).Faults)
	w := httptest.NewRecorder()
	s.first.start(w, nil)
	require.Equal(t, http.StatusOK, w.Code)
	require.NoError(t, os.Rename(filepath.Join(dir, "away.toml"), filepath.Join(dir, rig)))
	assert.Equal(t, []string{rig}, look())
}

func understood(t *testing.T, s *Server, text string) shot.Shot {
	x, faults := s.first.doc.files().Understand(s.first.doc.name, []byte(text), nil)
	require.Empty(t, faults)
	return x
}

// Nothing outside the folder of the shot is read.
func TestASetUpOutsideTheFolder(t *testing.T) {
	s, dir, text := onTable(t)
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(dir), "out.toml"), []byte("set-up = \"x\"\n"), 0o640))
	a := s.first.answer(t.Context(), question{Text: strings.Replace(text, "table.toml", "../out.toml", 1)})
	require.NotEmpty(t, a.Faults)
	doc, err := json.Marshal(a.Faults)
	require.NoError(t, err)
	assert.Contains(t, string(doc), "is not a name inside the folder of the shot")
}
