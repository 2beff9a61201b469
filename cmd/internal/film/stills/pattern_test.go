package stills_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/film/stills"
)

func TestPatterns(t *testing.T) {
	for _, c := range []struct {
		pattern, name string
		number        string // the part of the name; "-" where it is none of the pattern's
	}{
		{"lantern_%04d.png", "lantern_0012.png", "0012"},
		{"lantern_%04d.png", "lantern_12345.png", "12345"},
		{"lantern_%04d.png", "lantern_012.png", "-"},
		{"lantern_%04d.png", "lantern_01234.png", "-"},
		{"lantern_%04d.png", "a_lantern_0012.png", "-"},
		{"lantern_%04d.png", "lantern_0012.png.tif", "-"},
		{"%d.png", "7.png", "7"},
		{"%d.png", "07.png", "-"},
		{"%d.png", "0.png", "0"},
		{"%01d.png", "10.png", "10"},
		{"*.png", "a.png", ""},
		{"*.png", ".png", ""},
		{"*.png", "a.jpg", "-"},
		{"*_%03d*", "b_c_007_x.tif", "007"},
		{"a?.p[n]g", "a?.p[n]g", ""},
		{"a?.png", "ab.png", "-"},
		{"50%%_%d.png", "50%_3.png", "3"},
		{"", "", ""},
		{"a\n*", "a\nb\nc", ""},
	} {
		p, err := stills.ParsePattern(c.pattern)
		require.NoError(t, err)
		from, to, ok := p.Match(c.name)
		if c.number == "-" {
			assert.False(t, ok, "%q is none of %q", c.name, c.pattern)
			continue
		}
		require.True(t, ok, "%q is one of %q", c.name, c.pattern)
		assert.Equal(t, c.number, c.name[from:to])
	}
}

func TestPatternsRefused(t *testing.T) {
	for pattern, want := range map[string]string{
		"a%.png":                 `"%.png" is no number; write %d, or %04d`,
		"a%":                     `"%" is no number`,
		"%s":                     `"%s" is no number`,
		"%4d":                    `"%4d" is no number`,
		"%00d":                   `"%00d" is no number`,
		"%019d":                  "1 to 18 digits",
		"%0999999999999999999d":  "is no number",
		"%04d_%04d":              "has 2 numbers; have one, and * for the others",
		"%0-4d":                  "is no number",
		strings.Repeat("a", 256): "pattern of 256 bytes must have at most 255",
		"\xff":                   "is no name of a file",
	} {
		_, err := stills.ParsePattern(pattern)
		assert.ErrorContains(t, err, want, "%q", pattern)
	}
}

func FuzzPattern(f *testing.F) {
	for _, seed := range [][2]string{{"lantern_%04d.png", "lantern_0012.png"}, {"*a*a*a*b", strings.Repeat("a", 200)}, {"%%%d*", "%7x"}, {"(\\d+", "(1"}} {
		f.Add(seed[0], seed[1])
	}
	f.Fuzz(func(t *testing.T, pattern, name string) {
		p, err := stills.ParsePattern(pattern)
		if err != nil {
			return
		}
		from, to, ok := p.Match(name)
		if ok && !p.Many {
			require.Equal(t, strings.ReplaceAll(pattern, "%%", "%"), name)
		}
		for _, r := range name[from:to] {
			require.True(t, r >= '0' && r <= '9')
		}
	})
}

// What printf writes, the pattern that it was written with knows again.
func TestPatternsKnowWhatPrintfWrites(t *testing.T) {
	for _, pattern := range []string{"%d", "a%d.png", "%01d", "%02d", "x%03dy", "%018d", "7%04d7"} {
		p, err := stills.ParsePattern(pattern)
		require.NoError(t, err)
		for _, n := range []int{0, 1, 9, 10, 99, 100, 1234, 99999} {
			name := fmt.Sprintf(pattern, n)
			from, to, ok := p.Match(name)
			require.True(t, ok, name)
			var got int
			_, err := fmt.Sscan(strings.TrimLeft(name[from:to-1], "0")+name[to-1:to], &got)
			require.NoError(t, err)
			assert.Equal(t, n, got)
		}
	}
}
