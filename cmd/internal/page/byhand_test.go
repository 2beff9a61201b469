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
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/spec/rig"
)

// A rig that is set by hand is planned and shown, with what to press in place of what
// drives; nothing takes hold of it, and no file is made for a controller.
func TestARigThatIsSetByHand(t *testing.T) {
	b := browsed(t)
	text := starter.RigWith(rig.TwoEnds)
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, starter.RigName), text, 0o600))
	r, _, err := rig.Decode(starter.RigName, text)
	require.NoError(t, err)
	shot, err := kinds.ByHand()[0].Make(kinds.BenchOf(r, true), nil, starter.RigName, true)
	require.NoError(t, err)
	got := b.planned(string(shot), false)
	require.Empty(t, got.Faults)
	require.NotNil(t, got.View)
	assert.Contains(t, strings.Join(got.View.ByHand, " "), "Set the time of a way to 0.5 s")
	assert.Contains(t, strings.Join(got.View.Cautions, " "), "No program stops this rig.", "what step 1 says is said below")
	assert.NotContains(t, got.View.Headline.Words, "being worked out")
	assert.Zero(t, got.View.Axes[0].SpeedLimit)
	for what, q := range map[string]m{
		"drive/open": {"text": string(shot), "port": "virtual", "fast": true},
		"export":     {"text": string(shot), "form": "gcode"},
		"fit":        {"text": string(shot), "flags": m{}},
	} {
		status, body := b.asked(what, q, nil)
		assert.Equal(t, http.StatusUnprocessableEntity, status, what)
		assert.Contains(t, body, "Rail with buttons", what)
	}
	status, body := b.asked("controller", m{"text": string(shot)}, nil)
	assert.Equal(t, http.StatusOK, status, body)
	assert.Empty(t, b.planned(b.text, true, m{"path": "clock.loop", "value": "6 s"}).View, "the lantern has a table, and that rig has none")
}
