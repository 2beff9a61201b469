package starter_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// unmarked takes the marks away from the lines after heading.
func unmarked(t *testing.T, file []byte, heading string) []byte {
	t.Helper()
	head, tail, found := strings.Cut(string(file), heading)
	require.True(t, found, heading)
	return []byte(head + strings.TrimPrefix(heading, "# ") + strings.ReplaceAll(tail, "\n# ", "\n"))
}

// What stands in the pair behind marks is as sound as the rest.
func TestTheStandBehindTheMarksIsSound(t *testing.T) {
	rigText := unmarked(t, starter.Rig(), "# [stand.display]")
	shotText := unmarked(t, starter.Shot(), "# [spin.display]")
	_, err := shot.Decode(starter.ShotName, shotText, nil)
	assert.ErrorContains(t, err, "scene.product.on is missing: table and display turn")
	shotText = []byte(strings.Replace(string(shotText), "[scene.product]\n", "[scene.product]\non = \"display\"\n", 1))
	assert.NoError(t, check(t, compile(t, rig.Schema()), rigText))
	assert.NoError(t, check(t, compile(t, shot.Schema()), shotText))

	r, defaults, err := rig.Decode(starter.RigName, rigText)
	require.NoError(t, err)
	assert.Empty(t, defaults)
	s, err := shot.Decode(starter.ShotName, shotText, nil)
	require.NoError(t, err)
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	require.Len(t, p.Stands, 1)
	assert.True(t, p.Stands[0].Bounded())
	// 20.61 s a turn are 0.0583 of a turn in 1.2012 s, nowhere near a pane.
	assert.True(t, p.Stands[0].Refuses())
}
