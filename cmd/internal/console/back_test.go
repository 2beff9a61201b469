package console

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive"
)

// On a way back there is no frame to tell of.
func TestWhereOnTheWayBack(t *testing.T) {
	g := drive.Progress{Round: 2, Frame: 239, Timecode: "00:00:09:23"}
	assert.Equal(t, []string{"round 3", "frame 239", "00:00:09:23"}, where(g))
	assert.Equal(t, "r3 f239 00:00:09:23", tightly(g))
	g.Back = true
	assert.Equal(t, []string{"round 3", "on the way back"}, where(g))
	assert.Equal(t, "r3 back", tightly(g))
}
