package starter_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// The load and the motor behind the marks are sound, complete, and do the demo.
func TestTheMotorBehindTheMarksIsSound(t *testing.T) {
	text := strings.NewReplacer("# load ", "load ", "# motor ", "motor ").Replace(string(starter.Rig()))
	assert.NoError(t, check(t, compile(t, rig.Schema()), []byte(text)))
	r, defaults, err := rig.Decode(starter.RigName, []byte(text))
	require.NoError(t, err)
	assert.Empty(t, defaults)
	s, err := shot.Decode(starter.ShotName, starter.Shot(), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	all := torque.Examine(p)
	require.Len(t, all, 1)
	assert.Equal(t, torque.Enough, all[0].Level)
}
