package starter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/setup"
	"seamrail/motion/spec/shot"
)

func TestTheBuiltInSequenceObeysItsSchemas(t *testing.T) {
	files, err := starter.Clip()
	require.NoError(t, err)
	assert.NoError(t, check(t, compile(t, sequence.Schema()), files[starter.SequenceName]))
	s, err := sequence.Decode(starter.SequenceName, files[starter.SequenceName], nil)
	require.NoError(t, err)
	named := map[string]bool{starter.SequenceName: true, starter.RigName: true}
	for name, kind := range map[string]string{starter.SetUpName: "set-up", starter.CameraName: "camera", starter.LensName: "lens"} {
		assert.NoError(t, check(t, compile(t, setup.Schemas()[kind+".schema.json"]), files[name]), name)
		named[name] = true
	}
	for _, e := range s.Entries {
		require.Contains(t, files, e.File)
		assert.NoError(t, check(t, compile(t, shot.Schema()), files[e.File]), e.File)
		named[e.File] = true
	}
	for name := range files {
		assert.True(t, named[name], "%s is in no shot of the sequence", name)
	}
}

// The shots of the built-in sequence move as they did when each said all by itself.
func TestTheBuiltInSequenceMovesAsEver(t *testing.T) {
	files, err := starter.Clip()
	require.NoError(t, err)
	open := setup.Files{Open: func(_, name string) (setup.Found, error) {
		return setup.Found{Name: name, Data: files[name]}, nil
	}}
	r, _, err := rig.Decode(starter.RigName, files[starter.RigName])
	require.NoError(t, err)
	for name, hash := range map[string]string{"reveal.toml": "e4f219b2cf19f715", "past.toml": "13e9a1ea17992795", "panes.toml": "04c091e940e0b1e8"} {
		s, err := open.Decode(name, files[name], nil)
		require.NoError(t, err)
		p, err := plan.Build(s, r)
		require.NoError(t, err)
		assert.Equal(t, hash, p.Hash(), name)
		assert.Len(t, s.Laid.Files, 3, "the set-up, the camera, the lens")
	}
}
