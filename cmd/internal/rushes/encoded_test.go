package rushes_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage/against"
)

// encodedVariable asks for what needs ffmpeg, with its encoders and its decoder.
const encodedVariable = "SEAMRAIL_FFMPEG"

// encoding is how a film is encoded, and with what.
type encoding struct {
	name, file string
	bits       int
	bar        float64 // of frame 0, in frames
	with       []string
}

// encodings are how a camera or a program for films may have encoded a take: at ordinary and bad
// quality, in 8 and 10 bits.
var encodings = []encoding{
	{"H.264", "ordinary.mp4", 8, frame0Clean, []string{"-c:v", "libx264", "-crf", "20", "-pix_fmt", "yuv420p"}},
	{"H.264, bad", "bad.mp4", 8, frame0Bad, []string{"-c:v", "libx264", "-crf", "40", "-pix_fmt", "yuv420p"}},
	{"HEVC, 10 bit", "ten.mp4", 10, frame0Clean, []string{"-c:v", "libx265", "-x265-params", "log-level=error", "-crf", "24", "-pix_fmt", "yuv420p10le"}},
	{"HEVC, 10 bit, bad", "ten-bad.mp4", 10, frame0Bad, []string{"-c:v", "libx265", "-x265-params", "log-level=error", "-crf", "40", "-pix_fmt", "yuv420p10le"}},
	{"Motion JPEG, bad", "bad.mov", 8, frame0Bad, []string{"-c:v", "mjpeg", "-q:v", "25", "-pix_fmt", "yuvj420p"}},
	{"FFV1", "lossless.mkv", 8, frame0Clean, []string{"-c:v", "ffv1", "-pix_fmt", "gray"}},
}

// lookEncoded is about a take that was encoded, with some grain of a sensor: it tells what it told
// before.
func lookEncoded(t *testing.T, o ordered, rendered string, all *table) {
	if os.Getenv(encodedVariable) == "" {
		t.Logf("not encoded: set %s to 1 where ffmpeg is installed", encodedVariable)
		return
	}
	raw := spoiling{grain: 2}.spoilt(t, rendered)
	for _, e := range encodings {
		out := encoded(t, raw, e)
		took := decoded(t, out)
		r, err := against.Lay(took.Course, o.plan)
		require.NoError(t, err, e.name)
		info, err := os.Stat(out)
		require.NoError(t, err)
		t.Logf("%s, %d kB: %s", e.name, info.Size()/1000, r.Verdict.Text)
		all.count(e.name, "frames", float64(o.frames), float64(len(took.Course.Frames)), 0)
		all.count(e.name, "frames a second", o.plan.CaptureRate.Float(), took.Course.About.Rate.Float(), 0)
		all.count(e.name, "bits", float64(e.bits), float64(took.Course.About.Bits), 0)
		all.add(e.name, "frame 0", o.zero, r.Frame0.Number, e.bar)
		all.add(e.name, "px a mm", o.px, r.Axes[0].PxPerUnit, scaleShare*o.px)
		if e.bar == frame0Clean {
			all.yes(e.name, "is the plan", r.Verdict.Kind == against.IsPlan)
		} else { // it may not be known well enough
			all.yes(e.name, "is not called another", r.Verdict.Kind != against.Differs)
		}
	}
}

// encoded is a film encoded so.
func encoded(t *testing.T, film string, e encoding) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), e.file)
	said, err := exec.Command("ffmpeg", append(append([]string{"-v", "error", "-i", film}, e.with...), out)...).CombinedOutput()
	require.NoError(t, err, "%s: %s", e.name, said)
	return out
}

// decoded is a film looked through that may need the decoder.
func decoded(t *testing.T, name string) *rushes.Take {
	t.Helper()
	took, err := rushes.Look(context.Background(), name, rushes.Options{Film: film.Options{Decoder: exec.LookPath}})
	require.NoError(t, err, name)
	require.NoError(t, took.Cut, name)
	return took
}
