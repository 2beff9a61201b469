package kinds_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// bench is the built-in rig with a controller, as a kind is filmed with it.
func bench(t require.TestingT, k kinds.Kind, controller rig.ControllerKind, table bool) kinds.Bench {
	r, _, err := rig.Decode(starter.RigName, k.BuiltIn(starter.RigWith(controller), table))
	require.NoError(t, err)
	return kinds.BenchOf(r, table)
}

func planned(t require.TestingT, k kinds.Kind, b kinds.Bench, a kinds.Answers) (*job.Job, shot.Shot) {
	text, err := k.Make(b, a, starter.RigName, true)
	require.NoError(t, err)
	s, err := shot.Decode(k.ShotName(), text, nil)
	require.NoError(t, err, "%s", text)
	j, err := job.Plan(s, b.Rig, false)
	require.NoError(t, err, "%s", text)
	return j, s
}

// withoutTable tells whether a kind does without a table.
func withoutTable(k kinds.Kind) bool { return k.Name != "turntable" && k.Name != "still-turn" }

// stepwise tells whether a controller that takes one line at a time cannot follow a kind:
// all its axes rest together, or creep. The plan says so, and what would do.
func stepwise(k kinds.Kind, table bool) bool {
	rests := []string{"hand", "time-lapse", "still-turn"}
	if !table {
		rests = append(rests, "there-and-back", "out-of-dark")
	}
	return slices.Contains(rests, k.Name)
}

// Every kind is READY as it stands, with a table and without, whatever the controller,
// but for those above: that is the whole promise. Its file says Fernhollow.
func TestEveryKindIsReady(t *testing.T) {
	for _, k := range kinds.All() {
		for _, controller := range rig.Kinds() {
			for _, table := range []bool{true, false} {
				if !table && !withoutTable(k) {
					continue
				}
				t.Run(fmt.Sprint(k.Name, " ", controller, " ", table), func(t *testing.T) {
					if controller != rig.Buffered {
						many.Long(t)
					}
					b := bench(t, k, controller, table)
					if err := k.Suits(b); err != nil && !controller.Driven() {
						assert.ErrorContains(t, err, "takes two ends and a time by hand: there-and-back or label would do")
						return
					}
					require.NoError(t, k.Suits(b))
					j, s := planned(t, k, b, nil)
					if h := j.Headline(); controller == rig.Lockstep && stepwise(k, table) {
						assert.Equal(t, "NOT READY", h.Stamp)
						assert.ErrorContains(t, j.Unable(), "the controller cannot follow the move")
						assert.NotEmpty(t, j.Expected().Faults)
					} else {
						assert.Equal(t, "READY", h.Stamp, h.Words)
						require.NoError(t, j.Unable())
					}
					require.NotNil(t, j.Picture)
					assert.Contains(t, s.Title, "Fernhollow")
					_, has := s.Axis("table")
					assert.Equal(t, table && k.Name != "display-stand" && controller.Driven(), has)
					assert.Equal(t, k.Name == "display-stand", len(s.Spins) == 1)
				})
			}
		}
	}
}

// Without a table nothing in the file speaks of one.
func TestWithoutATableNothingIsSaidOfOne(t *testing.T) {
	for _, k := range kinds.All() {
		if !withoutTable(k) {
			continue
		}
		text, err := k.Make(bench(t, k, rig.Buffered, false), nil, starter.RigName, true)
		require.NoError(t, err)
		assert.NotContains(t, string(text), "table", k.Name)
		with, err := k.Make(bench(t, k, rig.Buffered, true), nil, starter.RigName, true)
		require.NoError(t, err)
		if !strings.Contains(string(with), "[spin.") {
			assert.Contains(t, string(with), "[axis.table]", k.Name)
		}
	}
}

// No two kinds move alike, neither in what they do nor in what the lens makes of it.
func TestNoTwoKindsMoveAlike(t *testing.T) {
	seen := map[string]string{}
	for _, k := range kinds.All() {
		j, s := planned(t, k, bench(t, k, rig.Buffered, true), nil)
		var moves []string
		for _, a := range j.Plan.Axes {
			moves = append(moves, a.Rig.Name+" "+a.Move.Does.Words(s.Clock))
		}
		for _, x := range s.Scene.Stand.Slides {
			moves = append(moves, fmt.Sprint(x.Axis, " heads ", x.Heading))
		}
		key := strings.Join(moves, ", ")
		assert.Empty(t, seen[key], "%s moves like %s: %s", k.Name, seen[key], key)
		seen[key] = k.Name
	}
}

func TestTheFilesSuitTheSchema(t *testing.T) {
	c := jsonschema.NewCompiler()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(shot.Schema())))
	require.NoError(t, err)
	require.NoError(t, c.AddResource("shot", doc))
	schema, err := c.Compile("shot")
	require.NoError(t, err)
	for _, k := range kinds.All() {
		text, err := k.Make(bench(t, k, rig.Buffered, true), nil, starter.RigName, true)
		require.NoError(t, err)
		var value map[string]any
		require.NoError(t, toml.Unmarshal(text, &value))
		assert.NoError(t, schema.Validate(value), k.Name)
		assert.Contains(t, string(text), k.Line)
		for line := range strings.Lines(string(text)) {
			assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 88, "%s: %s", k.Name, line)
			assert.Equal(t, strings.TrimRight(line, " \n")+"\n", line, k.Name)
		}
		assert.NotContains(t, string(text), "\n\n\n", k.Name)
		assert.NotContains(t, string(text), "<no value>", k.Name)
	}
}

// Five numbers are asked, each with a default that would do, and at both ends of what
// would do there is a plan; where it does not hold, it says so.
func TestTheEndsOfEveryNumber(t *testing.T) {
	ready, all := 0, 0
	for _, k := range kinds.All() {
		b := bench(t, k, rig.StepPlayer, true)
		require.Len(t, k.Questions(b, nil), 5, k.Name)
		for _, q := range k.Questions(b, nil) {
			assert.NotEmpty(t, q.Ask)
			for _, text := range []string{q.Default, q.Least, q.Most} {
				_, err := k.Check(b, q.Name, text, nil)
				require.NoError(t, err, "%s %s %s", k.Name, q.Name, text)
				j, _ := planned(t, k, b, kinds.Answers{q.Name: text})
				all++
				h := j.Headline()
				if h.Ready() {
					ready++
					continue
				}
				assert.Contains(t, []string{"READY, BUT", "NOT READY"}, h.Stamp)
				assert.NotEmpty(t, h.Words)
			}
		}
	}
	assert.Greater(t, 2*ready, all, "most of what may be answered holds")
}

// Whatever is answered within what would do, there is a file that reads and a plan of it.
func TestAnyAnswersReadAndPlan(t *testing.T) {
	many.Check(t, 20, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds.All()).Draw(t, "kind")
		table := !withoutTable(k) || rapid.Bool().Draw(t, "table")
		b := bench(t, k, rig.StepPlayer, table)
		answers := kinds.Answers{}
		for _, q := range k.Questions(b, nil) {
			low, high := q.Bounds()
			x := rapid.Float64Range(low, high).Draw(t, q.Name)
			text := fmt.Sprintf("%.3f", x)
			if q.Whole {
				text = fmt.Sprintf("%.0f", x)
			}
			text, err := k.Check(b, q.Name, text, answers)
			if err != nil { // a thousandth may be outside, and two ends may meet
				continue
			}
			answers[q.Name] = text
		}
		text, err := k.Make(b, answers, "../rigs/my rig.toml", false)
		if err != nil { // an end that was left out may meet the other
			require.ErrorContains(t, err, "from the other end")
			return
		}
		s, err := shot.Decode(k.ShotName(), text, nil)
		require.NoError(t, err, "%s", text)
		require.Equal(t, "../rigs/my rig.toml", s.RigFile)
		_, err = job.Plan(s, b.Rig, false)
		var list fault.List
		if err != nil {
			require.True(t, errors.As(err, &list), "%v", err)
		}
	})
}

// numbered is a bench whose rail is called otherwise and stands elsewhere.
func numbered(t *testing.T, text string) kinds.Bench {
	t.Helper()
	r, _, err := rig.Decode("mine.toml", []byte(text+"[controller]\nkind = \"step-player\"\n"))
	require.NoError(t, err)
	return kinds.BenchOf(r, true)
}

const (
	slider = "rig = \"Mine\"\n[axis.slider]\nletter = \"X\"\ntravel = [\"-150 mm\", \"-20 mm\"]\nhome = \"-150 mm\"\nspeed = \"300 mm/s\"\nacceleration = \"3000 mm/s2\"\nsteps = \"80 per mm\"\n"
	plate  = "[axis.plate]\nkind = \"rotary\"\nletter = \"Y\"\ntravel = \"endless\"\nspeed = \"90 deg/s\"\nacceleration = \"180 deg/s2\"\nsteps = \"160 per deg\"\n"
	pan    = "[axis.pan]\nkind = \"rotary\"\nletter = \"Z\"\ntravel = [\"-90 deg\", \"90 deg\"]\nspeed = \"90 deg/s\"\nacceleration = \"180 deg/s2\"\nsteps = \"160 per deg\"\n"
)

// On another rig the axes are those of that rig, and the ends lie within its travel.
func TestOnAnotherRig(t *testing.T) {
	b := numbered(t, slider+plate+pan)
	assert.Equal(t, "slider", b.Rail.Name)
	assert.Equal(t, "plate", b.Table)
	for _, k := range kinds.All() {
		if k.Name == "display-stand" {
			assert.ErrorContains(t, k.Suits(b), `display-stand needs a stand that turns by itself, and the rig "Mine" states none: add [stand.display]`)
			continue
		}
		j, s := planned(t, k, b, nil)
		_, slides := s.Axis("slider")
		assert.True(t, slides, k.Name)
		assert.NotEqual(t, "NOT READY", j.Headline().Stamp, "%s: %s", k.Name, j.Headline().Words)
	}
	b = numbered(t, slider+pan)
	assert.Empty(t, b.Table, "a pan is no turntable")
	for _, k := range kinds.All() {
		err := k.Suits(b)
		switch {
		case k.Name == "display-stand":
		case withoutTable(k):
			assert.NoError(t, err, k.Name)
		default:
			assert.ErrorContains(t, err, k.Name+" needs a turntable, an axis that turns without an end")
		}
	}
	b = numbered(t, "rig = \"Mine\"\n"+plate)
	for _, k := range kinds.All() {
		err := k.Suits(b)
		switch {
		case k.Name == "display-stand":
		case withoutTable(k):
			assert.ErrorContains(t, err, `needs an axis that slides, and the rig "Mine" has only plate`)
		default:
			require.NoError(t, err)
			_, s := planned(t, k, b, nil)
			assert.Len(t, s.Axes, 1, "it does without a rail")
		}
	}
}

// What would not do is told with what would.
func TestWhatWouldNotDo(t *testing.T) {
	for _, c := range []struct{ kind, name, text, want string }{
		{"there-and-back", "capture", "", "119.88 would do, from 23.976 to 240"},
		{"there-and-back", "capture", "500", `"500" must be from 23.976 to 240`},
		{"there-and-back", "loop", "1.5 frames", `"1.5 frames" must be a whole number of frames`},
		{"there-and-back", "loop", "6 mm", "it must be"},
		{"there-and-back", "loop", "1", `"1 s" must be from 2 s to 60 s`},
		{"there-and-back", "from", "401", `"401 mm" must be from 0 mm to 400 mm`},
		{"there-and-back", "hole", "3", "there-and-back asks for no hole; it asks for capture, loop, from, to, distance"},
		{"label", "magnification", "2:0", "divides by zero"},
		{"label", "magnification", "2:1", `"2:1" must be from 1:5 to 1:1`},
		{"turntable", "faces", "2.5", `"2.5" must be a whole number`},
		{"turntable", "faces", "two", "6 would do, from 1 to 24"},
		{"time-lapse", "interval", "0.1", `"0.1 s" must be from 1 s to 60 s`},
	} {
		k, ok := kinds.Named(c.kind)
		require.True(t, ok)
		_, err := k.Check(bench(t, k, rig.Buffered, true), c.name, c.text, nil)
		assert.ErrorContains(t, err, c.want, "%s %s %q", c.kind, c.name, c.text)
	}
	k, _ := kinds.Named("pass")
	text, err := k.Check(bench(t, k, rig.Buffered, true), "loop", " 144 frames ", nil)
	require.NoError(t, err)
	assert.Equal(t, "144 frames", text)
	_, err = k.Make(bench(t, k, rig.Buffered, true), kinds.Answers{"hole": "3 mm"}, "r", true)
	assert.ErrorContains(t, err, "pass asks for no hole")
	for given, want := range map[string]string{
		"from 339.5": `from: "339.5 mm" must be at least 1 mm from the other end, 340 mm`,
		"to 60.5":    `to: "60.5 mm" must be at least 1 mm from the other end, 60 mm`,
	} {
		name, text, _ := strings.Cut(given, " ")
		_, err := k.Make(bench(t, k, rig.Buffered, true), kinds.Answers{name: text}, "r", true)
		assert.EqualError(t, err, want, "the one that was given is to blame")
	}
	_, err = k.Make(bench(t, k, rig.Buffered, true), kinds.Answers{"from": "70", "to": "70"}, "r", true)
	assert.ErrorContains(t, err, `to: "70 mm" must be at least`)
	_, ok := kinds.Named("spiral")
	assert.False(t, ok)
}

// The numbers stand in the file as they were given, and what follows from them with them:
// the lens comes as near as was asked, whichever way the carriage goes for that.
func TestWhatFollowsFromTheNumbers(t *testing.T) {
	k, _ := kinds.Named("there-and-back")
	for _, ends := range [][2]string{{"40 mm", "120 mm"}, {"120 mm", "40 mm"}} {
		j, s := planned(t, k, bench(t, k, rig.StepPlayer, true), kinds.Answers{"from": ends[0], "to": ends[1], "distance": "500", "capture": "100"})
		assert.Equal(t, "100", s.Clock.Capture.String())
		v, ok := j.Picture.Find("clearance")
		require.True(t, ok)
		assert.InDelta(t, 500-45-30, v.Figures[0].Value, 1e-6, "to the lantern's corner, from the front of the lens")
	}
	k, _ = kinds.Named("label")
	for m, want := range map[string]float64{"1:1": 1, "1:2": .5, "0.25": .25} {
		j, _ := planned(t, k, bench(t, k, rig.StepPlayer, true), kinds.Answers{"magnification": m})
		v, ok := j.Picture.Find("magnification")
		require.True(t, ok)
		assert.InDelta(t, want, v.Figures[0].Value, 1e-3, m)
	}
	k, _ = kinds.Named("out-of-dark")
	for _, hole := range []string{"80 mm", "100 mm", "120 mm"} {
		j, _ := planned(t, k, bench(t, k, rig.StepPlayer, true), kinds.Answers{"hole": hole})
		v, ok := j.Picture.Find("dark at the seam")
		require.True(t, ok)
		assert.Equal(t, "good", v.Level.String(), "%s: %s", hole, v.Text)
		assert.NoError(t, j.Trouble(), "the lens passes a hole of %s", hole)
	}
}

// A kind is a file of shots and a line of the list, and has a row in the guide, where
// somebody chooses among them.
func TestEveryKindHasItsFileAndItsRow(t *testing.T) {
	files, err := filepath.Glob("shots/*.tmpl")
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		if name := strings.TrimSuffix(filepath.Base(f), ".tmpl"); name != "pieces" {
			names = append(names, name)
		}
	}
	assert.ElementsMatch(t, names, kinds.Names())
	assert.GreaterOrEqual(t, len(names), 9)
	chapter, err := os.ReadFile("../../guide/chapters/first-loop.md")
	require.NoError(t, err)
	for _, k := range kinds.All() {
		_, rest, found := strings.Cut(string(chapter), "\n| `"+k.Name+"` | ")
		require.True(t, found, "%s has no row in the chapter first-loop", k.Name)
		row, _, _ := strings.Cut(rest, "\n")
		for _, q := range k.Questions(kinds.Bench{}, nil) {
			assert.Contains(t, row, "`--"+q.Name+"`", "%s asks for it", k.Name)
		}
	}
}

// On a display stand the loop follows from the rate and the faces: it comes round to
// within half a captured frame, unless another is asked for.
func TestTheLoopSuitsTheStand(t *testing.T) {
	k, _ := kinds.Named("display-stand")
	b := bench(t, k, rig.StepPlayer, true)
	for _, a := range []kinds.Answers{nil, {"capture": "240"}, {"capture": "23.976", "faces": "4"}, {"faces": "1"}, {"capture": "59.94", "faces": "24"}} {
		j, _ := planned(t, k, b, a)
		require.Len(t, j.Plan.Stands, 1)
		s := j.Plan.Stands[0]
		halfFrame := 360 / s.Speed.Period.Float() / j.Plan.Loop.Clock.Capture.Float() / 2
		assert.LessOrEqual(t, 360*s.Seam.Error.Abs().Float(), halfFrame*(1+1e-9), "%v: %s", a, j.Plan.Loop.Asked)
		assert.GreaterOrEqual(t, j.Plan.Loop.Screen, int64(96))
	}
	j, _ := planned(t, k, b, kinds.Answers{"loop": "100 frames"})
	assert.EqualValues(t, 100, j.Plan.Loop.Screen)
}

// What the notes of a file say holds whatever is answered, and with no table too: they
// tell no number that an answer takes the place of.
func TestNotesHoldWhateverIsAnswered(t *testing.T) {
	for _, k := range kinds.All() {
		for _, table := range []bool{true, false} {
			if !table && !withoutTable(k) {
				continue
			}
			text, err := k.Make(bench(t, k, rig.Buffered, table), nil, starter.RigName, true)
			require.NoError(t, err)
			for _, told := range []string{"six panes", "sixth", "A picture every two", "five times as many", "1/6 goes", "the next face turning"} {
				assert.NotContains(t, string(text), told, "%s, with a table: %t", k.Name, table)
			}
		}
	}
}

// On a shorter rail a pass is filmed from nearer, so that the lantern is out of the picture
// as it begins: 120 mm aside and 260 away, a corner 45 to the side of the axis is seen at
// atan(75/260), 16.1 degrees, and the lens, in focus at 221 mm, sees 18/64.6, 15.6 to a
// side; from 270 it would be 15.5 beside 15.7. By hand.
func TestAPassOnAShortRailIsNearer(t *testing.T) {
	k, _ := kinds.Named("pass")
	for travel, want := range map[string]string{"400 mm": "300 mm", "300 mm": "260 mm", "100 mm": "250 mm"} {
		text := strings.Replace(string(starter.RigWith(rig.Buffered)), `["0 mm", "400 mm"]`, `["0 mm", "`+travel+`"]`, 1)
		r, _, err := rig.Decode(starter.RigName, []byte(text))
		require.NoError(t, err)
		questions := k.Questions(kinds.BenchOf(r, true), nil)
		assert.Equal(t, want, questions[4].Default, travel)
	}
}
