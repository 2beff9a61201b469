package align_test

import (
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/align"
)

// libraryVariable names a Python that has scikit-image (Debian package python3-skimage).
const libraryVariable = "SEAMRAIL_SKIMAGE"

// How near what corners that are alike say of a shift, a turn and a scale must be: a corner is found
// to some half of a pixel, and some fifty of them over half of a picture agree.
const byFeatures, byFeaturesTurn, byFeaturesScale = 0.5, 0.2, 0.004

// pair is a row of what testdata/library.py writes.
type pair struct {
	photo, kind   string
	laid, library footage.Pose
	features      footage.Pose // by the library too, by another way; not a number where it found none
	seconds       float64
}

func pairsIn(t *testing.T, folder string) []pair {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, "pairs.tsv"))
	require.NoError(t, err)
	var out []pair
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n")[1:] {
		cells := strings.Split(line, "\t")
		require.Len(t, cells, 15)
		var n [13]float64
		for i := range n {
			n[i], err = strconv.ParseFloat(cells[i+2], 64)
			require.NoError(t, err)
		}
		pose := func(at int) footage.Pose {
			return footage.Pose{X: n[at], Y: n[at+1], Turn: n[at+2], Scale: n[at+3]}
		}
		out = append(out, pair{cells[0], cells[1], pose(0), pose(4), pose(9), n[8]})
	}
	return out
}

func greyFile(t *testing.T, name string) footage.Gray {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	decoded, err := png.Decode(f)
	require.NoError(t, err)
	g, ok := decoded.(*image.Gray)
	require.True(t, ok)
	out := footage.NewGray(g.Rect.Dx(), g.Rect.Dy())
	for n, v := range g.Pix {
		out.Pix[n] = float32(v) / 255
	}
	return out
}

// Photographs that another library has laid, and what it finds of them itself: true, found by us,
// found by it, and how long each took.
func TestPhotographsAreLaidAsALibraryLaysThem(t *testing.T) {
	python := os.Getenv(libraryVariable)
	if python == "" {
		t.Skipf("set %s to a Python that has scikit-image", libraryVariable)
	}
	folder := t.TempDir()
	said, err := exec.Command(python, "testdata/library.py", folder).CombinedOutput()
	require.NoError(t, err, string(said))
	pairs := pairsIn(t, folder)
	require.GreaterOrEqual(t, len(pairs), 50)
	var ours, theirs, took, takes float64
	shifts, agreed := 0, 0
	fmt.Println("photograph  kind    laid x, y, turn, scale            off by: here; in the library     s: here; there")
	for n, p := range pairs {
		a, b := greyFile(t, filepath.Join(folder, fmt.Sprintf("%03da.png", n))), greyFile(t, filepath.Join(folder, fmt.Sprintf("%03db.png", n)))
		began := time.Now()
		got := align.On(align.Prepare(a), align.Prepare(b), nil)
		seconds := time.Since(began).Seconds()
		require.True(t, got.Known, "%+v", p)
		off, other := math.Hypot(got.X-p.laid.X, got.Y-p.laid.Y), math.Hypot(p.library.X-p.laid.X, p.library.Y-p.laid.Y)
		fmt.Printf("%-10s  %-6s  %8.3f %8.3f %8.3f %7.4f  %.3f px %.3f° %.5f; %.3f px %.3f° %.5f  %.3f; %.3f\n", p.photo, p.kind, p.laid.X, p.laid.Y, p.laid.Turn, p.laid.Scale,
			off, math.Abs(got.Turn-p.laid.Turn), math.Abs(got.Scale-p.laid.Scale), other, math.Abs(p.library.Turn-p.laid.Turn), math.Abs(p.library.Scale-p.laid.Scale), seconds, p.seconds)
		assertFound(t, p.laid, got)
		took, takes = took+seconds, takes+p.seconds
		if !math.IsNaN(other) {
			ours, theirs, shifts = ours+off*off, theirs+other*other, shifts+1
		} else {
			assert.Less(t, math.Abs(got.Turn-p.laid.Turn), math.Abs(p.library.Turn-p.laid.Turn), "what lays blocks finds a turn better than spectra alone")
			assert.Less(t, math.Abs(got.Scale-p.laid.Scale), math.Abs(p.library.Scale-p.laid.Scale), "and a scale")
			f := p.features
			fmt.Printf("                                                              by features off by %.3f px %.3f° %.5f\n", math.Hypot(f.X-p.laid.X, f.Y-p.laid.Y), math.Abs(f.Turn-p.laid.Turn), math.Abs(f.Scale-p.laid.Scale))
			if !math.IsNaN(f.X) {
				assert.Less(t, math.Hypot(got.X-f.X, got.Y-f.Y), byFeatures, "%+v", p)
				assert.InDelta(t, f.Turn, got.Turn, byFeaturesTurn, "%+v", p)
				assert.InDelta(t, f.Scale, got.Scale, byFeaturesScale, "%+v", p)
				agreed++
			}
		}
	}
	ours, theirs = math.Sqrt(ours/float64(shifts)), math.Sqrt(theirs/float64(shifts))
	fmt.Printf("%d pairs: shifts alone off by %.4f px here, %.4f px in the library, root mean square; %.1f s here, %.1f s there\n", len(pairs), ours, theirs, took, takes)
	assert.Less(t, ours, theirs)
	assert.GreaterOrEqual(t, agreed, 10, "by features too most that are turned are found")
}
