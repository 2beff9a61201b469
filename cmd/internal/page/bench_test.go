package page

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

func demoPlanned(b *testing.B) *job.Job {
	s, err := shot.Decode("", starter.Shot(), nil)
	require.NoError(b, err)
	r, _, err := rig.Decode("", starter.Rig())
	require.NoError(b, err)
	p, err := job.Plan(s, r, false)
	require.NoError(b, err)
	return p
}

// BenchmarkPagePlan is what each step of a drag waits for.
func BenchmarkPagePlan(b *testing.B) {
	for b.Loop() {
		demoPlanned(b)
	}
}

// BenchmarkPagePreview draws the whole loop at the width the page asks first,
// on every processor.
func BenchmarkPagePreview(b *testing.B) {
	f, _, err := format.Finder(demoPlanned(b), 240, false)
	require.NoError(b, err)
	for b.Loop() {
		todo, done := make(chan int64), make(chan struct{})
		for range runtime.GOMAXPROCS(0) {
			go func() {
				for k := range todo {
					f.Frame(k)
				}
				done <- struct{}{}
			}()
		}
		for k := range f.Frames() {
			todo <- k
		}
		close(todo)
		for range runtime.GOMAXPROCS(0) {
			<-done
		}
	}
}
