package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// mendTexts are what the mends of a fault say.
func mendTexts(f Fault) []string { return listOf(f.Mends, func(m Mend) string { return m.Text }) }

// rigWritten presses a mend of a rig's file, as the page does.
func rigWritten(t *testing.T, d *desk, text string, m Mend) *RigWritten {
	t.Helper()
	bench, err := d.rigFile(rigFileQuestion{Text: text})
	require.NoError(t, err)
	require.Equal(t, bench.File, m.File)
	done, err := d.editRig(rigEdit{Text: text, File: m.File, Revision: bench.Revision, Edits: m.Edits})
	require.NoError(t, err)
	require.Empty(t, done.Faults, m.Text)
	return done
}

// Faults of a rig's file that say what would do offer it as edits of that file, though no shot
// on it can be opened, and these make it; what stood there comes back.
func TestWhatWouldDoForARigIsOffered(t *testing.T) {
	text, whole := string(starter.Shot()), string(starter.Rig())
	for what, c := range map[string]struct{ old, now, mend string }{
		"a key misspelt":           {`speed        = "400 mm/s"`, `sped         = "400 mm/s"`, `"speed" in place of sped`},
		"a key that means nothing": {`speed        = "400 mm/s"`, "zzzz = 3\nspeed = \"400 mm/s\"", "without zzzz"},
		"a value that is missing":  {`speed        = "400 mm/s"`, "", `speed = "200 mm/s", to be measured`},
		"a value without a unit":   {`speed        = "400 mm/s"`, "speed = 400", `speed = "400 mm/s", to be measured`},
		"a value below nothing":    {`speed        = "400 mm/s"`, `speed = "-400 mm/s"`, `speed = "400 mm/s", to be measured`},
		"a word misspelt":          {`feed               = "inverse-time"`, `feed = "invers-time"`, `feed = "inverse-time"`},
		"a value below its range":  {"line-length        = 80", "line-length = 8", `line-length = "40", to be measured`},
		"a value that is no whole": {"decimals           = 3", "decimals = 2.5", `decimals = "2", to be measured`},
	} {
		require.Equal(t, 1, strings.Count(whole, c.old), c.old)
		ill := strings.Replace(whole, c.old, c.now, 1)
		d := deskOf(t, []byte(text), []byte(ill))
		a := d.answer(t.Context(), question{Text: text})
		require.Nil(t, a.View, what)
		require.NotEmpty(t, a.Faults, what)
		f := a.Faults[0]
		if !assert.Contains(t, mendTexts(f), c.mend, "%s: %s; %s", what, f.Text, f.Fit) {
			continue
		}
		for _, m := range f.Mends {
			done := rigWritten(t, d, text, m)
			assert.Equal(t, ill, done.Was)
			assert.NotEqual(t, ill, done.Rig.Text, "%s: %s", what, m.Text)
			assert.Equal(t, strings.HasSuffix(m.Text, "to be measured"), strings.Contains(done.Rig.Text, "# to be measured: it holds the place of what it is"), m.Text)
			b := d.answer(t.Context(), question{Text: text})
			assert.Empty(t, b.Faults, "%s: %s", what, m.Text)
			assert.NotNil(t, b.View, "%s: %s", what, m.Text)
			back, err := d.editRig(rigEdit{Text: text, File: m.File, Revision: done.Rig.Revision, Whole: &done.Was})
			require.NoError(t, err)
			require.Empty(t, back.Faults, "what stood there is put back")
			assert.Equal(t, ill, back.Rig.Text)
		}
	}
}

// Of several faults each is mended by itself; what would bring another is neither offered nor
// written.
func TestARigIsMendedFaultByFault(t *testing.T) {
	text := string(starter.Shot())
	ill := strings.NewReplacer(`speed        = "400 mm/s"`, `sped = "400 mm/s"`, "decimals           = 3", "decimls = 3").Replace(string(starter.Rig()))
	d := deskOf(t, []byte(text), []byte(ill))
	for left := 2; left > 0; left-- {
		a := d.answer(t.Context(), question{Text: text})
		require.Len(t, a.Faults, left)
		assert.NotContains(t, mendTexts(a.Faults[0]), "without sped", "it would be missing")
		rigWritten(t, d, text, a.Faults[0].Mends[0])
	}
	require.NotNil(t, d.answer(t.Context(), question{Text: text}).View)

	require.NoError(t, d.doc.write(starter.RigName, []byte(ill)))
	bench, err := d.rigFile(rigFileQuestion{Text: text})
	require.NoError(t, err, "a rig that is none can be looked at")
	require.NotEmpty(t, bench.Values)
	for _, e := range []Edit{{Path: "axis.rail.acceleration", Value: ptr("fast")}, {Do: doRemove, Path: "axis.table.microsteps"}} {
		done, err := d.editRig(rigEdit{Text: text, File: bench.File, Revision: bench.Revision, Edits: []Edit{e}})
		require.NoError(t, err)
		assert.Len(t, done.Faults, 1, "%v", e)
		assert.Equal(t, ill, done.Rig.Text)
	}
	wild := "nothing = here"
	done, err := d.editRig(rigEdit{Text: text, File: bench.File, Revision: bench.Revision, Whole: &wild})
	require.NoError(t, err)
	assert.NotEmpty(t, done.Faults, "only what stood there is put back unseen")
}

// A limit of the rig that is in the way of a plan is no fault of its file, and stays.
func TestNoLimitOfTheRigIsOfferedHigher(t *testing.T) {
	text := strings.Replace(string(starter.Shot()), "loop     =", "loop     = \"26 frames\" #", 1)
	a := deskOf(t, []byte(text), starter.Rig()).answer(t.Context(), question{Text: text})
	require.NotNil(t, a.View, "%v", a.Faults)
	require.Equal(t, bad, a.View.Headline.Level)
	for _, v := range a.View.Verdicts {
		for _, f := range v.Fits {
			for _, e := range f.Edits {
				assert.NotContains(t, e.Path, "rig.", f.Text)
			}
		}
	}
}
