package starter_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
)

// printed is what a board of three axes prints.
func printed() map[string]float64 {
	return map[string]float64{
		"$0": 2.5, "$1": 25, "$2": 0, "$3": 3, "$4": 1, "$10": 1, "$11": 0.02, "$12": 0.002, "$13": 0, "$20": 1, "$21": 1, "$22": 1, "$23": 1,
		"$100": 80, "$101": 26.667, "$102": 400, "$110": 24000, "$111": 5400, "$112": 600,
		"$120": 500, "$121": 180, "$122": 50, "$130": 380, "$131": 360, "$132": 100,
	}
}

func read() starter.Board {
	return starter.Board{From: "the controller at /dev/ttyUSB7", Baud: 250000, Greeting: "Bench 1.1 ready", Settings: printed()}
}

// What the board says is in the file, and what it cannot know is a fault of its
// own, one an axis, until it is filled in.
func TestARigFileFromABoard(t *testing.T) {
	text, err := starter.RigOf(read())
	require.NoError(t, err)
	_, _, err = rig.Decode("r.toml", text)
	var faults fault.List
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 2, err.Error())
	assert.Contains(t, err.Error(), "axis rail: travel must have two ends; such as")
	assert.Contains(t, err.Error(), "axis table: travel must have two ends; such as \"endless\"")
	assert.Equal(t, 2, strings.Count(string(text), "\ntravel       = \"?\"               # FILL IN: "))
	assert.Contains(t, string(text), "# soft limits stop it after 380 mm ($130)")
	assert.Contains(t, string(text), "prints of itself: the controller at /dev/ttyUSB7.")

	r := completed(t, text)
	c := r.Controller
	assert.Equal(t, 250000, c.Baud)
	assert.Equal(t, "Bench", c.Greeting)
	assert.Equal(t, 0.02, c.JunctionDeviation)
	assert.Equal(t, 0.025, c.IdleDelay)
	assert.Equal(t, "XYZ", c.Letters)
	assert.Equal(t, "$H", c.HomeLine)
	for k, want := range map[rig.Setting]float64{rig.StepPulse: 2.5, rig.StepInvert: 0, rig.DirectionInvert: 3, rig.EnableInvert: 1,
		rig.SoftLimits: 1, rig.HardLimits: 1, rig.Homing: 1, rig.HomeInvert: 1} {
		assert.Equal(t, rig.Stated{Value: want, Known: true}, c.Stated[k], k.String())
	}
	assert.Empty(t, c.Reports[rig.Laser], "it did not print it")
	assert.Equal(t, "$13", c.Reports[rig.Inches])
	require.Len(t, r.Axes, 2)
	rail, table := r.Axes[0], r.Axes[1]
	assert.Equal(t, "80", rail.StepsPerUnit.String())
	assert.Equal(t, rig.AxisSettings{Acceleration: 500, Speed: 400, StepsName: "$100", SpeedName: "$110", AccelerationName: "$120", TravelName: "$130"}, rail.Settings)
	assert.Equal(t, [2]float64{400, 500}, [2]float64{rail.MaxSpeed, rail.MaxAcc})
	assert.Equal(t, "Y", table.Letter)
	assert.Equal(t, rig.Rotary, table.Kind)
	assert.Equal(t, "26667/1000", table.StepsPerUnit.String())
	assert.Equal(t, [2]float64{90, 180}, [2]float64{table.MaxSpeed, table.MaxAcc})
	assert.NoError(t, check(t, compile(t, rig.Schema()), text), "the shape is right; what is missing is a matter of reading")
}

// completed fills in what a person has to, and takes the third axis in.
func completed(t *testing.T, text []byte) rig.Rig {
	t.Helper()
	s := strings.Replace(string(text), `travel       = "?"`, `travel       = ["0 mm", "380 mm"]`, 1)
	s = strings.Replace(s, `travel       = "?"`, `travel       = "endless"`, 1)
	r, _, err := rig.Decode("r.toml", []byte(s))
	require.NoError(t, err)
	return r
}

// The axis that has neither rail nor table is there behind marks, and is right
// once they are taken away.
func TestTheOtherAxesAreBehindMarks(t *testing.T) {
	text, err := starter.RigOf(read())
	require.NoError(t, err)
	_, after, found := strings.Cut(string(text), "# [axis.axis-z]\n")
	require.True(t, found)
	block, _, _ := strings.Cut(after, "\n\n")
	bare := "[axis.axis-z]\n"
	for line := range strings.Lines(block) {
		bare += strings.TrimPrefix(line, "# ")
	}
	_, _, err = rig.Decode("r.toml", []byte(strings.Replace(bare, `"?"`, `["0 mm", "9 mm"]`, 1)))
	assert.NoError(t, err)
}

func TestOddBoards(t *testing.T) {
	for name, c := range map[string]struct {
		change func(b *starter.Board)
		want   string // part of the text, or of the error
		fails  bool
	}{
		"nothing of any axis":        {func(b *starter.Board) { b.Settings = map[string]float64{"$1": 25} }, "it prints no steps, speed and acceleration of any axis", true},
		"nothing at all":             {func(b *starter.Board) { b.Settings = nil }, "it prints no steps", true},
		"no such letter":             {func(b *starter.Board) { b.Table = "A" }, "it prints settings for the axes XYZ, and the turntable cannot be A", true},
		"the rail's letter":          {func(b *starter.Board) { b.Table = "X" }, "the turntable cannot be X", true},
		"a table on Z":               {func(b *starter.Board) { b.Table = "Z" }, "# The axis of the letter Z, taken for the turntable.", false},
		"a fourth axis":              {func(b *starter.Board) { b.Settings["$103"], b.Settings["$113"], b.Settings["$123"] = 9, 9, 9 }, "# The axis of the letter A, taken for the turntable.", false},
		"it does not greet":          {func(b *starter.Board) { b.Greeting = "" }, "greeting           = \"none\"", false},
		"it loses it at once":        {func(b *starter.Board) { b.Settings["$1"] = 0 }, "idle-delay         = \"0 ms\"", false},
		"it keeps its current":       {func(b *starter.Board) { b.Settings["$1"] = 255 }, "idle-delay         = \"none\"", false},
		"it does not home":           {func(b *starter.Board) { b.Settings["$22"] = 0 }, "home-line          = \"none\"", false},
		"a setting is not printed":   {func(b *starter.Board) { delete(b.Settings, "$23") }, "# home-invert      = 0", false},
		"nothing is held to travels": {func(b *starter.Board) { b.Settings["$20"] = 0 }, "# $130 says 380 mm and is not held to", false},
	} {
		t.Run(name, func(t *testing.T) {
			b := read()
			c.change(&b)
			text, err := starter.RigOf(b)
			if c.fails {
				require.ErrorContains(t, err, c.want)
				return
			}
			require.NoError(t, err)
			assert.Contains(t, string(text), c.want)
			completed(t, text)
		})
	}
}

// A board that has an axis alone makes a rig of one.
func TestABoardOfOneAxis(t *testing.T) {
	b := read()
	for name := range b.Settings {
		if len(name) == 4 && name[3] != '0' {
			delete(b.Settings, name)
		}
	}
	text, err := starter.RigOf(b)
	require.NoError(t, err)
	assert.Len(t, completed(t, text).Axes, 1)
}

// Another letter for the table is one in all places, and leaves nothing that is
// asked.
func TestTableLetters(t *testing.T) {
	for _, letter := range strings.Split(starter.TableLetters, "") {
		for _, kind := range rig.DrivenKinds() {
			text := starter.WithTableLetter(starter.RigWith(kind), letter)
			r, defaults, err := rig.Decode(starter.RigName, text)
			require.NoError(t, err)
			assert.Empty(t, defaults)
			table, _ := r.Axis("table")
			assert.Equal(t, letter, table.Letter)
			assert.False(t, r.Controller.DoubtfulLetter(table))
			want := r.Controller.UsualNames(letter)
			want.Acceleration, want.Speed = table.Settings.Acceleration, table.Settings.Speed
			assert.Equal(t, want, table.Settings)
		}
	}
	r, _, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	table, _ := r.Axis("table")
	assert.True(t, r.Controller.DoubtfulLetter(table), "the pair says what it does not know")
}
