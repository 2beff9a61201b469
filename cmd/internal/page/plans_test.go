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
	x.keep("a", r, first, whole)
	for _, text := range []string{"b", "c", "e"} {
		x.keep(text, r, &job.Job{}, whole)
	}
	p, ok := x.of(shot.Laid{}, "a", r, whole)
	require.True(t, ok)
	require.Same(t, first, p)
	x.keep("d", r, &job.Job{}, whole)
	for text, there := range map[string]bool{"a": true, "b": false, "c": true, "d": true, "e": true} {
		_, ok := x.of(shot.Laid{}, text, r, whole)
		require.Equal(t, there, ok, text)
	}
}

// A rig file that was edited meanwhile makes another plan of the same text.
func TestPlansAreOfTheirRig(t *testing.T) {
	var x plans
	x.keep("a", rig.Rig{Name: "one"}, &job.Job{}, whole)
	_, ok := x.of(shot.Laid{}, "a", rig.Rig{Name: "two"}, whole)
	require.False(t, ok)
}

// So does a set-up that was edited.
func TestPlansAreOfWhatLiesUnderThem(t *testing.T) {
	var x plans
	r, under := rig.Rig{Name: "one"}, func(value string) shot.Laid {
		return shot.Laid{Values: []source.Leaf{{Path: "camera.iso", Text: source.Text{Text: value, File: "table.toml", Set: true}}}}
	}
	x.keep("a", r, &job.Job{Shot: shot.Shot{Laid: under("800")}}, whole)
	_, ok := x.of(under("800"), "a", r, whole)
	require.True(t, ok)
	_, ok = x.of(under("1600"), "a", r, whole)
	require.False(t, ok)
}

// A plan that was looked at further answers for one that need not be, never the other
// way round, and takes its place.
func TestPlansAreAsDeepAsIsAsked(t *testing.T) {
	var x plans
	r := rig.Rig{Name: "one"}
	x.keep("a", r, &job.Job{}, sketched)
	_, ok := x.of(shot.Laid{}, "a", r, whole)
	require.False(t, ok)
	_, ok = x.of(shot.Laid{}, "a", r, posed)
	require.True(t, ok)
	all := &job.Job{}
	x.keep("a", r, all, whole)
	require.Len(t, x.kept, 1)
	p, ok := x.of(shot.Laid{}, "a", r, sketched)
	require.True(t, ok)
	require.Same(t, all, p)
	x.keep("a", r, &job.Job{}, posed)
	p, _ = x.of(shot.Laid{}, "a", r, whole)
	require.Same(t, all, p)
}
