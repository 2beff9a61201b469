package job

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// A plan without an axis is that of the file from which a person has cut what speaks of it.
func TestWithoutIsTheFileWithoutIt(t *testing.T) {
	cut := func(text, from, to string) string {
		head, rest, ok := strings.Cut(text, from)
		require.True(t, ok, from)
		_, tail, ok := strings.Cut(rest, to)
		require.True(t, ok, to)
		return head + to + tail
	}
	text := string(starter.Shot())
	for axis, file := range map[string]string{
		"table": cut(cut(text, "[axis.table]", "# What the picture"), "[scene.axis.table]", "# The lantern."),
		"rail":  cut(cut(cut(text, "[axis.rail]", "# The lantern has six"), "[scene.axis.rail]", "[scene.axis.table]"), "[[cue]]", "# Your own bounds"),
	} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.Rig(), 0o600))
		name := filepath.Join(dir, "cut.toml")
		require.NoError(t, os.WriteFile(name, []byte(file), 0o600))
		byHand := made(t, Source{Shot: name})
		asked := made(t, Source{Without: []string{axis, axis}})
		assert.Equal(t, byHand.Plan.Hash(), asked.Plan.Hash(), axis)
		assert.NotEqual(t, made(t, Source{}).Plan.Hash(), asked.Plan.Hash(), axis)
		assert.Equal(t, byHand.Headline(), asked.Headline(), axis)
		assert.Len(t, asked.Cues.Cues, len(byHand.Cues.Cues), axis)
	}
}

func TestWithoutFaults(t *testing.T) {
	for _, c := range []struct {
		want string
		x    Source
	}{
		{`--without: "pan" is no axis and no stand of the shot; it has rail, table`, Source{Without: []string{"pan"}}},
		{`--without: the shot has no other axis, and nothing would move`, Source{Without: []string{"rail", "table"}}},
		{`--turns: axis table: is left out by --without; leave one of the two flags away`,
			Source{Without: []string{"table"}, Over: []Value{{Key: "turns", Of: Table, Text: "1/3", Origin: "--turns"}}}},
	} {
		_, err := c.x.Job(nil)
		assert.EqualError(t, err, c.want)
	}
}
