package guide_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/guide"
)

// Every chapter is a file and every file a chapter, and each begins with its title.
func TestChaptersAreTheFiles(t *testing.T) {
	all := guide.Chapters()
	files, err := fs.ReadDir(os.DirFS("chapters"), ".")
	require.NoError(t, err)
	assert.Len(t, files, len(all))
	titles := map[string]bool{}
	for _, c := range all {
		assert.FileExists(t, filepath.Join("chapters", c.Name+".md"))
		assert.Regexp(t, `^# [A-Z][^#\n]+\n\n[^#\n]`, markdown(t, c), c.Name)
		assert.False(t, titles[c.Title()], c.Title())
		titles[c.Title()] = true
		found, ok := guide.Find(c.Name)
		assert.True(t, ok)
		assert.Equal(t, c, found)
		found, ok = guide.Find(strings.ToLower(strings.ReplaceAll(c.Title(), " ", "-")))
		assert.True(t, ok)
		assert.Equal(t, c, found)
		assert.LessOrEqual(t, len(c.Name), 11, "lists have so much room")
	}
	for _, none := range []string{"", "nosuch", "../guide", "first-loop.md", "First-loop"} {
		_, ok := guide.Find(none)
		assert.False(t, ok, none)
	}
	_, ok := guide.On("help")
	assert.False(t, ok)
}

// markdown is a chapter as it is written.
func markdown(t *testing.T, c guide.Chapter) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("chapters", c.Name+".md"))
	require.NoError(t, err)
	return string(text)
}

// Links lead to chapters, and somewhere the guide leads to each but the first.
func TestLinksLeadToChapters(t *testing.T) {
	reached := map[string]bool{"first-loop": true}
	for _, c := range guide.Chapters() {
		for _, m := range regexp.MustCompile(`\]\(([^)]*)\)`).FindAllStringSubmatch(markdown(t, c), -1) {
			name, markdown := strings.CutSuffix(m[1], ".md")
			_, there := guide.Find(name)
			assert.True(t, markdown && there, "%s: %s", c.Name, m[1])
			reached[name] = true
		}
	}
	assert.Greater(t, len(reached), 5)
}

func shown(t *testing.T, c guide.Chapter, width int, colour bool) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, c.Text(&b, width, colour))
	return b.String()
}

var painted = regexp.MustCompile("\x1b\\[[0-9;]*m")

// A chapter keeps to the width it is given, or to 80 characters of a wider one; with its
// colours taken off it is the plain one, which has none, and no other marks of Markdown.
func TestChaptersFitTheTerminal(t *testing.T) {
	for _, c := range guide.Chapters() {
		wide := shown(t, c, 80, false)
		assert.Equal(t, wide, shown(t, c, 200, false))
		assert.Equal(t, wide, painted.ReplaceAllString(shown(t, c, 80, true), ""))
		assert.NotContains(t, wide, "\x1b")
		assert.NotRegexp(t, `\*\*|\]\(|(?m)^#|^\||^>`, wide)
		assert.True(t, strings.HasPrefix(wide, c.Title()+"\n"), c.Name)
		for line := range strings.Lines(wide) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, "%s: %s", c.Name, line)
			assert.Equal(t, strings.TrimRight(line, " \n")+"\n", line)
		}
		code := map[string]bool{}
		fence := false
		for line := range strings.Lines(markdown(t, c)) {
			line = strings.TrimSuffix(line, "\n")
			switch typed, indented := strings.CutPrefix(line, "    "); {
			case strings.HasPrefix(line, "```"):
				fence = !fence
			case fence:
				code["    "+line] = true
			case indented:
				code["    "+typed] = true
			}
		}
		for line := range strings.Lines(shown(t, c, 48, false)) {
			line = strings.TrimSuffix(line, "\n")
			assert.True(t, code[line] || utf8.RuneCountInString(line) <= 48, "%s: %s", c.Name, line)
		}
	}
}

// No word is lost or moved, however narrow it is.
func TestNarrowChaptersSayTheSame(t *testing.T) {
	for _, c := range guide.Chapters() {
		if strings.Contains(markdown(t, c), "\n| ") {
			continue // columns that are folded stand in each other's lines
		}
		want := strings.Fields(shown(t, c, 80, false))
		for _, width := range []int{-3, 0, 20, 37, 79} {
			assert.Equal(t, want, strings.Fields(shown(t, c, width, false)), "%s at %d", c.Name, width)
		}
	}
}

// What is laid out, on a chapter in which everything is.
func TestAChapterLaidOut(t *testing.T) {
	c, ok := guide.Find("driving")
	require.True(t, ok)
	text := shown(t, c, 80, false)
	for _, want := range []string{
		"\nTRY IT WITHOUT A RIG\n\n    seamrail drive my-shot/lantern.toml --virtual --fast --confirmed --takes 2\n\n  A rig",
		"\n  2. It homes, or asks you to bring every axis to the start by hand.\n  3. It goes to the start gently, shows the cautions and waits for the word\n     `clear`.\n",
		"\n  key                 does\n  space, Esc, Ctrl-C  stops: the rig slows down and rests; once more aborts, and\n                      position is lost\n",
		"\n  ! Nothing here is an emergency stop. A real one cuts motor power: have its\n    switch within reach before you begin.\n",
		"The edit (`seamrail help edit`)",
	} {
		assert.Contains(t, text, want)
	}
	assert.Contains(t, shown(t, c, 80, true), "\x1b[1mDriving\x1b[0m\n")
	assert.Contains(t, shown(t, c, 80, true), "\x1b[36m`seamrail ports`\x1b[0m")
}

// As a page it keeps to what the browser lets it do: no style and no script in it.
func TestChaptersAsHTML(t *testing.T) {
	for _, c := range guide.Chapters() {
		var b bytes.Buffer
		require.NoError(t, c.HTML(&b))
		html := b.String()
		assert.Contains(t, html, ">"+c.Title()+"</h1>")
		assert.Equal(t, 1, strings.Count(html, "<h1"), c.Name)
		assert.NotRegexp(t, `style=|<script|javascript:|\.md"|https?://`, html)
		for _, m := range regexp.MustCompile(`href="([^"]*)"`).FindAllStringSubmatch(html, -1) {
			_, there := guide.Find(m[1])
			assert.True(t, there, m[1])
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, fmt.Errorf("no room") }

func TestWhatCannotBeWrittenIsSaid(t *testing.T) {
	c := guide.Chapters()[0]
	assert.ErrorContains(t, c.Text(full{}, 80, true), "no room")
	assert.ErrorContains(t, c.HTML(full{}), "no room")
}
