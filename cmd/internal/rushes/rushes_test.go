package rushes_test

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage/against"
)

// The frames of takes that are made here.
const wide, high = 320, 180

// filmed writes a take as YUV4MPEG2: round spots before an uneven wall, moved to the right by so
// many px in each frame, and with grain.
func filmed(t *testing.T, rate string, frames int, at func(frame int) float64, grain float64) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "take.y4m")
	f, err := os.Create(name)
	require.NoError(t, err)
	w := bufio.NewWriter(f)
	fmt.Fprintf(w, "YUV4MPEG2 W%d H%d F%s Ip A1:1 Cmono XCOLORRANGE=FULL\n", wide, high, rate)
	chance := rand.New(rand.NewPCG(7, 7))
	type spot struct{ x, y, size, light float64 }
	var spots []spot
	for range 250 {
		spots = append(spots, spot{(chance.Float64() - 0.5) * 4 * wide, chance.Float64() * high, 3 + 9*chance.Float64(), 90 * (chance.Float64() - 0.4)})
	}
	values, line := make([]float64, wide*high), make([]byte, wide*high)
	for n := range frames {
		for i := range values {
			values[i] = 90 + grain*chance.NormFloat64()
		}
		for _, s := range spots {
			x := s.x + at(n) + wide/2
			for v := max(int(s.y-3*s.size), 0); v < min(int(s.y+3*s.size), high); v++ {
				for u := max(int(x-3*s.size), 0); u < min(int(x+3*s.size), wide); u++ {
					values[v*wide+u] += s.light * math.Exp(-((float64(u)-x)*(float64(u)-x)+(float64(v)-s.y)*(float64(v)-s.y))/(2*s.size*s.size))
				}
			}
		}
		for i, v := range values {
			line[i] = byte(math.Round(min(max(v, 0), 255)))
		}
		_, _ = w.WriteString("FRAME\n")
		_, _ = w.Write(line)
	}
	require.NoError(t, w.Flush())
	require.NoError(t, f.Close())
	return name
}

// macro is a shot of one rail, shorter than its file has it.
func macro(t *testing.T) *job.Job {
	t.Helper()
	j, err := job.Source{Shot: "../../../testdata/shots/macro.toml", Over: []job.Value{{Key: "clock.loop", Text: "1 s"}}}.Job(nil)
	require.NoError(t, err)
	return j
}

// take is a recording of the macro shot in which the picture goes by so many times what is planned,
// from a frame on, a fraction.
func take(t *testing.T, j *job.Job, times, before float64) (against.Plan, *rushes.Take) {
	t.Helper()
	plan := rushes.PlanOf(j, wide)
	rail, whole := plan.Axes[0], float64(plan.Loop)/plan.CaptureRate.Float()*float64(plan.Rounds)
	name := filmed(t, "120:1", int(plan.Loop)*plan.Rounds+40, func(n int) float64 {
		s := min(max((float64(n)-before)/plan.CaptureRate.Float(), 0), whole)
		return times * rail.Gain.X * (rail.At(s) - rail.At(0))
	}, 3)
	out, err := rushes.Look(context.Background(), name, rushes.Options{})
	require.NoError(t, err)
	return plan, out
}

// A take of a plan is laid on it: where frame 0 is, the scale of the picture, the verdict. The
// lens of the shot goes to the right, so that what it sees goes to the left.
func TestATakeIsItsPlan(t *testing.T) {
	const before = 17.4
	plan, took := take(t, macro(t), 1, before)
	assert.Negative(t, plan.Axes[0].Gain.X)
	assert.InDelta(t, 1920/24.0/3*wide/1920, plan.PxPerMM, 0.02, "1920 px on 24 mm at 1:3, seen in 320")
	r, err := against.Lay(took.Course, plan)
	require.NoError(t, err)
	assert.Equal(t, against.IsPlan, r.Verdict.Kind, r.Verdict.Text)
	assert.InDelta(t, before, r.Frame0.Value, 0.02)
	assert.InDelta(t, plan.PxPerMM, r.Axes[0].PxPerUnit.Value, 0.002)
}

// One that goes the other way, or too far, is not.
func TestATakeIsNotItsPlan(t *testing.T) {
	j := macro(t)
	for times, cause := range map[float64]against.Cause{-1: against.WrongWay, 1.5: against.OtherTravel} {
		plan, took := take(t, j, times, 10)
		r, err := against.Lay(took.Course, plan)
		require.NoError(t, err)
		assert.Equal(t, against.Differs, r.Verdict.Kind, r.Verdict.Text)
		require.NotEmpty(t, r.Verdict.Causes)
		assert.Equal(t, cause, r.Verdict.Causes[0].Cause)
	}
}

// What ends within a frame is looked at up to there, and that is said; what has no frame is refused.
func TestATakeThatEndsEarlyIsLookedAtAsFarAsItGoes(t *testing.T) {
	name := filmed(t, "24000:1001", 10, func(int) float64 { return 0 }, 3)
	whole, err := os.ReadFile(name)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(name, whole[:len(whole)-100], 0o600))
	took, err := rushes.Look(context.Background(), name, rushes.Options{})
	require.NoError(t, err)
	assert.Len(t, took.Course.Frames, 9)
	assert.Error(t, took.Cut)
	assert.Equal(t, "24000/1001", took.Course.About.Rate.String())

	require.NoError(t, os.WriteFile(name, whole[:80], 0o600))
	_, err = rushes.Look(context.Background(), name, rushes.Options{})
	assert.Error(t, err)
}

// Whoever gives up waits for no frame more.
func TestLookingIsGivenUp(t *testing.T) {
	name := filmed(t, "24:1", 30, func(int) float64 { return 0 }, 3)
	ctx, end := context.WithCancel(context.Background())
	seen := 0
	_, err := rushes.Look(ctx, name, rushes.Options{Tell: func(done, _ int) {
		seen = done
		end()
	}})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Less(t, seen, 10)
}
