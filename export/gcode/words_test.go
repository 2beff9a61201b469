package gcode

import (
	"bufio"
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// checkComment holds the comments made of s against what readers take: short
// lines of plain characters without parentheses inside.
func checkComment(t require.TestingT, s string, longest int) {
	var b bytes.Buffer
	p := &printer{out: bufio.NewWriter(&b), longest: longest}
	p.comment(s)
	require.NoError(t, p.out.Flush())
	for i, line := range strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n") {
		require.LessOrEqual(t, len(line), longest)
		require.Regexp(t, `^\([ "-'*->@-}]*\)$`, line)
		require.NotRegexp(t, `[!?~%$]`, line)
		if i > 0 {
			require.True(t, strings.HasPrefix(line, "("+continued), line)
		}
	}
}

func TestAnyTextMakesComments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		checkComment(t, rapid.String().Draw(t, "text"), rapid.IntRange(12, 256).Draw(t, "longest"))
	})
}

func FuzzComment(f *testing.F) {
	f.Add("Lantern (brass), 6 panes – 240 mm × 2°", 80)
	f.Add(strings.Repeat("wide ", 90)+"(MSG, hello)%", 20)
	f.Fuzz(func(t *testing.T, s string, longest int) {
		checkComment(t, s, min(max(longest, 12), 256))
	})
}

func TestCommentsKeepTheirWords(t *testing.T) {
	var b bytes.Buffer
	p := &printer{out: bufio.NewWriter(&b), longest: 24}
	p.comment("rail: 80 steps/mm (20 teeth × 2 mm belt)")
	require.NoError(t, p.out.Flush())
	require.Equal(t, "(rail: 80 steps/mm [20)\n(.. teeth x 2 mm belt])\n", b.String())
}
