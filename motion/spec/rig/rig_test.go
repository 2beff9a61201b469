package rig_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
)

const bench = `rig = "Bench"
cautions = ["mind  the cable", "and the cat"]
[controller]
step-rate = "40000 steps/s"
feed = "per-minute"
line-length = 100
decimals = 4
[axis.rail]
kind = "linear"
letter = "x"
travel = ["-10 mm", "40 cm"]
home = "5 mm"
speed = "400 mm/s"
acceleration = "3 m/s2"
jerk = "60000 mm/s3"
belt = { pitch = "2 mm", teeth = 20 }
gear = "1:1"
motor-steps = 200
microsteps = 16
direction = "reverse"
[axis.table]
travel = "endless"
speed = "0.5 turn/s"
acceleration = "180 deg/s2"
gear = "90:1"
microsteps = 8
`

func decode(t *testing.T, text string) (rig.Rig, []rig.Default) {
	t.Helper()
	r, defaults, err := rig.Decode("bench.toml", []byte(text))
	require.NoError(t, err)
	return r, defaults
}

func TestDecode(t *testing.T) {
	r, defaults := decode(t, bench)
	assert.Equal(t, "Bench", r.Name)
	assert.Equal(t, []string{"mind the cable", "and the cat"}, r.Cautions)
	want := rig.Buffered.Defaults()
	want.StepRate, want.Feed, want.LineLength, want.Decimals = 40000, rig.PerMinute, 100, 4
	assert.Contains(t, r.Controller.Filled, "slowest-step-rate")
	assert.NotContains(t, r.Controller.Filled, "step-rate", "which it states")
	r.Controller.Filled = nil
	assert.Equal(t, want, r.Controller)
	assert.Equal(t, []string{"rail", "table"}, r.Names())
	rail, ok := r.Axis("rail")
	require.True(t, ok)
	assert.True(t, rail.StepsPerUnit.Equal(exact.Int(80)))
	rail.StepsPerUnit = exact.Rat{}
	assert.Equal(t, rig.Axis{
		Name: "rail", Kind: rig.Linear, Letter: "X", Min: -10, Max: 400, Home: 5,
		MaxSpeed: 400, MaxAcc: 3000, MaxJerk: 60000, Reverse: true,
		Mechanics: "belt 2 mm x 20 teeth, 200 x 16 microsteps",
		Settings: rig.AxisSettings{
			Acceleration: 3000, Speed: 400, StepsName: "$100", SpeedName: "$110", AccelerationName: "$120", TravelName: "$130",
		},
		Assumed: rig.AssumedSettings{Acceleration: true, Speed: true},
	}, rail)
	table, _ := r.Axis("table")
	assert.Equal(t, rig.Rotary, table.Kind)
	assert.True(t, table.Endless)
	assert.Equal(t, 180., table.MaxSpeed)
	assert.True(t, table.StepsPerTurn().Equal(exact.Int(200*8*90)))
	assert.Equal(t, "gear 90:1, 200 x 8 microsteps", table.Mechanics)
	got := keysAndValues(defaults)
	assert.Contains(t, got[1], "controller path-feed all, degree-as 1 mm, ")
	assert.Contains(t, got[2], "controller.reports step-pulse $0, idle-delay $1, ")
	assert.Equal(t, []string{
		"axis.rail.settings acceleration 3000 mm/s2, speed 400 mm/s",
		"axis.table.kind rotary", "axis.table.home 0 deg", "axis.table.home-line none", "axis.table.jerk no limit",
		"axis.table.direction forward", "axis.table.motor-steps 200",
		"axis.table.settings acceleration 180 deg/s2, speed 180 deg/s", "axis.table.letter A",
		"axis.rail.reports steps $100, speed $110, acceleration $120, travel $130",
		"axis.table.reports steps $103, speed $113, acceleration $123, travel $133",
	}, got[3:])
	_, ok = r.Axis("boom")
	assert.False(t, ok)
}

func keysAndValues(defaults []rig.Default) []string {
	var out []string
	for _, d := range defaults {
		out = append(out, d.Key+" "+d.Value)
	}
	return out
}

// one is a rig of one axis with the lines given for its steps.
func one(travel, speed, steps string) string {
	unit := strings.Fields(strings.Trim(speed, `"`))[1]
	return "[axis.a]\ntravel = " + travel + "\nspeed = " + speed + "\nacceleration = \"5 " + unit + "2\"\n" + steps + "\n"
}

// Steps by hand: motor steps x microsteps x gear over a turn's travel.
func TestMechanics(t *testing.T) {
	const line, round = `["0 mm", "10 mm"]`, `"endless"`
	for _, c := range []struct {
		name, travel, speed, steps, want string
	}{
		{"screw", line, `"5 mm/s"`, "screw = { lead = \"8 mm\" }\nmicrosteps = 16", "400"},
		{"inch screw", line, `"5 mm/s"`, "screw = { lead = \"1/10 in\" }\nmicrosteps = 1", "10000/127"},
		{"belt and gear", line, `"5 mm/s"`, "belt = { pitch = \"3 mm\", teeth = 7 }\nmicrosteps = 4\ngear = \"5:2\"\nmotor-steps = 400", "4000/21"},
		{"stated", line, `"5 mm/s"`, `steps = "80 per mm"`, "80"},
		{"stated as a fraction", line, `"5 mm/s"`, `steps = "200/3 steps/mm"`, "200/3"},
		{"a turn", round, `"5 deg/s"`, `steps = "3200 per turn"`, "80/9"},
		{"a degree", round, `"5 deg/s"`, `steps = "160.5 steps per deg"`, "321/2"},
		{"straight motor", round, `"5 deg/s"`, `microsteps = 9`, "5"},
		{"geared down", round, `"5 deg/s"`, "microsteps = 16\ngear = \"17.5:1\"", "1400/9"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, _ := decode(t, one(c.travel, c.speed, c.steps))
			assert.Equal(t, c.want, r.Axes[0].StepsPerUnit.String())
			assert.NotEmpty(t, r.Axes[0].Mechanics)
		})
	}
}

func TestLettersAreGivenInOrder(t *testing.T) {
	r, _ := decode(t, one(`["0 mm", "10 mm"]`, `"5 mm/s"`, `steps = "1 per mm"`)+
		strings.ReplaceAll(one(`["0 mm", "10 mm"]`, `"5 mm/s"`, "steps = \"1 per mm\"\nletter = \"X\""), "axis.a", "axis.b")+
		strings.ReplaceAll(one(`"endless"`, `"5 deg/s"`, `steps = "1 per deg"`), "axis.a", "axis.c"))
	assert.Equal(t, "Y", r.Axes[0].Letter)
	assert.Equal(t, "X", r.Axes[1].Letter)
	assert.Equal(t, "A", r.Axes[2].Letter)
}

func TestHomeIsTheNearestToNought(t *testing.T) {
	for travel, want := range map[string]float64{`["5 mm", "10 mm"]`: 5, `["-9 mm", "-2 mm"]`: -2, `["-1 mm", "1 mm"]`: 0} {
		r, _ := decode(t, one(travel, `"5 mm/s"`, `steps = "1 per mm"`))
		assert.Equal(t, want, r.Axes[0].Home, travel)
	}
}

func TestAxisHelpers(t *testing.T) {
	a := rig.Axis{Kind: rig.Linear, Min: -1, Max: 3, MaxSpeed: 100, StepsPerUnit: exact.Int(80)}
	assert.Equal(t, 100., a.SpeedCap(0))
	assert.Equal(t, 50., a.SpeedCap(4000))
	assert.Equal(t, 100., a.SpeedCap(80000))
	assert.Equal(t, 4., a.Travel())
	assert.True(t, a.Contains(-1) && a.Contains(3))
	assert.False(t, a.Contains(3.001) || a.Contains(math.NaN()))
	assert.Panics(t, func() { a.StepsPerTurn() })
	assert.Equal(t, "mm", a.Unit())
	round := rig.Axis{Kind: rig.Rotary, Endless: true}
	assert.True(t, math.IsInf(round.Travel(), 1) && round.Contains(1e6))
	assert.Equal(t, "deg", round.Unit())
}

// Play that is not stated is not the same as none.
func TestBacklash(t *testing.T) {
	r, _ := decode(t, strings.Replace(bench, "microsteps = 16\n", "microsteps = 16\nbacklash = \"0.05 mm\"\n", 1))
	rail, _ := r.Axis("rail")
	require.NotNil(t, rail.Backlash)
	assert.InDelta(t, 0.05, *rail.Backlash, 1e-15)
	table, _ := r.Axis("table")
	assert.Nil(t, table.Backlash)
}

// What has to be read before each take is bounded.
func TestCautionsAreFewAndShort(t *testing.T) {
	list := func(n int, text string) string {
		return "cautions = [" + strings.Repeat("\""+text+"\",", n) + "]\n"
	}
	for cautions, want := range map[string]string{
		list(33, "mind"):                        "b:1:1: cautions (33 of them) must be at most 32",
		list(1, strings.Repeat("x", 401)):       "of 401 characters must have at most 400",
		list(100_000, "x"):                      "has more than 5000 keys, tables and values in lists",
		list(32, strings.Repeat("\u00e9", 400)): "",
	} {
		_, _, err := rig.Decode("b", []byte(cautions+plainAxis))
		if want == "" {
			assert.NoError(t, err)
			continue
		}
		assert.ErrorContains(t, err, want)
	}
}
