package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// Faults of a text that say what would do offer it as edits, and these make it.
func TestWhatWouldDoForATextIsOffered(t *testing.T) {
	d := deskOf(t, starter.Shot(), starter.Rig())
	text := string(starter.Shot())
	require.Empty(t, d.answer(t.Context(), question{Text: text}).Faults)
	with := func(old, now string) string {
		require.Equal(t, 1, strings.Count(text, old), old)
		return strings.Replace(text, old, now, 1)
	}
	for what, c := range map[string]struct{ text, mend string }{
		"a key misspelt":           {with("\naperture", "\napreture"), `"aperture" in place of apreture`},
		"a key that means nothing": {with("[take]\n", "[take]\nzzzz = 3\n"), "without zzzz"},
		"a choice misspelt":        {with(`move      = "there-and-back"`, `move      = "there-and-bakc"`), `move = "there-and-back"`},
		"a law misspelt":           {with("[axis.rail]\n", "[axis.rail]\nback-law = \"cycloidl\"\n"), `back-law = "cycloidal"`},
		"nothing for light":        {with(`iso             = 2500`, `iso             = -3`), `iso = "800"`},
		"a rate that no film has":  {with(`loop     =`, `retime   = "0"`+"\nloop     ="), `retime = "1/5"`},
		"less than nothing":        {with("[take]\n", "[take]\nhandles = \"-1 frames\"\n"), `handles = "1 frame"`},
	} {
		a := d.answer(t.Context(), question{Text: c.text})
		require.NotEmpty(t, a.Faults, what)
		f := a.Faults[0]
		t.Logf("%s: %s; %s; %v", what, f.Text, f.Fit, listOf(f.Mends, func(m Mend) string { return m.Text }))
		if !assert.Contains(t, listOf(f.Mends, func(m Mend) string { return m.Text }), c.mend, "%s: %s; %s", what, f.Text, f.Fit) {
			continue
		}
		for _, m := range f.Mends {
			b := d.answer(t.Context(), question{Text: c.text, Edits: m.Edits})
			assert.Empty(t, b.Faults, "%s: %s", what, m.Text)
			assert.NotNil(t, b.View, "%s: %s", what, m.Text)
		}
	}
}

// Faults that a plan has before it is one, of what is beside each other in a table or the rig,
// offer what their words say would do, each tried.
func TestWhatWouldDoForAPlanIsOffered(t *testing.T) {
	byFrame := in("hand = \"2 s\"", "HOW", shotByFrame) + shotRail + shotThere
	for mend, text := range map[string]string{
		`dwell-far = "6 frames"`:    in("240", "12", shotClock) + shotRail + shotThere + "dwell-far = \"12 frames\"\n",
		`clock.loop = "483 frames"`: in("240", "480", shotClock) + shotButtons,
		`without output`:            in("HOW", "output = \"release\"", byFrame),
		`without law`:               in("240", "483", shotClock) + shotButtons + "law = \"uniform\"\n",
	} {
		d := deskOf(t, []byte(text), starter.Rig())
		a := d.answer(t.Context(), question{Text: text})
		require.NotEmpty(t, a.Faults, mend)
		f := a.Faults[0]
		if !assert.Contains(t, mendTexts(f), mend, "%s; %s", f.Text, f.Fit) {
			continue
		}
		for _, m := range f.Mends {
			b := d.answer(t.Context(), question{Text: text, Edits: m.Edits})
			assert.NotNil(t, b.View, "%s: %v", m.Text, b.Faults)
		}
	}
}

// What no value of the file mends offers none.
func TestWhatIsForAHandIsNotOffered(t *testing.T) {
	d := deskOf(t, starter.Shot(), starter.Rig())
	a := d.answer(t.Context(), question{Text: "not = [TOML"})
	require.NotEmpty(t, a.Faults)
	for _, f := range a.Faults {
		assert.Empty(t, f.Mends, f.Text)
	}
}
