package source_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
)

// Only the key changes, wherever in the file it stands.
func TestRename(t *testing.T) {
	const text = "# apreture\n[camera]\n  apreture = \"f/8\" # apreture\n[[scene.lamps]]\n\"lumnes\" = 3\n[[scene.lamps]]\nlumnes = 4\n"
	for path, c := range map[string]struct{ key, was, now string }{
		"camera.apreture":       {"aperture", `  apreture = "f/8" # apreture`, `  aperture = "f/8" # apreture`},
		"scene.lamps[1].lumnes": {"lumens", `"lumnes" = 3`, `lumens = 3`},
		"scene.lamps[2].lumnes": {"lumens", `lumnes = 4`, `lumens = 4`},
	} {
		out, err := source.Rename("a.toml", []byte(text), path, c.key)
		require.NoError(t, err, path)
		assert.Equal(t, strings.Replace(text, c.was, c.now, 1), string(out), path)
	}
}

// A key that is there already is not written a second time, and nothing is made up.
func TestRenameKnowsItsBounds(t *testing.T) {
	for path, text := range map[string]string{
		"camera.apreture": "[camera]\napreture = 1\naperture = 2\n",
		"camera.shuter":   "[camera]\naperture = 2\n",
		"camera.iso":      "[camera\n",
	} {
		_, err := source.Rename("a.toml", []byte(text), path, "aperture")
		assert.Error(t, err, text)
	}
}
