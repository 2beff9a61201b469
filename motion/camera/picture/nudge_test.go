package picture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
)

// A camera that is a millimetre aside sees the near face scale px aside, and what is
// nearer or farther less or more: the worst point is named by none, so that it is the most.
func TestPerUnit(t *testing.T) {
	m := at(t, 120, 120).with("across", steady(0, 0))
	got, err := picture.PerUnit(m, bench(), 0)
	require.NoError(t, err)
	require.Contains(t, got, "across")
	assert.GreaterOrEqual(t, got["across"], scale*0.999)
	assert.Less(t, got["across"], 3*scale)
	assert.Len(t, got, 1)

	blind := bench()
	blind.Camera, blind.Lens = scene.Camera{}, scene.Lens{}
	got, err = picture.PerUnit(m, blind, 0)
	require.NoError(t, err)
	assert.Nil(t, got)
}
