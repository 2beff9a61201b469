package starter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/spec/shot"
)

func TestTheBuiltInSequenceObeysItsSchemas(t *testing.T) {
	files, err := starter.Clip()
	require.NoError(t, err)
	assert.NoError(t, check(t, compile(t, sequence.Schema()), files[starter.SequenceName]))
	s, err := sequence.Decode(starter.SequenceName, files[starter.SequenceName], nil)
	require.NoError(t, err)
	named := map[string]bool{starter.SequenceName: true, starter.RigName: true}
	for _, e := range s.Entries {
		require.Contains(t, files, e.File)
		assert.NoError(t, check(t, compile(t, shot.Schema()), files[e.File]), e.File)
		named[e.File] = true
	}
	for name := range files {
		assert.True(t, named[name], "%s is in no shot of the sequence", name)
	}
}
