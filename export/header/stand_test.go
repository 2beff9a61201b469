package header_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/verify"
)

// Who runs a file must know what else has to turn.
func TestAStandIsNamed(t *testing.T) {
	tr := sample.Display(t, 24, exact.New(20_615, 1000), 6)
	lines := strings.Join(header.Of(tr.Plan(), verify.Verdict{}).Lines("x"), "\n")
	require.Contains(t, lines, "\nstand: display turns by itself, clockwise at its speed slow, 20.615 s a turn; start it by hand before the take\n")

	s := &tr.Plan().Stands[0]
	s.Rig.Phased, s.Spin.Start = true, exact.Int(15)
	require.Contains(t, strings.Join(header.Of(tr.Plan(), verify.Verdict{}).Lines("x"), "\n"), "; start it so that frame 0 finds it at 15 deg\n")
}
