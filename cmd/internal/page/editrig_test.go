package page

import (
	"errors"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// A value of the rig is written into its file, where every other byte stays; what would be
// no rig is not written, nor what another program has written over.
func TestTheRigIsEditedInItsFile(t *testing.T) {
	b := browsed(t)
	var f RigBench
	b.asked("rig/file", rigFileQuestion{Text: b.text}, &f)
	require.Equal(t, starter.RigName, f.File)
	assert.Equal(t, []string{starter.RigName}, f.Files)
	write := func(e Edit) (out RigWritten, status int) {
		status, _ = b.asked("rig/edit", rigEdit{Text: b.text, File: f.File, Revision: f.Revision, Edits: []Edit{e}}, &out)
		return out, status
	}
	done, _ := write(Edit{Path: "axis.rail.speed", Value: ptr("390 mm/s")})
	require.Empty(t, done.Faults)
	want := strings.Replace(string(starter.Rig()), `speed        = "400 mm/s"`, `speed        = "390 mm/s"`, 1)
	assert.Equal(t, want, fileIn(t, b.dir, starter.RigName))
	assert.Equal(t, string(starter.Rig()), done.Was)

	_, status := write(Edit{Path: "axis.rail.speed", Value: ptr("380 mm/s")}) // of the old revision
	assert.Equal(t, http.StatusConflict, status)
	f = done.Rig
	for _, e := range []Edit{
		{Path: "axis.rail.speed", Value: ptr("fast")}, {Do: doRemove, Path: "axis.rail.speed"},
		{Path: "axis.rail.kind", Value: ptr("rotary")}, // the shot has mm for it
	} {
		wrong, _ := write(e)
		require.NotEmpty(t, wrong.Faults, e)
		assert.Equal(t, want, fileIn(t, b.dir, starter.RigName))
	}
	b.asked("rig/edit", rigEdit{Text: b.text, File: f.File, Revision: f.Revision, Whole: &done.Was}, &done)
	assert.Equal(t, string(starter.Rig()), fileIn(t, b.dir, starter.RigName))
	status, _ = b.asked("rig/edit", rigEdit{Text: b.text, File: "lantern.toml", Revision: f.Revision, Whole: &done.Was}, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, status, "nothing but the rig is written")
}

// A guess that is changed is none any more.
func TestAGuessOfTheRigIsSettledOnThePage(t *testing.T) {
	b := browsed(t)
	guessed := strings.Replace(string(starter.Rig()), `"400 mm/s"`, `"400 mm/s" # guessed: as such rails are`, 1)
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, starter.RigName), []byte(guessed), 0o600))
	var f RigBench
	b.asked("rig/file", rigFileQuestion{Text: b.text}, &f)
	i := slices.IndexFunc(f.Values, func(v Value) bool { return v.Path == "axis.rail.speed" })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, "guessed", f.Values[i].Known)
	assert.Equal(t, "as such rails are", f.Values[i].Why)
	var done RigWritten
	b.asked("rig/edit", rigEdit{Text: b.text, File: f.File, Revision: f.Revision, Edits: []Edit{{Path: "axis.rail.speed", Value: ptr("380 mm/s")}}}, &done)
	require.Empty(t, done.Faults)
	assert.Contains(t, fileIn(t, b.dir, starter.RigName), `"380 mm/s" # set on the page`)
}

// What lies under the shot is taken out for this shot alone, or stays with words that help.
func TestWhatLiesUnderTheShotIsTakenOutForThisShot(t *testing.T) {
	s, dir, text := onTable(t)
	before := viewed(t, s.first, text)
	was := fileIn(t, dir, "table.toml")
	count := 0
	for _, x := range before.Removes {
		a := s.first.answer(t.Context(), question{Text: text, Edits: []Edit{{Do: doRemove, Path: x.Path}}})
		if a.Refused {
			assert.NotEmpty(t, a.Faults[0].Text, x.Path)
			assert.Equal(t, text, a.Text)
			continue
		}
		count++
		require.Empty(t, a.Faults, x.Path)
		for _, y := range a.View.Removes {
			assert.False(t, y.Path == x.Path && y.Label == x.Label, "%s is still there", x.Path)
		}
	}
	assert.Positive(t, count)
	assert.Equal(t, was, fileIn(t, dir, "table.toml"))
	a := s.first.answer(t.Context(), question{Text: text, Edits: []Edit{{Do: doRemove, Path: "camera.aperture"}}})
	require.True(t, a.Refused)
	assert.Contains(t, a.Faults[0].Text, "stands in table.toml")
	for _, x := range before.Adds {
		a := s.first.answer(t.Context(), question{Text: text, Edits: []Edit{{Do: doAdd, Path: x.Path}}})
		assert.Empty(t, a.Faults, x.Path)
	}
	var no refusal
	_, err := s.first.editRig(rigEdit{Text: text, File: "nowhere.toml"})
	assert.True(t, errors.As(err, &no))
}
