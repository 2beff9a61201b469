package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// oneFault decodes a shot that has one thing wrong with it.
func oneFault(t *testing.T, text, want string) {
	t.Helper()
	_, err := shot.Decode("f", []byte(text), nil)
	var list fault.List
	require.ErrorAs(t, err, &list)
	require.Len(t, list, 1, err.Error())
	assert.True(t, strings.HasPrefix(err.Error(), "f:"+want), err.Error())
}

// One slip in the base shot, one fault that begins as said.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`"40 mm"`, `40 mm`, `10:11: TOML: expected newline but got U+006D 'm'; values with a unit go in quotes`},
		{`"40 mm"`, `40`, `10:8: axis rail: from "40" needs a unit, such as "40 mm" or "40 deg"`},
		{`"40 mm"`, `nan`, `10:8: axis rail: from "nan" does not begin with a number`},
		{`"40 mm"`, `-inf`, `10:8: axis rail: from "-inf" does not begin with a number`},
		{`"40 mm"`, `"1e3 mm"`, `10:8: axis rail: from "1e3 mm" has an exponent`},
		{`"40 mm"`, `"99999999999 mm"`, `10:8: axis rail: from "99999999999 mm" is out of range`},
		{`"40 mm"`, `"40 mm/s"`, `10:8: axis rail: from "40 mm/s" is a speed; it must be a length`},
		{`"40 mm"`, `"40 deg"`, `11:6: axis rail: to "100 mm" must be an angle, as from is`},
		{`"40 mm"`, `"10 cm"`, `11:6: axis rail: to "100 mm" must be somewhere else than from; to stay put, use move = "hold"`},
		{`"40 mm"`, `["40 mm"]`, `10:1: axis rail: from (a list) must be text`},
		{`"40 mm"`, `true`, `10:8: axis rail: from "true" must be text`},
		{`"40 mm"`, `""`, `10:8: axis rail: from "" does not begin with a number`},
		{`from =`, `form =`, `10:1: axis rail: form is not a key that means anything here; did you mean "from"?`},
		{`from = "40 mm"`, ``, `8:7: axis rail: from is missing; give it, such as from = "40 mm"`},
		{`[axis.rail]`, `[axes.rail]`, `8:2: axes is not a key that means anything here; did you mean "axis"?`},
		{`[axis.rail]`, `[axis."-"]`, `8:7: axis.- must be a letter and then`},
		{`"there-and-back"`, `"their-and-back"`, `9:8: axis rail: move "their-and-back" must be one of ` + strings.Join(move.Names(), ", ") + `; did you mean "there-and-back"?`},
		{`"120"`, `"-24"`, `3:11: clock.capture frame rate -24 must be above 0`},
		{`"120"`, `0`, `3:11: clock.capture frame rate 0 must be above 0`},
		{`"120"`, `[24]`, `3:1: clock.capture (a list) must be text`},
		{`playback = "24"`, ``, `2:2: clock.playback is missing; give it, such as playback = "24"`},
		{`"24"`, `"99999999999"`, `4:12: clock.playback frame rate 99999999999 must be above 0`},
		{`"144 frames"`, `"-6 s"`, `5:8: clock.loop of -6 s must be above 0 s`},
		{`"144 frames"`, `"0 frames"`, `5:8: clock.loop of 0 frames must have 1 to`},
		{`"144 frames"`, `"1.5 frames"`, `5:8: clock.loop "1.5 frames" must be a whole number of frames; 1 or 2 frames would do`},
		{`"144 frames"`, `"900000000 s"`, `5:8: clock.loop of 900000000 s must`},
		{`"144 frames"`, `6`, `5:8: clock.loop "6" needs a unit, such as "6 s" or "6 frames"`},
		{`loop = "144 frames"`, ``, `2:2: clock.loop is missing; give it, such as loop = "6 s" or loop = "144 frames"`},
		{`"144 frames"`, "\"144 frames\"\nretime = -1", `6:10: clock.retime "-1" must be above 0`},
		{`"144 frames"`, "\"144 frames\"\nretime = \"1/99999999\"", `6:10: clock.retime `},
		{`"144 frames"`, "\"6.01 s\"\nrounding = \"forbid\"", `5:8: clock.loop of 6.01 s is 144.24 timeline frames`},
		{`"144 frames"`, "\"144 frames\"\nrounding = \"no\"", `6:12: clock.rounding "no" must be one of nearest, forbid`},
		{`"bench.toml"`, `""`, `7:8: rig.file "" must be the name of a file`},
		{"[rig]\nfile = \"bench.toml\"", "", "1:1: rig is missing; name its file"},
		{`[rig]`, "[rig]\nrig = \"x\"", "8:8: rig.file \"bench.toml\" is given, and so is the rig itself"},
	} {
		t.Run(c.new, func(t *testing.T) { oneFault(t, string(spoilt(t, c.old, c.new)), c.want) })
	}
}

// A line more than the base shot should have.
func TestFaultsOfThereAndBack(t *testing.T) {
	for line, want := range map[string]string{
		`law = "3-4-6"`:                        `axis rail: law "3-4-6" must be one of uniform, `,
		`back-law = "cycloidial"`:              `axis rail: back-law "cycloidial" must be one of `,
		`cycles = 0`:                           `axis rail: cycles "0" must be from 1 to 1000`,
		`cycles = -1`:                          `axis rail: cycles "-1" must be from 1 to 1000`,
		`cycles = 1.5`:                         `axis rail: cycles "1.5" must be a whole number; 1 or 2 would do`,
		`out-share = 1`:                        `axis rail: out-share "1" must be above 0 and below 1; 1/2 would do`,
		`out-share = "1/0"`:                    `axis rail: out-share "1/0" divides by zero`,
		`phase = 1`:                            `axis rail: phase "1" must be from 0 to below 1; 0 would do`,
		`phase = "6 frames"`:                   `axis rail: phase "6 frames" is a count of frames`,
		`dwell-far = "-3 frames"`:              `axis rail: dwell-far "-3 frames" must be 0 or more; "3 frames" would do`,
		`dwell-far = "144 frames"`:             `axis rail: dwell-far "144 frames" leaves no time to move`,
		`dwell-near = "90 s"`:                  `axis rail: dwell-near "90 s" leaves no time to move: both dwells come to 2160 frames and a cycle has 144; dwells of less than 144 frames together would do`,
		`dwell-far = 12`:                       `axis rail: dwell-far "12" needs a unit, such as "12 s" or "12 frames"`,
		`ramp = "1/3"`:                         `axis rail: ramp "1/3" has no meaning for this law`,
		`jerk-share = "1/3"`:                   `axis rail: jerk-share "1/3" has no meaning for this law`,
		`turns = 1`:                            `axis rail: turns does not belong to the move "there-and-back"`,
		`keys = []`:                            `axis rail: keys does not belong to the move "there-and-back"`,
		`[take]` + "\nrounds = 0":              `take.rounds "0" must be from 1 to 1000000`,
		`take.rounds = "lots"`:                 `axis rail: take is not a key that means anything here`,
		"[take]\nhandles = \"9 h\"":            `take.handles "9 h"`,
		"[take]\nhandles = \"999999 frames\"":  `take.handles "999999 frames" must be at most 10000 frames`,
		"[take]\ntimecode = \"25:00:00:00\"":   `take.timecode "25:00:00:00" has hours "25"`,
		"[take]\ndrop-frame = true":            `take.drop-frame timecode at 24 must be at 29.97 or 59.94`,
		"[take]\ndrop-frame = \"yes\"":         `take.drop-frame "yes" must be true or false`,
		"law = \"trapezoidal\"\nramp = 0.6":    `axis rail: ramp "0.6" must be above 0 and at most 1/2; 1/3 would do`,
		"law = \"seven-segment\"\nramp = 0":    `axis rail: ramp "0" must be above 0`,
		"[axis.pan]":                           `axis pan: move is missing`,
		"[axis.pan]\nat = \"1 mm\"\nturns = 1": `axis pan: move is missing`,
	} {
		t.Run(line, func(t *testing.T) {
			_, err := shot.Decode("f", []byte(base+line+"\n"), nil)
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			_, said, _ := strings.Cut(list[0].String(), ": ")
			assert.True(t, strings.HasPrefix(said, want), said)
			assert.GreaterOrEqual(t, list[0].Line, 8)
		})
	}
}

func TestFaultsOfOtherMoves(t *testing.T) {
	for lines, want := range map[string]string{
		"move = \"turn\"":                             `axis a: turns is missing; give it, such as turns = "1/6"`,
		"move = \"turn\"\nturns = 0":                  `axis a: turns "0" must not be 0; to stay put, use move = "hold"`,
		"move = \"turn\"\nturns = 5000":               `axis a: turns "5000" must be from -1000 to 1000`,
		"move = \"turn\"\nturns = \"5 mm\"":           `axis a: turns "5 mm" is a length`,
		"move = \"turn\"\nturns = 1\nstart = \"1 s\"": `axis a: start "1 s" is a time`,
		"move = \"hold\"":                             `axis a: at is missing`,
		"move = \"keys\"":                             `axis a: keys (0 of them) must be 1 to 256`,
		"keys = [{ at = \"1 s\" }]":                   `axis a: keys[1].pos is missing; give it, such as pos = "10 deg"`,
		"keys = [{ pos = \"1 mm\" }]":                 `axis a: keys[1].at is missing; give it, such as at = "0 frames"`,
		"keys = [{ at = \"-1 s\", pos = \"1 mm\" }]":  `axis a: keys[1].at "-1 s" must be 0 or more; "1 s" would do`,
		"keys = [{ at = \"6 s\", pos = \"1 mm\" }]":   `axis a: keys[1].at "6 s" must be over`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\" }, { at = \"1 s\", pos = \"2 mm\" }]":                       `axis a: keys[2].at "1 s" must come after the key before it and its hold; later than frame 24`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", hold = \"9 frames\" }, { at = \"33 frames\", pos = 1 }]":   `axis a: keys[2].pos "1" needs a unit`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\" }, { at = \"2 s\", pos = \"2 deg\" }]":                      `axis a: keys[2].pos "2 deg" must be a length, as the first key is`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", speed = \"2 deg/s\" }]":                                    `axis a: keys[1].speed "2 deg/s" is a turning speed`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", speed = \"2 mm/s\", hold = \"1 s\" }]":                     `axis a: keys[1].speed "2 mm/s" must be 0 where the key holds`,
		"curve = \"smoth\"\nkeys = [{ at = \"1 s\", pos = \"1 mm\" }]":                                      `axis a: curve "smoth" must be one of smooth, monotone; did you mean "smooth"?`,
		"keys = [{ at = \"1 s\", pos = \"1 mm\", hold = \"5 s\" }, { at = \"2 s\", pos = \"2 mm\" }]":       `axis a: keys[2].at "2 s" must come after`,
		"keys = [{ at = \"0 s\", pos = \"1 mm\" }, { at = \"5 s\", pos = \"2 mm\", hold = \"24 frames\" }]": `axis a: keys[2].at "5 s" must be over, its hold too, before the loop comes round; the loop has 144 frames`,
	} {
		t.Run(lines, func(t *testing.T) {
			_, err := shot.Decode("f", []byte(head+"[axis.a]\n"+lines+"\n"), nil)
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			_, said, _ := strings.Cut(list[0].String(), ": ")
			assert.True(t, strings.HasPrefix(said, want), said)
		})
	}
}

func TestFilesThatAreNoShots(t *testing.T) {
	for text, want := range map[string]string{
		"":                                  "f: the file is empty",
		"\n# hello\n":                       "f: the file is empty",
		"\x89PNG\r\n\x1a\n\x00":             "f: the file must be text in UTF-8",
		strings.Repeat("# long\n", 200_000): "f: the file of 1400000 bytes must be at most 1048576 bytes",
	} {
		_, err := shot.Decode("f", []byte(text), nil)
		require.Error(t, err)
		assert.True(t, strings.HasPrefix(err.Error(), want), err.Error())
	}
}

func TestEverythingWrongIsSaidAtOnce(t *testing.T) {
	_, err := shot.Decode("f", []byte(`[clock]
capture = "fast"
loop = 6
[rig]
[axis.rail]
move = "there-and-back"
form = 40
dwell-far = "-1 s"
law = "3-4-6"
[axis.table]
move = "spin"
`), nil)
	var list fault.List
	require.ErrorAs(t, err, &list)
	text := "\n" + err.Error()
	for _, want := range []string{
		"\nf:1:2: clock.playback is missing", "\nf:2:11: clock.capture", "\nf:3:8: clock.loop \"6\" needs a unit", "\nf:4:2: rig.file is missing",
		"\nf:5:7: axis rail: to is missing", "\nf:7:1: axis rail: form", "\nf:7:8: axis rail: from \"40\" needs a unit",
		"\nf:8:13: axis rail: dwell-far", "\nf:9:7: axis rail: law", "\nf:11:8: axis table: move \"spin\"",
	} {
		assert.Contains(t, text, want)
	}
}

// What decodes without a fault has a track on every axis, or says why not.
func FuzzDecode(f *testing.F) {
	for _, s := range sound {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := shot.Decode("f", []byte(text), nil)
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		require.NotEmpty(t, s.Axes)
		assert.Positive(t, s.Loop.Captured)
		assert.Positive(t, s.Rounds)
		assert.True(t, s.Rig != nil || s.RigFile != "")
		for _, m := range s.Axes {
			if track, err := m.Track(s.Loop.Real()); err == nil {
				assert.True(t, track.Period().Equal(s.Loop.Real()))
			} else { // an aim has a track only beside what it follows
				assert.Contains(t, []string{"keys", "aim", "arc"}, m.Kind(), err.Error())
			}
		}
	})
}
