package job

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
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

// Whatever is left out of whatever shot, there is a plan of the rest, in which nothing
// speaks of what is out, or a fault that says why there is none.
func TestAnythingLeftOut(t *testing.T) {
	dir := t.TempDir()
	many.Check(t, 30, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds.All()).Draw(t, "kind")
		rigText := k.BuiltIn(starter.RigWith(rig.StepPlayer), true)
		r, _, err := rig.Decode(starter.RigName, rigText)
		require.NoError(t, err)
		text, err := k.Make(kinds.BenchOf(r, true), nil, starter.RigName, true)
		require.NoError(t, err)
		text = append(text, "\n[axis.lift]\nmove = \"hold\"\nat = \"3 mm\"\n"...)
		rigText = append(rigText, "\n[axis.lift]\nletter = \"Z\"\ntravel = [\"0 mm\", \"9 mm\"]\nspeed = \"9 mm/s\"\nacceleration = \"9 mm/s2\"\nsteps = \"80 per mm\"\n"...)
		shotFile := filepath.Join(dir, "shot.toml")
		require.NoError(t, os.WriteFile(shotFile, text, 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), rigText, 0o600))
		out := rapid.SliceOfDistinct(rapid.SampledFrom([]string{"rail", "table", "lift", "display"}), rapid.ID[string]).Draw(t, "without")
		j, err := Source{Shot: shotFile, Without: out}.Job(nil)
		if err != nil {
			var list fault.List
			require.True(t, errors.As(err, &list), "%v", err)
			require.Contains(t, err.Error(), withoutFlag)
			return
		}
		for _, name := range out {
			for _, a := range j.Plan.Axes {
				require.NotEqual(t, name, a.Rig.Name)
			}
			for _, s := range j.Plan.Stands {
				require.NotEqual(t, name, s.Rig.Name)
			}
			for _, c := range j.Cues.Cues {
				require.NotEqual(t, name, c.Axis)
			}
			require.Contains(t, j.Plan.Title, name)
		}
	})
}
