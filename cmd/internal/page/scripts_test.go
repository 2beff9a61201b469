package page

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// nodeVariable names the folder that npm has put the TypeScript checker into. Where it is
// set, the scripts of the page are checked, and their parts are tested by node itself.
const nodeVariable = "SEAMRAIL_NODE"

func nodeFolder(t *testing.T) string {
	t.Helper()
	folder := os.Getenv(nodeVariable)
	if folder == "" {
		t.Skipf("set %s to a folder that npm has put typescript into; node must be installed", nodeVariable)
	}
	return folder
}

// The scripts keep to what their comments say of types, to the wire and to the parts of
// the page.
func TestTypesOfTheScripts(t *testing.T) {
	checker := exec.Command("node", filepath.Join(nodeFolder(t), "node_modules", "typescript", "bin", "tsc"), "--project", filepath.Join("testdata", "types"), "--pretty", "false")
	out, err := checker.CombinedOutput()
	require.NoError(t, err, string(out))
}

// What the scripts work out by themselves, without a browser.
func TestPartsOfTheScripts(t *testing.T) {
	nodeFolder(t)
	tests, err := filepath.Glob("testdata/unit/*.test.mjs")
	require.NoError(t, err)
	require.NotEmpty(t, tests)
	node := exec.Command("node", append([]string{"--test", "--test-reporter=spec"}, tests...)...)
	node.Stdout, node.Stderr = os.Stdout, os.Stderr
	require.NoError(t, node.Run())
}
