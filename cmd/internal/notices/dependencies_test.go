package notices

import (
	"encoding/json"
	"os"
	"os/exec"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// untagged is a version that stands for a commit.
var untagged = regexp.MustCompile(`\d{14}-[0-9a-f]{12}$`)

// named is what the table calls a module: the end of its path, without the major version.
func named(module string) string {
	base := path.Base(module)
	if regexp.MustCompile(`^v\d+$`).MatchString(base) {
		base = path.Base(path.Dir(module))
	}
	return base
}

// What is imported has a tag, and its reason in DEVELOPERS.md.
func TestEveryDependencyHasATagAndAReason(t *testing.T) {
	out, err := exec.Command("go", "mod", "edit", "-json", "../../../go.mod").Output()
	require.NoError(t, err)
	var file struct {
		Require []struct {
			Path, Version string
			Indirect      bool
		}
	}
	require.NoError(t, json.Unmarshal(out, &file))
	guide, err := os.ReadFile("../../../DEVELOPERS.md")
	require.NoError(t, err)
	_, table, found := strings.Cut(string(guide), "## Dependencies")
	require.True(t, found)
	table, _, _ = strings.Cut(table, "\n## ")
	direct := 0
	for _, r := range file.Require {
		if r.Indirect {
			continue
		}
		direct++
		assert.NotRegexp(t, untagged, r.Version, r.Path)
		assert.Contains(t, table, "`"+named(r.Path)+"`", "DEVELOPERS.md says why %s is there", r.Path)
	}
	assert.Positive(t, direct)
}
