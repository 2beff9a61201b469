package rig_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

const handRig = `rig = "r"
[controller]
kind = "two-ends"
[controller.buttons]
times = TIMES
MORE
[controller.ramp]
RAMP
[axis.rail]
travel = ["0 mm", "400 mm"]
speed = "none"
acceleration = "none"
AXIS
`

func handed(times, more, ramp, axis string) string {
	or := func(a, b string) string {
		if a == "" {
			return b
		}
		return a
	}
	return strings.NewReplacer("TIMES", or(times, `"2 s to 60 s in steps of 0.5 s"`), "MORE", more,
		"RAMP", or(ramp, "law = \"trapezoidal\"\nshare = \"1/5\""), "AXIS", axis).Replace(handRig)
}

// Rows and single values are read exactly, in any units.
func TestWhatButtonsOffer(t *testing.T) {
	r, defaults, err := rig.Decode("r.toml", []byte(handed(`["1 s", "2 s to 3 s in steps of 1/3 s", "1500 ms"]`, `round-trips = ["2 to 4", "endless"]`, "", `stops = "0 mm to 400 mm in steps of 2.5 cm"`)))
	require.NoError(t, err)
	b := r.Controller.Buttons
	assert.False(t, r.Controller.Kind.Driven())
	assert.Equal(t, []string{"1", "2", "7/3", "8/3", "3", "3/2"}, texts(b.Times))
	assert.Equal(t, "1 s, 2 s to 3 s in steps of 0.333333 s, 1.5 s", b.Times.Words(unit.Time))
	assert.Equal(t, []string{"0"}, texts(b.Pauses))
	assert.True(t, b.Trips.Endless && b.Trips.Offers(77) && !b.Trips.ByHand)
	assert.Equal(t, []string{"2", "3", "4"}, texts(b.Trips.Counts))
	assert.Len(t, texts(r.Axes[0].Stops), 17)
	assert.Nil(t, r.Axes[0].Distances)
	assert.Zero(t, r.Axes[0].StepsPerUnit.Sign(), "nobody knows its steps")
	assert.Empty(t, r.Axes[0].Letter)
	assert.False(t, b.Measured())
	var keys []string
	for _, d := range defaults {
		keys = append(keys, d.Key)
	}
	assert.Contains(t, keys, "controller.buttons.measured")
	assert.NotContains(t, strings.Join(keys, " "), "baud")
}

func texts(o rig.Offers) (out []string) {
	for v := range o.All() {
		out = append(out, v.String())
	}
	return out
}

// Its clock against a stopwatch: of one reading the ratio itself, known to two presses.
func TestItsClock(t *testing.T) {
	r, _, err := rig.Decode("r.toml", []byte(handed("", `measured = ["20 rounds of 24 s in 482.1 s", "10 rounds of 24 s in 241.05 s"]`, "", "")))
	require.NoError(t, err)
	b := r.Controller.Buttons
	assert.InDelta(t, 482.1/480, b.Pace.Float(), 1e-9)
	assert.Equal(t, "30 rounds by stopwatch in 2 readings", b.Basis)
	// Weights as the squares of the times: both together know as much as 480 and 240 s do.
	assert.InDelta(t, 0.1*1.41421356/536.656, b.Spread.Float(), 1e-7)
}

func TestButtonFaults(t *testing.T) {
	for _, c := range []struct{ times, more, ramp, axis, want string }{
		{`[]`, "", "", "", "controller.buttons.times must have a value"},
		{`"9 s to 2 s in steps of 1 s"`, "", "", "", "must end above where it begins"},
		{`"1 s to 9 s in steps of 0 s"`, "", "", "", "must have a step above 0"},
		{`"1 s to 80000 s in steps of 0.1 s"`, "", "", "", "799991 values must be at most 10000; larger steps would do"},
		{`"100000 s"`, "", "", "", "must be at most 86400 s"},
		{`"2 mm"`, "", "", "", `"2 mm"`},
		{"", `round-trips = "1.5"`, "", "", "must be in whole numbers"},
		{"", `round-trips = "0"`, "", "", "must be at least 1"},
		{"", `round-trips = []`, "", "", "round-trips must have a value"},
		{"", `measured = "twenty rounds"`, "", "", `measured "twenty rounds" is no reading; such as "20 rounds of 24 s in 482.1 s"`},
		{"", `measured = "0 rounds of 24 s in 482.1 s"`, "", "", "must have numbers above 0"},
		{"", `measured = []`, "", "", "measured must have a line"},
		{"", `lag = "200 min"`, "", "", "must be from 0 s to 3600 s"},
		{"", "", "law = \"trapezoidal\"", "", "controller.ramp.time is missing"},
		{"", "", "time = \"1 s\"", "", "controller.ramp.law is missing"},
		{"", "", "law = \"trapezoidal\"\ntime = \"0 s\"", "", "time \"0 s\" must be above 0 s"},
		{"", "", "law = \"trapezoidal\"\nshare = \"2/3\"", "", "must be above 0 and at most 1/2"},
		{"", "", "law = \"trapezoidal\"\nshare = \"1/3\"\ntime = \"1 s\"", "", "says what time says already"},
		{"", "", "law = \"3-4-5\"\nshare = \"1/3\"", "", "means nothing for the 3-4-5 law, which has no ramps of its own"},
		{"", "", "law = \"trapezoidal\"\nshare = \"1/3\"\njerk-share = \"1/4\"", "", "jerk-share \"1/4\" means nothing for the trapezoidal law"},
		{"", "", "law = \"seven-segment\"\nshare = \"1/3\"", "", "jerk-share is missing"},
		{"", "", "", `motor-steps = 200`, "axis rail: motor-steps is of no use: a two-ends rig is set and started by hand"},
		{"", "", "", `distances = "1 mm to 3 mm"`, "must be a value, or a first, a last and a step"},
	} {
		_, _, err := rig.Decode("r.toml", []byte(handed(c.times, c.more, c.ramp, c.axis)))
		require.Error(t, err, c.want)
		assert.Contains(t, err.Error(), c.want)
	}
	_, _, err := rig.Decode("r.toml", []byte("[controller]\nkind = \"two-ends\"\n[axis.rail]\ntravel = [\"0 mm\", \"9 mm\"]\nspeed = \"none\"\nacceleration = \"none\"\n"))
	require.ErrorContains(t, err, "controller.buttons is missing")
	require.ErrorContains(t, err, "controller.ramp is missing")
}

// What is next to a value is what a search through all finds.
func TestNearestOffers(t *testing.T) {
	many.Check(t, 50, func(t *rapid.T) {
		var o rig.Offers
		for range rapid.IntRange(1, 3).Draw(t, "rows") {
			from, step, n := rapid.Int64Range(0, 50).Draw(t, "from"), rapid.Int64Range(1, 7).Draw(t, "step"), rapid.Int64Range(0, 9).Draw(t, "n")
			o = append(o, rig.Row{From: exact.New(from, 2), To: exact.New(from+n*step, 2), Step: exact.New(step, 2)})
		}
		v := exact.New(rapid.Int64Range(-10, 200).Draw(t, "v"), 3)
		all := slices.SortedFunc(o.All(), exact.Rat.Cmp)
		var want []string
		if i, there := slices.BinarySearchFunc(all, v, exact.Rat.Cmp); there {
			want = []string{v.String()}
		} else {
			for _, k := range []int{i - 1, i} {
				if k >= 0 && k < len(all) {
					want = append(want, all[k].String())
				}
			}
		}
		var got []string
		for _, x := range o.Nearest(v) {
			got = append(got, x.String())
		}
		require.Equal(t, want, got, fmt.Sprint(o, v))
		require.Equal(t, len(want) == 1 && want[0] == v.String(), o.Has(v))
	})
}
