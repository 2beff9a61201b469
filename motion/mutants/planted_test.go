package mutants_test

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// planted is a module of one package: what is held of it, and what is not.
var planted = map[string]string{
	"go.mod": "module planted\n\ngo 1.26\n",
	"ramp/ramp.go": `package ramp

import "math"

// Length is held by its test.
func Length(speed, acc float64) float64 {
	return speed * speed / (2 * acc)
}

// Fits is not, where it is just as long as there is room.
func Fits(length, room float64) bool {
	if length > room {
		return false
	}
	return math.Min(length, room) >= 0
}
`,
	"ramp/ramp_test.go": `package ramp

import "testing"

func TestLength(t *testing.T) {
	if got := Length(200, 1000); got != 20 {
		t.Fatalf("200 mm/s at 1000 mm/s2 want 20 mm, not %g", got)
	}
}

func TestFits(t *testing.T) {
	if !Fits(20, 30) || Fits(30, 20) {
		t.Fatal("20 mm fit into 30 and not the other way")
	}
}
`,
}

// TestThePlantedAreFound: whatever is held dies, what is not survives, and what does
// not compile is neither.
func TestThePlantedAreFound(t *testing.T) {
	root := t.TempDir()
	for name, text := range planted {
		where := filepath.Join(root, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(where), 0o755))
		require.NoError(t, os.WriteFile(where, []byte(text), 0o600))
	}
	r := room{folder: "ramp"}
	list, err := r.sitesOf(root)
	require.NoError(t, err)
	var picked []site
	var want []fate
	for _, x := range []struct {
		line int
		was  string
		with string // where it is none that would be tried
		want fate
	}{
		{7, "*", "", killed},
		{12, ">", "", survived}, // the edge
		{13, "return false", "", killed},
		{15, "Min", "", survived},
		{15, "Min", "Mean", stillborn},
	} {
		i := slices.IndexFunc(list, func(s site) bool { return s.line == x.line && s.was == x.was })
		require.GreaterOrEqual(t, i, 0, "line %d: %s is not tried", x.line, x.was)
		s := list[i]
		s.with = cmp.Or(x.with, s.with)
		picked, want = append(picked, s), append(want, x.want)
	}
	got, err := r.tryAll(root, picked, sideBySide)
	require.NoError(t, err)
	for i, f := range got {
		assert.Equal(t, fates[want[i]], fates[f], "%s", picked[i])
	}
	src, err := os.ReadFile(filepath.Join(root, "ramp/ramp.go"))
	require.NoError(t, err)
	assert.Equal(t, planted["ramp/ramp.go"], string(src), "no file is touched")
}

// TestWhatIsTried: each kind of change, in the order of the file.
func TestWhatIsTried(t *testing.T) {
	src := "package p\n\nfunc f(a, b int) bool {\n\tif a < b && !(a == 3) {\n\t\ta = -b + min(1, a)\n\t}\n\treturn true\n}\n"
	list, err := sites("p.go", []byte(src))
	require.NoError(t, err)
	var got []string
	for _, s := range list {
		got = append(got, s.was+" becomes "+s.with)
	}
	assert.Equal(t, []string{
		"a < b && !(a == 3) becomes !(a < b && !(a == 3))", "&& becomes ||", "< becomes <=", "! becomes ", "== becomes !=", "3 becomes 4",
		"a = -b + min(1, a) becomes ", "+ becomes -", "- becomes ", "min becomes max", "1 becomes 2", "true becomes false",
	}, got)
}

// TestTwinsAreOfLinesThatAre: what is said to do the same is a change that is tried; a
// line that has changed is to be thought about anew.
func TestTwinsAreOfLinesThatAre(t *testing.T) {
	list := map[string][]site{}
	for _, r := range rooms {
		all, err := r.sitesOf("../..")
		require.NoError(t, err)
		for _, s := range all {
			list[s.file] = append(list[s.file], s)
		}
	}
	for _, e := range twins {
		assert.True(t, slices.ContainsFunc(list[e.file], e.is), "%s: %s, %s becomes %s", e.file, e.text, e.was, brief(e.with))
		assert.NotEmpty(t, e.why)
	}
}
