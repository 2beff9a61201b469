package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// spinning is base with a stand and a table, each of its keys said.
const spinning = `shot = "Lantern"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
offers = ["100", "119.88"]
between = ["4 s", "288 frames"]
[rig]
file = "bench.toml"
[axis.table]
move = "turn"
turns = "1/3"
symmetry = 6
[spin.display]
speed = "slow"
symmetry = 6
radius = "4.5 cm"
pixels-per-mm = 12
start = "1/4 turn"
within = "1/2 px"
`

func decoded(t *testing.T, text string) shot.Shot {
	t.Helper()
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	return s
}

func TestSpin(t *testing.T) {
	s := decoded(t, spinning)
	require.Len(t, s.Spins, 1)
	p := s.Spins[0]
	assert.Equal(t, "display", p.Name)
	assert.Equal(t, "slow", p.Speed)
	assert.EqualValues(t, 6, p.Symmetry)
	assert.True(t, p.Radius.Equal(exact.Int(45)))
	assert.True(t, p.Scale.Equal(exact.Int(12)))
	assert.True(t, p.Started && p.Start.Equal(exact.Int(90)))
	assert.Equal(t, spin.Pixels, p.Within.Unit)
	assert.True(t, p.Within.Value.Equal(exact.New(1, 2)))
	assert.EqualValues(t, 14, p.Line)

	assert.True(t, s.Shortest.Equal(exact.Int(4)))
	assert.True(t, s.Longest.Equal(exact.Int(12)), "288 frames at 24 are 12 s")
	require.Len(t, s.Offers, 2)
	assert.True(t, s.Offers[1].Equal(exact.New(120000, 1001)), "SMPTE ST 12-1")
	assert.EqualValues(t, 6, s.Axes[0].Does.(move.Turner).Faces())
}

func TestBoundsOfAStand(t *testing.T) {
	for text, want := range map[string]spin.Bound{
		"0.5 px": {Value: exact.New(1, 2), Unit: spin.Pixels}, "0.1 deg": {Value: exact.New(1, 10), Unit: spin.Degrees},
		"0.2 mm": {Value: exact.New(1, 5), Unit: spin.Millimetres}, "0.05 captured frames": {Value: exact.New(1, 20), Unit: spin.CapturedFrames},
	} {
		got := decoded(t, strings.Replace(spinning, "1/2 px", text, 1)).Spins[0].Within
		assert.Equal(t, want.Unit, got.Unit, text)
		assert.True(t, want.Value.Equal(got.Value), text)
	}
}

func TestSpinSaysWhatItLeavesOut(t *testing.T) {
	bare, _, _ := strings.Cut(spinning, "speed = \"slow\"")
	s := decoded(t, strings.Replace(bare, "between = [\"4 s\", \"288 frames\"]\n", "", 1))
	said := map[string]string{}
	for _, d := range s.Defaults {
		said[d.Key] = d.Value
	}
	assert.Equal(t, "1", said["spin.display.symmetry"])
	assert.Contains(t, said["spin.display.within"], "0.05 captured frames")
	assert.Equal(t, "3 s to 12 s", said["clock.between"], "half of 6 s to twice 6 s")
	assert.True(t, s.Shortest.Equal(exact.Int(3)) && s.Longest.Equal(exact.Int(12)))
	assert.EqualValues(t, 1, s.Spins[0].Symmetry)

	for _, d := range decoded(t, base).Defaults {
		assert.NotEqual(t, "clock.between", d.Key, "nobody asks without a stand")
	}
}

func TestSpinFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"symmetry = 6\nradius", "symmetry = 0\nradius", `16:12: spin.display.symmetry "0" must be a whole number from 1 to 1000`},
		{"symmetry = 6\nradius", "symmetry = 1.5\nradius", `16:12: spin.display.symmetry "1.5" must be a whole number from 1 to 1000`},
		{`"4.5 cm"`, `"0 mm"`, `17:10: spin.display.radius "0 mm" must be above 0 and at most 5000 mm; such as "45 mm"`},
		{`= 12`, `= -3`, `18:17: spin.display.pixels-per-mm "-3" must be above 0 and at most 10000; such as "12"`},
		{`"1/4 turn"`, `"4 mm"`, `19:9: spin.display.start "4 mm" is a length`},
		{`"slow"`, `""`, `15:9: spin.display.speed "" must be the name of one of the stand's speeds; such as "slow"`},
		{`"1/2 px"`, `"0 px"`, `20:10: spin.display.within "0 px" must be above 0; no stand is exact; such as "0.5 px"`},
		{`"1/2 px"`, `"1..2 px"`, `20:10: spin.display.within "1..2 px" must be a number of`},
		{`"1/2 px"`, `"soon"`, `20:10: spin.display.within "soon" must be a number of px, deg, mm or captured frames, such as "0.5 px"`},
		{"radius = \"4.5 cm\"\n", ``, `19:10: spin.display.within "1/2 px" needs the radius of the product; give it, such as radius = "45 mm", or a bound in degrees`},
		{"pixels-per-mm = 12\n", ``, `19:10: spin.display.within "1/2 px" needs the scale of the picture; give it, such as pixels-per-mm = 12`},
		{`["4 s", "288 frames"]`, `"4 s"`, `7:11: clock.between must have two ends; such as ["4 s", "12 s"]`},
		{`["4 s", "288 frames"]`, `["12 s", "4 s"]`, `7:20: clock.between[2] "4 s" must be above the first end, 12 s; an empty range holds no loop`},
		{`["4 s", "288 frames"]`, `["4 s", "4 s"]`, `7:19: clock.between[2] "4 s" must be above the first end, 4 s`},
		{`["4 s", "288 frames"]`, `["0 s", "4 s"]`, `7:12: clock.between[1] "0 s" must be above 0 s and at most 10000000 frames`},
		{`["4 s", "288 frames"]`, `["4 mm", "5 s"]`, `7:12: clock.between[1] "4 mm" is a length`},
		{`"100", `, `"0", `, `6:11: clock.offers[1] frame rate 0 must be above 0`},
		{`"1/3"`, `"1/4"`, `13:12: axis table: symmetry "6" must divide the turn: 1/4 of a turn is 1.5 faces, and the loop would end between two; turns of 1/6 or 1/3 would do`},
		{"symmetry = 6\n[spin", "symmetry = 1.5\n[spin", `13:12: axis table: symmetry "1.5" must be a whole number from 1 to 1000`},
		{`[spin.display]`, `[spin."my stand"]`, `14:7: spin.my stand must be a letter and then at most 31`},
		{`[spin.display]`, `[spun.display]`, `14:2: spun is not a key that means anything here; did you mean "spin"?`},
	} {
		t.Run(c.new, func(t *testing.T) {
			require.Contains(t, spinning, c.old)
			oneFault(t, strings.Replace(spinning, c.old, c.new, 1), c.want)
		})
	}
}

func TestSymmetryBelongsToATurn(t *testing.T) {
	oneFault(t, base+"symmetry = 6\n", `12:12: axis rail: symmetry does not belong to the move "there-and-back"`)
}
