package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
)

func TestMeasureParses(t *testing.T) {
	var got *Options
	c := NewCmdMeasure(command.Streams{}, func(o *Options) error { got = o; return nil })
	c.SetArgs([]string{"a.toml", "rail", "steps", "--virtual", "--truth", "t.toml", "--answer", "told=3 mm", "--answer", "mark-a=1 mm,5", "--write", "--json", "--pixels-per-mm", "3"})
	require.NoError(t, c.Execute())
	assert.Equal(t, []string{"a.toml", "rail", "steps"}, []string{got.Rig, got.Axis, got.What})
	assert.Equal(t, []string{"told=3 mm", "mark-a=1 mm,5"}, got.Answers)
	assert.True(t, got.Virtual && got.Write && got.Told.JSON)
	assert.Equal(t, "t.toml", got.Truth)
	assert.Error(t, c.Args(c, nil))
	assert.Error(t, c.Args(c, []string{"a", "b", "c", "d"}))
}

func TestPlainWhereTheLocaleHasNoUnicode(t *testing.T) {
	for want, env := range map[string]map[string]string{
		"plain":   {"LC_ALL": "C", "LANG": "en_GB.UTF-8"},
		"utf8":    {"LC_CTYPE": "de_DE.utf8", "LANG": "C"},
		"unknown": {},
		"lang":    {"LANG": "POSIX"},
	} {
		got := plainScreen(func(k string) string { return env[k] })
		assert.Equal(t, want == "plain" || want == "lang", got, want)
	}
}
