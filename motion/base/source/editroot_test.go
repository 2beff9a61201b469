package source_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
)

// A key of no table has its place where none has begun.
func TestSetOfNoTable(t *testing.T) {
	for before, after := range map[string]string{
		"a = 1\n": "a = 1\nb = \"2 s\"\n",
		"a = 1":   "a = 1\nb = \"2 s\"\n",

		"a = 1\n[c]\nd = 2\n": "b = \"2 s\"\na = 1\n[c]\nd = 2\n",
	} {
		got, err := source.Set("x.toml", []byte(before), "b", "2 s")
		require.NoError(t, err, before)
		assert.Equal(t, after, string(got))
	}
}
