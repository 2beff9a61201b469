package page

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/evanw/esbuild/pkg/api"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// entries are the scripts that pages name. The program carries them with all that they import
// put into them: a browser asks for a module once it has read another that imports it, and
// some eighty of them take longer than all the rest of a first picture. What two pages share
// is a script of its own.
var entries = []string{"script/again.js", "script/main.js", "script/shelf.js"}

// joinedOf are the scripts by their names, put together of the modules in a folder; what is
// wrong where they do not fit together.
func joinedOf(t *testing.T, folder string) (map[string]string, []api.Message) {
	t.Helper()
	folder, err := filepath.Abs(folder)
	require.NoError(t, err)
	built := api.Build(api.BuildOptions{
		EntryPoints: entries, AbsWorkingDir: folder, Outdir: "joined",
		Bundle: true, Splitting: true, Format: api.FormatESModule, Target: api.ESNext, Charset: api.CharsetUTF8,
	})
	out, shared := map[string]string{}, []string{}
	for _, f := range built.OutputFiles {
		name := filepath.Base(f.Path)
		if out[name] = string(f.Contents); !slices.Contains(entries, "script/"+name) {
			shared = append(shared, name)
		}
	}
	// What is shared is named by its place: a name that its text decides is another file each time.
	slices.Sort(shared)
	for n, name := range shared {
		named := fmt.Sprintf("shared-%d.js", n+1)
		out[named] = out[name]
		delete(out, name)
		for of := range out {
			out[of] = strings.ReplaceAll(out[of], "./"+name, "./"+named)
		}
	}
	return out, append(built.Errors, built.Warnings...)
}

// What the program carries is what the modules are; -update joins them anew.
func TestScriptsAreJoinedAsTheyAre(t *testing.T) {
	scripts, wrong := joinedOf(t, "site")
	require.Empty(t, wrong)
	folder := filepath.Join("site", "joined")
	if *update {
		require.NoError(t, os.RemoveAll(folder))
		require.NoError(t, os.MkdirAll(folder, 0o755))
		for name, text := range scripts {
			require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
		}
	}
	there, err := fs.Glob(os.DirFS(folder), "*")
	require.NoError(t, err)
	assert.Equal(t, slices.Sorted(maps.Keys(scripts)), there)
	for _, name := range there {
		have, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		assert.True(t, string(have) == scripts[name], "go test ./cmd/internal/page -run Joined -update writes %s anew", name)
	}
}

var (
	moduleIn   = regexp.MustCompile(`(?m)^// (\S+\.js)$`)
	fromScript = regexp.MustCompile(`(?m)^(?:\} from|import(?: \{.*\} from)?) "\./([^"]+)";$`)
)

// A module that was there twice would hold its own state twice.
func TestEachModuleIsThereOnce(t *testing.T) {
	scripts, _ := joinedOf(t, "site")
	var found []string
	for name, text := range scripts {
		for _, m := range moduleIn.FindAllStringSubmatch(text, -1) {
			found = append(found, m[1])
		}
		for _, m := range fromScript.FindAllStringSubmatch(text, -1) {
			assert.Contains(t, scripts, m[1], name)
		}
	}
	var written []string
	eachSource(t, func(name, _ string) {
		if strings.HasSuffix(name, ".js") {
			written = append(written, name)
		}
	})
	slices.Sort(found)
	assert.Equal(t, written, found)
	assert.Less(t, len(scripts), 2*len(entries), "a browser asks for each")
}

// What has a rig back is there before the page is, and waits for little.
func TestWhatIsLoadedFirstIsSmall(t *testing.T) {
	scripts, _ := joinedOf(t, "site")
	seen, size := map[string]bool{}, 0
	var with func(name string)
	with = func(name string) {
		if seen[name] {
			return
		}
		seen[name], size = true, size+len(scripts[name])
		for _, m := range fromScript.FindAllStringSubmatch(scripts[name], -1) {
			with(m[1])
		}
	}
	with("again.js")
	assert.Greater(t, len(seen), 1, "it shares with the page what is said to the program")
	assert.Greater(t, size, 1_000)
	assert.Less(t, 5*size, len(scripts["main.js"]))
}

// What does not fit together is told.
func TestModulesThatDoNotFitAreToldOf(t *testing.T) {
	for name, text := range map[string]string{
		"none":    "",
		"shapes":  `export const at = ;`,
		"exports": `export const nothing = 1;`,
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			require.NoError(t, os.CopyFS(folder, os.DirFS("site")))
			one := filepath.Join(folder, "script", "make.js")
			require.NoError(t, os.Remove(one))
			if text != "" {
				require.NoError(t, os.WriteFile(one, []byte(text), 0o644))
			}
			_, wrong := joinedOf(t, folder)
			assert.NotEmpty(t, wrong)
		})
	}
}
