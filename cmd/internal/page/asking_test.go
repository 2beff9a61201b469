package page

import (
	"net/http"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/acquaint"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/cmd/internal/search"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive/takelog"
	"seamrail/motion/camera/picture"
	"seamrail/motion/turntable/spin"
)

// Every flag that the page may set gets to its value, and nowhere else.
func TestWhatThePageMaySet(t *testing.T) {
	s, err := spinAsked(map[string]string{
		"between": "4 s,12 s", "within": "0.5 px", "symmetry": "6", "radius": "45 mm", "pixels-per-mm": "12", "offers": "60,100", "cycles": "2", "most": "3",
	})
	require.NoError(t, err)
	assert.Equal(t, search.Spin{
		Between: []string{"4 s", "12 s"}, Within: "0.5 px", Symmetry: "6", Radius: "45 mm", Pixels: "12", Offers: []string{"60", "100"}, Cycles: "2", Most: 3,
	}, s)
	f, err := fitAsked(map[string]string{"between": "4 s,12 s", "laws": "3-4-5,harmonic", "accept": "good"})
	require.NoError(t, err)
	assert.Equal(t, search.Fit{Between: []string{"4 s", "12 s"}, Laws: []string{"3-4-5", "harmonic"}, Accept: "good"}, f)
	c, err := cuesAsked(map[string]string{"count-in": "7", "ignore-takes": "true"})
	require.NoError(t, err)
	assert.Equal(t, cueQuestion{7, true}, c)
	b, err := connectAsked(map[string]string{"baud": "9600"})
	require.NoError(t, err)
	assert.Equal(t, acquaint.Options{Baud: 9600}, b)
}

// With nothing set a question is the command's own without flags.
func TestWhatIsAskedOtherwise(t *testing.T) {
	s, err := spinAsked(nil)
	require.NoError(t, err)
	assert.Equal(t, search.Spin{Most: spin.DefaultMost}, s)
	f, err := fitAsked(nil)
	require.NoError(t, err)
	assert.Equal(t, search.Fit{Accept: picture.Fair.String()}, f)
	c, err := cuesAsked(nil)
	require.NoError(t, err)
	assert.Equal(t, cueQuestion{countIn: job.CountIn}, c)
}

// What the page may not set, or says badly, is refused, whatever else there is beside it.
func TestWhatThePageMayNotSet(t *testing.T) {
	ask := map[string]func(map[string]string) error{
		"spin": func(f map[string]string) error { _, err := spinAsked(f); return err },
		"fit":  func(f map[string]string) error { _, err := fitAsked(f); return err },
		"cues": func(f map[string]string) error { _, err := cuesAsked(f); return err },

		"connect": func(f map[string]string) error { _, err := connectAsked(f); return err },
	}
	for command, of := range ask {
		for _, flag := range []string{"", "output", "o", "rig", "json", "axis", "loop", "help", "period", "timed", "Between", "between "} {
			assert.EqualError(t, of(map[string]string{flag: "x"}), "the page does not set --"+flag+" of "+command)
		}
	}
	for _, c := range []struct{ command, flag, text string }{
		{"spin", "most", "many"}, {"spin", "most", ""}, {"cues", "count-in", "-1"}, {"cues", "count-in", "601"}, {"cues", "count-in", "3 s"}, {"cues", "ignore-takes", "perhaps"},
		{"connect", "baud", "fast"}, {"connect", "baud", "-9600"},
	} {
		assert.ErrorContains(t, ask[c.command](map[string]string{c.flag: c.text}), "--"+c.flag)
	}
}

// How late a hand is comes from the log of the page's own shot.
func TestCuesKnowTheHandsOfTheShot(t *testing.T) {
	s, dir := opened(t)
	before := posted(s, "/api/cues", map[string]any{"text": string(starter.Shot())})
	require.Equal(t, http.StatusOK, before.Code, before.Body)
	_, log, err := logbook.Open(logbook.NameOf(filepath.Join(dir, starter.ShotName)))
	require.NoError(t, err)
	for _, r := range []takelog.Record{{Kind: takelog.Begun, Take: 1}, {Kind: takelog.Ended, Take: 1, Outcome: "finished"}, {Kind: takelog.Timed, Take: 1, Late: 0.25}} {
		require.NoError(t, log.Add(r))
	}
	require.NoError(t, log.Close())
	after := posted(s, "/api/cues", map[string]any{"text": string(starter.Shot())})
	require.Equal(t, http.StatusOK, after.Code, after.Body)
	assert.NotEqual(t, before.Body.String(), after.Body.String())
	ignored := posted(s, "/api/cues", map[string]any{"text": string(starter.Shot()), "flags": map[string]string{"ignore-takes": "true"}})
	assert.Equal(t, before.Body.String(), ignored.Body.String())
}
