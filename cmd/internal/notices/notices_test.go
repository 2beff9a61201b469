package notices

import (
	"cmp"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the notices anew")

// module is one that is linked into the program, as go list tells it.
type module struct {
	Path, Version, Dir string
	Main               bool
}

// linked are the modules of the program, in order. The typeface is one of them.
func linked(t *testing.T) []module {
	t.Helper()
	out, err := exec.Command("go", "list", "-deps", "-json=Module", "seamrail/cmd/seamrail").Output()
	require.NoError(t, err)
	seen := map[string]module{}
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p struct{ Module *module }
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		if m := p.Module; m != nil && !m.Main {
			seen[m.Path] = *m
		}
	}
	var list []module
	for _, m := range seen {
		list = append(list, m)
	}
	slices.SortFunc(list, func(a, b module) int { return cmp.Compare(a.Path, b.Path) })
	return list
}

var licence = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|third_party_licenses)`)

// licences are the texts that a folder has, folders of them too.
func licences(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		path := filepath.Join(dir, e.Name())
		if !licence.MatchString(e.Name()) {
			continue
		}
		inside := []string{path}
		if e.IsDir() {
			inside, err = filepath.Glob(filepath.Join(path, "*"))
			require.NoError(t, err)
		}
		for _, f := range inside {
			if info, err := os.Stat(f); err != nil || info.IsDir() {
				continue
			}
			text, err := os.ReadFile(f)
			require.NoError(t, err)
			out = append(out, fmt.Sprintf("-- %s --\n\n%s\n", filepath.Base(f), strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n"))))
		}
	}
	return out
}

func made(t *testing.T) string {
	_, err := os.ReadFile("../../../go.mod") // so that a kept result does not outlive a change of it
	require.NoError(t, err)
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	own := licences(t, strings.TrimSpace(string(root)))
	require.NotEmpty(t, own)
	text := "What the program carries besides its own, and the terms of it.\n\n==== Go, its standard library ====\n\n" + strings.Join(own, "\n")
	for _, m := range linked(t) {
		terms := licences(t, m.Dir)
		require.NotEmpty(t, terms, "%s has no licence", m.Path)
		text += "\n==== " + m.Path + " " + m.Version + " ====\n\n" + strings.Join(terms, "\n")
	}
	return text
}

// What is linked in is what is told, with its terms; -update tells it anew.
func TestNoticesAreThoseOfWhatIsLinked(t *testing.T) {
	text := made(t)
	if *update {
		require.NoError(t, os.WriteFile("notices.txt", []byte(text), 0o644))
		return
	}
	if text != Text {
		t.Fatal("the notices are not those of the modules that are linked: run go test ./cmd/internal/notices -update, and read what has changed")
	}
}
