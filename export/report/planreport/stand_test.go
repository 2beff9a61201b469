package planreport

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

// tableShot turns a sixth of a turn under six faces in a loop of some frames at
// 24 a second.
const tableShot = `
[clock]
capture = "CAPTURE"
playback = "24"
loop = "LOOP"
[rig.axis.table]
letter = "A"
travel = "endless"
speed = "7200 deg/s"
acceleration = "36000 deg/s2"
steps = "3200 per turn"
[axis.table]
turns = "TURNS"
symmetry = 6
`

func table(t *testing.T, capture, loop, turns string) *plan.Plan {
	t.Helper()
	s, err := shot.Decode("t", []byte(strings.NewReplacer("CAPTURE", capture, "LOOP", loop, "TURNS", turns).Replace(tableShot)), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	return p
}

// The wagon wheel: a spoke pattern of 60 degrees that turns by less than 30 a
// picture is seen as it is, by more backwards, by 60 not at all (sampling,
// Shannon 1949).
func TestStrobeOfACommandedTable(t *testing.T) {
	for _, c := range []struct{ loop, turns, want string }{
		{"24 frames", "1/6", "turns 2.5 deg, of 60 deg from face to face; it would seem to turn backwards at more than a turn in 0.5 s, or in fewer than 2 pictures a second"},
		{"3 frames", "1/6", "turns 20 deg, of 60 deg from face to face; it would"},
		{"2 frames", "1/6", "turns 30 deg, of 60 deg from face to face: it ends half way between two faces"},
		{"3 frames", "1/3", "turns 40 deg, of 60 deg from face to face: it seems to turn backwards by 20 deg a picture; it would not at more than 32 pictures a second"},
		{"3 frames", "-1/3", "it seems to turn backwards by 20 deg a picture"},
		{"4 frames", "5/6", "turns 75 deg, of 60 deg from face to face: it seems to turn by 15 deg only"},
		{"2 frames", "1/3", "turns 60 deg, of 60 deg from face to face: a whole number of faces, so it seems to stand still"},
	} {
		p := table(t, "24", c.loop, c.turns)
		_, period, ok := tableStrobe(p, &p.Axes[0])
		require.True(t, ok)
		told := &page{pl: p}
		told.Section("")
		told.strobe(period, 6)
		f := told.Sections[0].Blocks[0].(report.Field)
		assert.Contains(t, f.Text, c.want, c.loop)
		assert.Equal(t, strings.Contains(f.Text, "it would seem"), f.Tone == report.Plain, "a caution is in colour")
	}
}

func TestFractionsAsPeopleReadThem(t *testing.T) {
	for want, r := range map[string]exact.Rat{
		"457 1/7": exact.New(3200, 7), "-457 1/7": exact.New(-3200, 7), "3/7": exact.New(3, 7), "-3/7": exact.New(-3, 7), "5": exact.Int(5), "0": {},
	} {
		assert.Equal(t, want, mixed(r))
	}
}
