package page_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// browserVariable names the folder that npm has put puppeteer-core into, which
// drives a browser over its debugging port, and axe-core, which checks pages
// against the W3C's WCAG 2.
const browserVariable = "SEAMRAIL_CHROMIUM"

// The page in Debian's Chromium: the scripts are in testdata/browser. They print
// what they measured.
func TestBrowser(t *testing.T) {
	folder := os.Getenv(browserVariable)
	if folder == "" {
		t.Skipf("set %s to a folder with puppeteer-core and axe-core in it; Chromium must be installed", browserVariable)
	}
	demo := t.TempDir()
	program := filepath.Join(t.TempDir(), "seamrail")
	command(t, "go", "build", "-o", program, "seamrail/cmd/seamrail")
	command(t, program, "new", demo)

	scripts, err := filepath.Glob("testdata/browser/*.test.mjs")
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	// One after the other: some time what is on the screen, and in others a page has to say in
	// time that it is there, or the rig stops.
	node := exec.Command("node", append([]string{"--test", "--test-concurrency=1", "--test-reporter=spec"}, scripts...)...)
	node.Env = append(os.Environ(), "SEAMRAIL_PROGRAM="+program, "SEAMRAIL_DEMO="+demo)
	node.Stdout, node.Stderr = os.Stdout, os.Stderr
	require.NoError(t, node.Run())
}

func command(t *testing.T, name string, args ...string) {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, string(out))
}
