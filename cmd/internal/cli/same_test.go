package cli_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
)

// Two runs of the program, in two processes and not in the same second, write the
// same files to the byte.
func TestFilesAreTheSameFromRunToRun(t *testing.T) {
	many.Long(t)
	names := []string{"sheet.pdf", "sheet.html", "loop.pdf", "loop.svg", "loop.png", "above.pdf", "above.svg", "above.png", "preview.png", "picture.pdf", "plan.json", "motion.glb", "selects.otio"}
	var runs [2]string
	for i := range runs {
		runs[i] = filepath.Join(t.TempDir(), "all")
		cmd := exec.Command("seamrail", "make", "-o", runs[i])
		cmd.Dir = t.TempDir()
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		if began := time.Now().Unix(); i == 0 { // the next run is of another second
			require.Eventually(t, func() bool { return time.Now().Unix() > began }, 5*time.Second, 10*time.Millisecond)
		}
	}
	for _, name := range names {
		first, err := os.ReadFile(filepath.Join(runs[0], name))
		require.NoError(t, err)
		second, err := os.ReadFile(filepath.Join(runs[1], name))
		require.NoError(t, err)
		assert.True(t, string(first) == string(second), name)
	}
}
