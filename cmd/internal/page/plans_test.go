package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/motion/spec/rig"
)

func TestPlansKeepTheLastAskedFor(t *testing.T) {
	var x plans
	r := rig.Rig{Name: "one"}
	first := &job.Job{}
	x.keep("a", r, first)
	for _, text := range []string{"b", "c"} {
		x.keep(text, r, &job.Job{})
	}
	p, ok := x.of("a", r)
	require.True(t, ok)
	require.Same(t, first, p)
	x.keep("d", r, &job.Job{})
	for text, there := range map[string]bool{"a": true, "b": false, "c": true, "d": true} {
		_, ok := x.of(text, r)
		require.Equal(t, there, ok, text)
	}
}

// A rig file that was edited meanwhile makes another plan of the same text.
func TestPlansAreOfTheirRig(t *testing.T) {
	var x plans
	x.keep("a", rig.Rig{Name: "one"}, &job.Job{})
	_, ok := x.of("a", rig.Rig{Name: "two"})
	require.False(t, ok)
}
