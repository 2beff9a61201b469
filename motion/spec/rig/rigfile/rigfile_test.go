package rigfile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// plainBoard is a board of three axes that homes.
func plainBoard() rigfile.Board {
	return rigfile.Board{
		From: "the controller at /dev/ttyUSB7", Kind: rig.Buffered, Because: []string{"it answers the status byte ? with a report"}, Baud: 250000,
		Greeting: "Bench 1.1 ready", Said: []string{"[VER:of the bench]"}, State: "Alarm", Alarm: true, Reports: true, SettingsLine: "$$",
		Settings: map[string]float64{
			"$0": 2.5, "$1": 25, "$2": 0, "$3": 3, "$4": 1, "$10": 1, "$11": 0.02, "$13": 0, "$20": 1, "$21": 1, "$22": 1, "$23": 1,
			"$100": 80, "$101": 26.667, "$102": 400, "$110": 24000, "$111": 5400, "$112": 300,
			"$120": 500, "$121": 180, "$122": 50, "$130": 380, "$131": 360, "$132": 100,
		},
		Places: 3, Blocks: 15, Bytes: 127,
	}
}

// lockstepBoard prints words, in inches.
func lockstepBoard() rigfile.Board {
	return rigfile.Board{
		From: "the controller at /dev/ttyUSB7", Kind: rig.Lockstep, Because: []string{"it answers ok to an empty line"}, Baud: 115200, Greeting: "start",
		SettingsLine: "M503", Inches: true, Letters: "XYZ",
		Settings: map[string]float64{"M92 X": 2032, "M203 X": 10, "M201 X": 20, "M205 J": 0.013},
		Odd:      map[string]string{"M92 Y": "lots"},
	}
}

func player() rigfile.Board {
	return rigfile.Board{From: "a rig made of software", Kind: rig.StepPlayer, Because: []string{"it answers in frames"}, Baud: 115200, Greeting: "bench", Motors: 2, Rows: 1024, Shortest: 50e-6}
}

// decoded is the rig of a file, which has no faults.
func decoded(t testing.TB, b rigfile.Board) rig.Rig {
	t.Helper()
	text := rigfile.File(b)
	r, _, err := rig.Decode("bench.toml", text)
	require.NoError(t, err, string(text))
	return r
}

func TestFiles(t *testing.T) {
	for name, b := range map[string]rigfile.Board{"buffered": plainBoard(), "lockstep": lockstepBoard(), "step-player": player()} {
		sample.Golden(t, name+".toml", string(rigfile.File(b)))
		decoded(t, b)
	}
}

// Every line that says something says how it is known.
func TestEveryLineIsMarked(t *testing.T) {
	for _, b := range []rigfile.Board{plainBoard(), lockstepBoard(), player()} {
		for line := range strings.Lines(string(rigfile.File(b))) {
			line = strings.TrimSpace(strings.TrimPrefix(line, "# "))
			if !strings.Contains(line, " = ") && !strings.HasPrefix(line, "[axis") {
				continue
			}
			assert.Regexp(t, `# (read|guessed|to be measured): .`, line)
		}
	}
}

func TestWhatIsReadIsInTheRig(t *testing.T) {
	r := decoded(t, plainBoard())
	c := r.Controller
	assert.Equal(t, 250000, c.Baud)
	assert.Equal(t, "Bench", c.Greeting)
	assert.Equal(t, [2]int{128, 16}, [2]int{c.ReceiveBuffer, c.Blocks})
	assert.Equal(t, [2]float64{0.02, 0.025}, [2]float64{c.JunctionDeviation, c.IdleDelay})
	assert.Equal(t, "XYZ", c.Letters)
	assert.Equal(t, rig.Stated{Value: 3, Known: true}, c.Stated[rig.DirectionInvert])
	assert.Empty(t, c.Reports[rig.Laser], "it did not print it")
	require.Len(t, r.Axes, 2, "the third is behind marks")
	rail, table := r.Axes[0], r.Axes[1]
	assert.Equal(t, "80", rail.StepsPerUnit.String())
	assert.Equal(t, rig.AxisSettings{Acceleration: 500, Speed: 400, StepsName: "$100", SpeedName: "$110", AccelerationName: "$120", TravelName: "$130"}, rail.Settings)
	assert.Equal(t, "26667/1000", table.StepsPerUnit.String())
	assert.Equal(t, rig.Rotary, table.Kind)

	known := map[string]rig.Known{}
	for _, d := range rig.Marked("f", rigfile.File(plainBoard())) {
		known[d.Key] = d.Known
	}
	for key, want := range map[string]rig.Known{
		"axis.rail": rig.ToMeasure, "axis.rail.travel": rig.ToMeasure, "axis.rail.direction": rig.ToMeasure, "axis.rail.speed": rig.Guessed,
		"axis.rail.steps": rig.Read, "axis.rail.settings.speed": rig.Read, "controller.step-timer": rig.Guessed, "controller.baud": rig.Read,
	} {
		assert.Equal(t, want, known[key], key)
	}
}

func TestWordsInInches(t *testing.T) {
	r := decoded(t, lockstepBoard())
	assert.InDelta(t, 80, r.Axes[0].StepsPerUnit.Float(), 1e-9)
	assert.InDelta(t, 254, r.Axes[0].Settings.Speed, 1e-9)
	assert.Equal(t, "M503", r.Controller.SettingsLine)
	assert.Empty(t, r.Axes[0].Settings.StepsName, "inches are not compared with mm")
	b := lockstepBoard()
	b.Inches = false
	assert.Equal(t, "M92 X", decoded(t, b).Axes[0].Settings.StepsName)
}

func TestAPlayerIsAskedEverything(t *testing.T) {
	r := decoded(t, player())
	assert.Len(t, r.Axes, 2)
	assert.Equal(t, 127000.0, r.Controller.StepRate)
	for _, d := range r.Doubts {
		if d.Key == "axis.rail.steps" {
			assert.Equal(t, rig.ToMeasure, d.Known)
			return
		}
	}
	t.Error("steps that nobody knows are no question")
}

// What cannot be is told, and holds no place in the file.
func TestAbsurdSettings(t *testing.T) {
	for name, x := range map[string]float64{"$100": 0, "$110": 1e9, "$120": -4, "$11": 1e9, "$1": -3} {
		b := plainBoard()
		b.Settings[name] = x
		decoded(t, b)
		assert.Contains(t, string(rigfile.File(b)), "to be measured: it prints "+name+"=", name)
	}
	b := plainBoard()
	delete(b.Settings, "$100")
	b.Odd = map[string]string{"$100": "nan"}
	decoded(t, b)
	assert.Contains(t, strings.Join(rigfile.Notes(b), "\n"), "it prints $100=nan, which cannot be")
	b = plainBoard()
	b.Settings["$100"], b.Settings["$110"], b.Settings["$13"] = 0, 400, 1
	notes := strings.Join(rigfile.Notes(b), "\n")
	assert.Contains(t, notes, "axis X: it prints $100=0, which cannot be")
	assert.Contains(t, notes, "axis X: $110=400 a minute is slow, 6.667 a second: was a speed a second written there?")
	assert.Contains(t, notes, "it reports places in inches ($13=1)")
	assert.Contains(t, notes, "it is in an alarm")
}

// Whatever a board prints, the file that is made of it is understood.
func TestAnyBoardIsUnderstood(t *testing.T) {
	names := []string{"$0", "$1", "$2", "$3", "$11", "$13", "$20", "$22", "$23", "$100", "$101", "$110", "$111", "$120", "$130", "M92 X", "M92 Y", "M203 X", "M201 X", "M205 J"}
	many.Check(t, 200, func(t *rapid.T) {
		b := rapid.SampledFrom([]rigfile.Board{plainBoard(), lockstepBoard(), player()}).Draw(t, "board")
		b.Settings, b.Odd = map[string]float64{}, map[string]string{}
		for _, n := range rapid.SliceOfDistinct(rapid.SampledFrom(names), func(s string) string { return s }).Draw(t, "names") {
			b.Settings[n] = rapid.Float64().Draw(t, n)
		}
		if rapid.Bool().Draw(t, "odd") {
			b.Odd["$100"] = rapid.StringMatching(`[ -~]{1,60}`).Draw(t, "text")
		}
		b.Greeting = rapid.StringMatching(`[ -~]{0,60}`).Draw(t, "greeting")
		b.Blocks, b.Bytes = rapid.IntRange(0, 9000).Draw(t, "blocks"), rapid.IntRange(0, 9000).Draw(t, "bytes")
		b.Motors = rapid.IntRange(0, 255).Draw(t, "motors")
		text := rigfile.File(b)
		if _, _, err := rig.Decode("f", text); err != nil {
			t.Fatalf("%v in\n%s", err, text)
		}
	})
}

func TestDifferences(t *testing.T) {
	b := plainBoard()
	text := rigfile.File(b)
	r := decoded(t, b)
	assert.Empty(t, rigfile.Differs(b, r, text))
	b.Settings["$100"], b.Settings["$110"], b.Settings["$1"], b.Settings["$3"], b.Settings["$130"] = 160, 12000, 255, 2, 300
	b.Baud, b.Bytes, b.Greeting = 115200, 255, "Other"
	var keys []string
	for _, d := range rigfile.Differs(b, r, text) {
		keys = append(keys, d.String())
		assert.Positive(t, d.Line, d.Key)
	}
	assert.Equal(t, []string{
		"controller.baud: the file says 250000, the controller 115200",
		`controller.greeting: the file says "Bench", the controller "Other"`,
		"controller.receive-buffer: the file says 128 bytes, the controller 256 bytes",
		"controller.idle-delay: the file says 25 ms, the controller none",
		"controller.settings.direction-invert: the file says 3, the controller 2",
		"axis.rail.steps: the file says 80 per mm, the controller 160 per mm",
		"axis.rail.settings.speed: the file says 400 mm/s, the controller 200 mm/s",
		"axis.rail.travel: the file says 380 mm, the controller stops it after 300 mm, by its soft limits",
	}, keys)
	other := player()
	assert.Equal(t, "controller.kind", rigfile.Differs(other, r, text)[0].Key)
}
