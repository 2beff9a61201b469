package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// fourAxes is a loop of twenty keys on each of four axes, to be gone along as
// quickly as the rig can.
func fourAxes() string {
	var b strings.Builder
	b.WriteString("shot = \"t\"\n[clock]\ncapture = \"120\"\nplayback = \"24\"\nloop = \"20 s\"\npace = \"quickest\"\n[rig]\nrig = \"four\"\n")
	for i, letter := range []string{"X", "Y", "Z", "U"} {
		fmt.Fprintf(&b, "[rig.axis.a%d]\nkind = \"linear\"\nletter = %q\ntravel = [\"-400 mm\", \"400 mm\"]\nspeed = \"%d mm/s\"\n", i, letter, 150+20*i)
		b.WriteString("acceleration = \"1200 mm/s2\"\njerk = \"20000 mm/s3\"\nbelt = { pitch = \"2 mm\", teeth = 20 }\nmotor-steps = 200\nmicrosteps = 16\n")
	}
	for i := range 4 {
		fmt.Fprintf(&b, "[axis.a%d]\nmove = \"keys\"\nkeys = [\n", i)
		for k := range 20 {
			fmt.Fprintf(&b, "{ at = \"%d s\", pos = \"%d mm\" },\n", k, (k*k*(37+11*i)+k*13)%240)
		}
		b.WriteString("]\n")
	}
	return b.String()
}

// Twenty keys and four axes, as a whole, to frames: the bar is 50 ms.
func BenchmarkQuickest(b *testing.B) {
	s, err := shot.Decode("t", []byte(fourAxes()), nil)
	require.NoError(b, err)
	for b.Loop() {
		p, err := plan.Build(s, *s.Rig)
		require.NoError(b, err)
		require.Empty(b, p.Breaches(), p.Loop.Captured)
	}
}

// A pass with a table and a pan that follows.
func BenchmarkPass(b *testing.B) {
	s, err := shot.Decode("t", []byte(across), nil)
	require.NoError(b, err)
	for b.Loop() {
		_, err := plan.Build(s, *s.Rig)
		require.NoError(b, err)
	}
}
