package header_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/motion/exact"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/sample"
	"seamrail/motion/shot"
	"seamrail/motion/spin"
	"seamrail/motion/verify"
)

// Who runs a file must know what else has to turn.
func TestAStandIsNamed(t *testing.T) {
	tr := sample.Still(t)
	v := spin.Speed{Name: "slow", Period: exact.New(20_615, 1000)}
	s := plan.Stand{Rig: rig.Stand{Stand: spin.Stand{Name: "display"}}, Speed: v}
	tr.Plan().Stands = []plan.Stand{s}
	lines := strings.Join(header.Lines("x", tr, verify.Verdict{}), "\n")
	require.Contains(t, lines, "\nstand: display turns by itself, clockwise at its speed slow, 20.615 s a turn; start it by hand before the take\n")

	s.Rig.Phased, s.Spin = true, shot.Spin{Start: exact.Int(15)}
	tr.Plan().Stands = []plan.Stand{s}
	require.Contains(t, strings.Join(header.Lines("x", tr, verify.Verdict{}), "\n"), "; start it so that frame 0 finds it at 15 deg\n")
}
