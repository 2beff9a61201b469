package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/shot"
)

const (
	pass = "move = \"through\"\nfrom = \"40 mm\"\nto = \"280 mm\"\n"
	look = "follow = \"rail\"\npoint = [\"160 mm\", \"400 mm\"]\n"
	two  = "marks = [{ distance = \"300 mm\", pos = \"8 deg\" }, { distance = \"500 mm\", pos = \"3 deg\" }]\n"
)

func TestFaultsOfPassesAndAims(t *testing.T) {
	for lines, want := range map[string]string{
		pass + `law = "harmonic"`:                                                            `law "harmonic" pushes at both its ends, and would jump at the cut; "uniform", "3-4-5" or "cycloidal" would do`,
		pass + `even = "1/2"`:                                                                `even "1/2" has no meaning for this law, which is even by itself`,
		pass + "law = \"3-4-5\"\neven = 3":                                                   `even share 3 must be at least 0 and below 2.143`,
		pass + "law = \"3-4-5\"\neven = -1":                                                  `even "-1" must be 0 or more`,
		pass + `dwell-far = "1 s"`:                                                           `dwell-far does not belong to the move "through"; its keys are from, to, law, even`,
		look:                                                                                 `as is missing; give it, such as as = "pan"`,
		look + `as = "roll"`:                                                                 `as "roll" must be one of pan, tilt, focus`,
		look + "as = \"pan\"\nfocal = \"60 mm\"":                                             `focal has no meaning for a pan; it is for as = "focus"`,
		look + "as = \"focus\"\n" + two:                                                      `focal is missing; give it, such as focal = "60 mm"`,
		look + "as = \"focus\"\nfocal = \"60 mm\"":                                           `marks (0 of them) must be two`,
		look + "as = \"focus\"\nfocal = \"420 mm\"\n":                                        `marks (0 of them) must be two`,
		look + "as = \"focus\"\nfocal = \"0 mm\"\n" + two:                                    `focal "0 mm" must be above 0 mm`,
		"follow = \"a\"\nas = \"pan\"\npoint = [\"1 mm\", \"2 mm\"]":                         `follow "a" must be another axis; the one that carries the lens`,
		"follow = \"rail\"\nas = \"pan\"\npoint = [\"1 mm\"]":                                `point must have two lengths or three`,
		"follow = \"rail\"\nas = \"pan\"\npoint = [\"1 mm\", \"-2 mm\"]":                     `point[2] "-2 mm" must be above 0 mm`,
		"follow = \"rail\"\nas = \"pan\"\npoint = [\"1 mm\", \"2 deg\"]":                     `point[2] "2 deg" is an angle; it must be a length`,
		"move = \"arc\"\npoint = [\"1 mm\", \"2 mm\"]\nfrom = \"1 deg\"":                     `to is missing`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", tension = 2 }]":                             `keys[1].tension "2" must be from 0 to 1`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", within = \"2 deg\" }]":                      `keys[1].within "2 deg" is an angle; it must be a length`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", within = \"-2 mm\" }]":                      `keys[1].within "-2 mm" must be 0 or more`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", tension = \"1/2\", speed = \"1 mm/s\" }]":   `keys[1].tension "1/2" has nothing to take off`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", ease-in = \"1/2\", speed = \"1 mm/s\" }]":   `keys[1].speed "1 mm/s" must be 0 where the key is eased`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", ease-in = \"1/2\", within = \"1 mm\" }]":    `keys[1].within "1 mm" has no meaning where the axis comes to rest`,
		"curve = \"monotone\"\nkeys = [{ at = \"1 s\", pos = \"1 mm\", within = \"1 mm\" }]": `keys[1].within "1 mm" has no meaning for a monotone curve`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", ease-out = \"2/3\" }, { at = \"2 s\", pos = \"2 mm\", ease-in = \"1/2\" }]": `keys[1].ease-out "2/3" and the ease-in of key 2 take more than all of the time`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", ease-out = \"2/3\" }, { at = \"2 s\", pos = \"2 mm\", within = \"1 mm\" }]": `keys[2].within "1 mm" does not go with the ease-out of key 1`,
	} {
		t.Run(lines, func(t *testing.T) {
			_, err := shot.Decode("f", []byte(head+"[axis.a]\n"+lines+"\n"), nil)
			var list fault.List
			require.ErrorAs(t, err, &list)
			_, said, _ := strings.Cut(list[0].String(), ": axis a: ")
			assert.True(t, strings.HasPrefix(said, want), said)
		})
	}
}

func TestMovesThatDoNotSuitTheAxis(t *testing.T) {
	for name, c := range map[string]struct {
		lines  string
		rotary bool
		want   string
	}{
		"a pass of mm on a table": {pass, true, "must be an angle"},
		"a pan on a rail":         {look + "as = \"pan\"\n", false, "must be on a rotary axis"},
		"an arc on a table":       {"move = \"arc\"\npoint = [\"1 mm\", \"2 mm\"]\nfrom = \"1 deg\"\nto = \"2 deg\"\n", true, "must be on a linear axis"},
		"marks in degrees":        {look + "as = \"focus\"\nfocal = \"60 mm\"\n" + two, false, "must be a length"},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := shot.Decode("f", []byte(head+"[axis.a]\n"+c.lines), nil)
			require.NoError(t, err)
			problem := s.Axes[0].CheckKind(c.rotary)
			require.NotNil(t, problem)
			assert.Contains(t, problem.Bound, c.want)
			assert.Nil(t, s.Axes[0].CheckKind(!c.rotary))
		})
	}
}
