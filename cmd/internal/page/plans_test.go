package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

func TestPlansKeepTheLastAskedFor(t *testing.T) {
	var x plans
	r := rig.Rig{Name: "one"}
	first := &job.Job{}
	x.keep("a", r, first)
	for _, text := range []string{"b", "c"} {
		x.keep(text, r, &job.Job{})
	}
	p, ok := x.of(shot.Laid{}, "a", r)
	require.True(t, ok)
	require.Same(t, first, p)
	x.keep("d", r, &job.Job{})
	for text, there := range map[string]bool{"a": true, "b": false, "c": true, "d": true} {
		_, ok := x.of(shot.Laid{}, text, r)
		require.Equal(t, there, ok, text)
	}
}

// A rig file that was edited meanwhile makes another plan of the same text.
func TestPlansAreOfTheirRig(t *testing.T) {
	var x plans
	x.keep("a", rig.Rig{Name: "one"}, &job.Job{})
	_, ok := x.of(shot.Laid{}, "a", rig.Rig{Name: "two"})
	require.False(t, ok)
}

// So does a set-up that was edited.
func TestPlansAreOfWhatLiesUnderThem(t *testing.T) {
	var x plans
	r, under := rig.Rig{Name: "one"}, func(value string) shot.Laid {
		return shot.Laid{Values: []source.Leaf{{Path: "camera.iso", Text: source.Text{Text: value, File: "table.toml", Set: true}}}}
	}
	x.keep("a", r, &job.Job{Shot: shot.Shot{Laid: under("800")}})
	_, ok := x.of(under("800"), "a", r)
	require.True(t, ok)
	_, ok = x.of(under("1600"), "a", r)
	require.False(t, ok)
}
