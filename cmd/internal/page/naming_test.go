package page

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// unfitNames are names that nothing is called, each with a word of why.
var unfitNames = map[string]string{
	"": "blanks alone", " ": "blanks alone", "\t": "blanks alone", "a//b": "blanks alone",
	"a\nb": "line breaks", "a\x00b": "line breaks", "a\u202eb": "line breaks", "a\u2028b": "line breaks",
	" a": "begins nor ends", "a ": "begins nor ends", "a /b": "begins nor ends",
	".a": "hidden", "..": "hidden", "sub/.a.toml": "hidden", ".": "hidden",
	"a.": "does not end with a point", "a:b": "some systems cannot write", `a\b`: "some systems cannot write", "what?": "some systems cannot write",
	"con": "device", "NUL.toml": "device", "com1.a.toml": "device", "Aux .toml": "device",
	strings.Repeat("a", longestName+1): "at most 200", strings.Repeat("ä", longestName/2+1): "at most 200",
}

func TestUnfitNames(t *testing.T) {
	for name, why := range unfitNames {
		assert.Contains(t, unfit(name), why, "%q", name)
	}
	for _, name := range []string{"lantern.toml", "näher & ferner.toml", "a b.toml", "a.b.c", "day/one.toml", "console.toml", "com.toml", "com10.toml", "-a", strings.Repeat("a", longestName)} {
		assert.Empty(t, unfit(name), name)
	}
}

func TestANewNameStaysBesideItsShot(t *testing.T) {
	for typed, want := range map[string]string{"near": "day/near.toml", "near.toml": "day/near.toml", "a.b": "day/a.b.toml"} {
		name, err := newName("day/far.toml", typed)
		require.NoError(t, err)
		assert.Equal(t, want, name)
	}
	for typed, why := range map[string]string{"a/b": "no folder", "../b": "hidden", strings.Repeat("a", longestName): "at most 200"} {
		_, err := newName("day/far.toml", typed)
		assert.ErrorContains(t, err, why, typed)
	}
}

// Wherever the page takes a name for something new, an unfit one is refused with words
// and nothing is made.
func TestUnfitNamesAreRefusedEverywhere(t *testing.T) {
	s, dir := opened(t)
	before, err := os.ReadDir(dir)
	require.NoError(t, err)
	for name, why := range unfitNames {
		for path, q := range map[string]any{
			"/api/save-as": saveAsQuestion{name, "x"},
			"/api/rename":  nameQuestion{name},
			"/api/begin":   asBegun("pass", name),
			"/api/rig/new": newRigQuestion{name + ".toml", string(starter.Rig())},
			"/api/make":    makeQuestion{string(starter.Shot()), name},
		} {
			if path == "/api/rig/new" && unfit(name+".toml") == "" {
				continue // it is no such name with its ending
			}
			w := posted(s, path, q)
			require.GreaterOrEqual(t, w.Code, http.StatusBadRequest, "%s %q", path, name)
			assert.NotContains(t, w.Body.String(), `"error":""`, "%s %q", path, name)
		}
		w := posted(s, "/api/name", nameQuestion{name})
		assert.Contains(t, w.Body.String(), why, "%q", name)
	}
	after, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, after, len(before), "nothing was made")
	for _, name := range []string{"a\nb.toml", " ", "\u202elmot.toml"} {
		_, err := inside(name)
		assert.Error(t, err, "%q", name)
	}
	assert.NoFileExists(t, filepath.Join(dir, "a\nb"))
}
