package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/rig"
)

type planOf struct {
	Planned
	number int
}

func TestPlansKeepTheLastAskedFor(t *testing.T) {
	var x plans
	r := rig.Rig{Name: "one"}
	for i, text := range []string{"a", "b", "c"} {
		x.keep(text, r, planOf{number: i})
	}
	p, ok := x.of("a", r)
	require.True(t, ok)
	require.Equal(t, planOf{number: 0}, p)
	x.keep("d", r, planOf{number: 3})
	for text, there := range map[string]bool{"a": true, "b": false, "c": true, "d": true} {
		_, ok := x.of(text, r)
		require.Equal(t, there, ok, text)
	}
}

// A rig file that was edited meanwhile makes another plan of the same text.
func TestPlansAreOfTheirRig(t *testing.T) {
	var x plans
	x.keep("a", rig.Rig{Name: "one"}, planOf{})
	_, ok := x.of("a", rig.Rig{Name: "two"})
	require.False(t, ok)
}
