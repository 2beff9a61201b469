package fault_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/fault"
)

func TestString(t *testing.T) {
	for want, f := range map[string]fault.Fault{
		"speed": {Quantity: "speed"},
		"lantern.toml:7:9: axis rail: speed 312 mm/s must be at most 200 mm/s at 1.42 s on screen, frame 34; a loop of 7.2 s would do": {
			File: "lantern.toml", Line: 7, Column: 9, Axis: "rail", Quantity: "speed", Value: "312 mm/s",
			Bound: "must be at most 200 mm/s", Where: "at 1.42 s on screen, frame 34", Fit: "a loop of 7.2 s would do",
		},
		"--from: axis rail: from 3 deg": {File: "--from", Axis: "rail", Quantity: "from", Value: "3 deg"},
		"a.toml:3: clock.loop 6":        {File: "a.toml", Line: 3, Quantity: "clock.loop", Value: "6"},
		"a.toml: clock.loop":            {File: "a.toml", Column: 4, Quantity: "clock.loop"},
		"loop; 6 s":                     {Line: 4, Column: 4, Quantity: "loop", Fit: "6 s"},
	} {
		assert.Equal(t, want, f.String())
	}
}

func TestErr(t *testing.T) {
	assert.NoError(t, fault.List(nil).Err())
	assert.NoError(t, fault.List{}.Err())
	err := fault.List{{File: "b", Quantity: "y"}, {File: "a", Quantity: "x"}}.Err()
	require.EqualError(t, err, "a: x\nb: y")
	var list fault.List
	require.True(t, errors.As(err, &list))
	assert.Len(t, list, 2)
}

func TestSortedGoesByPlaceFirst(t *testing.T) {
	want := fault.List{
		{File: "a", Line: 2, Column: 9, Axis: "z", Quantity: "q"},
		{File: "a", Line: 10, Column: 1, Axis: "b", Quantity: "q"},
		{File: "a", Line: 10, Column: 2, Axis: "a", Quantity: "q"},
		{File: "a", Line: 10, Column: 2, Axis: "b", Quantity: "p"},
		{File: "a", Line: 10, Column: 2, Axis: "b", Quantity: "q", Value: "1"},
		{File: "a", Line: 10, Column: 2, Axis: "b", Quantity: "q", Value: "2"},
		{File: "b", Line: 1, Quantity: "a"},
	}
	backwards := slices.Clone(want)
	slices.Reverse(backwards)
	assert.Equal(t, want, backwards.Sorted())
	assert.Equal(t, "b", backwards[0].File, "Sorted leaves the list alone")
}

// However the faults were found, the error reads the same, a line a fault.
func TestErrorDoesNotDependOnOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"a", "b", "c"})
		list := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) fault.Fault {
			return fault.Fault{
				File: word.Draw(t, "file"), Line: rapid.IntRange(0, 3).Draw(t, "line"),
				Axis: word.Draw(t, "axis"), Quantity: word.Draw(t, "quantity"), Value: word.Draw(t, "value"),
			}
		}), 1, 8).Draw(t, "faults")
		shuffled := rapid.Permutation(list).Draw(t, "shuffled")
		first, second := fault.List(list).Error(), fault.List(shuffled).Error()
		assert.Equal(t, first, second)
		assert.Equal(t, len(list), len(strings.Split(first, "\n")))
	})
}
