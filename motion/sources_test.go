package motion_test

import (
	"flag"
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each formula names its source beside it, and each source stands once, with its
// number, in a list; nothing is from memory without a word on why.

// sourcesFile is the list; beside it are the texts about values from outside.
const sourcesFile = "../testdata/reference/SOURCES.md"

// silent are the list, and the tests that speak of sources and cite none.
var silent = []string{
	"testdata/reference/SOURCES.md", "motion/sources_test.go", "motion/sourcenumbers_test.go",
}

var update = flag.Bool("update", false, "write anew where each source is used")

// remark is a comment, or a paragraph of a text, in one line, and the words of it.
type remark struct {
	room, file, text string
	words            map[string]bool
}

var word = regexp.MustCompile(`[\pL\pN]+(?:-[\pL\pN]+)*`)

func newRemark(file, text string) remark {
	r := remark{path.Dir(file), file, strings.Join(strings.Fields(text), " "), map[string]bool{}}
	for _, w := range word.FindAllString(r.text, -1) {
		r.words[w] = true
	}
	return r
}

// everyRemark is read once for all tests.
var everyRemark []remark

// remarks are all comments of the tree and all paragraphs about reference values.
func remarks(t *testing.T) []remark {
	t.Helper()
	if everyRemark == nil {
		everyRemark = readRemarks(t)
	}
	require.Greater(t, len(everyRemark), 1000, "comments that were found")
	return everyRemark
}

func readRemarks(t *testing.T) (out []remark) {
	for _, top := range []string{"motion", "export", "plot", "cmd", "testdata/reference"} {
		walk := func(p string, d fs.DirEntry, err error) error {
			name := strings.TrimPrefix(filepath.ToSlash(p), "../")
			if err != nil || d.IsDir() || slices.Contains(silent, name) {
				return err
			}
			for _, text := range said(t, p) {
				out = append(out, newRemark(name, text))
			}
			return nil
		}
		require.NoError(t, filepath.WalkDir(filepath.Join("..", top), walk))
	}
	return out
}

// said are the comments of a Go file, or the paragraphs of a text about values.
func said(t *testing.T, p string) (out []string) {
	switch filepath.Ext(p) {
	case ".go":
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.ParseComments)
		require.NoError(t, err)
		for _, c := range f.Comments {
			out = append(out, c.Text())
		}
	case ".md", ".py":
		if !strings.Contains(filepath.ToSlash(p), "testdata/reference") {
			return nil
		}
		text, err := os.ReadFile(p)
		require.NoError(t, err)
		out = strings.Split(string(text), "\n\n")
	}
	return out
}

// source is a row of the list, and the words of what it is cited as.
type source struct {
	key, title, number, used string
	words                    []string
}

// listed is the list: what stands before its rows, and its rows.
func listed(t *testing.T) (head string, out []source) {
	t.Helper()
	text, err := os.ReadFile(sourcesFile)
	require.NoError(t, err)
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(strings.Trim(line, "|\n"), "|")
		if len(cells) != 4 || strings.Contains(line, "---") || strings.Contains(line, "| cited as |") {
			require.Empty(t, out, "a line among the rows that is none: %q", line)
			head += line
			continue
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		words := word.FindAllString(cells[0], -1)
		out = append(out, source{cells[0], cells[1], cells[2], cells[3], words})
	}
	require.Greater(t, len(out), 50)
	return head, out
}

// cites tells whether a remark has every word of a source's key.
func (s source) cites(r remark) bool {
	return !slices.ContainsFunc(s.words, func(w string) bool { return !r.words[w] })
}

func TestSourcesAreUsedWhereTheListSays(t *testing.T) {
	all := remarks(t)
	head, rows := listed(t)
	written := head
	for _, s := range rows {
		var rooms []string
		for _, r := range all {
			if s.cites(r) {
				rooms = append(rooms, r.room)
			}
		}
		slices.Sort(rooms)
		used := strings.Join(slices.Compact(rooms), ", ")
		assert.NotEmpty(t, used, "nothing rests on %q", s.key)
		if !*update {
			assert.Equal(t, used, s.used, "%q: run with -update", s.key)
		}
		written += fmt.Sprintf("| %s | %s | %s | %s |\n", s.key, s.title, s.number, used)
	}
	if *update {
		require.NoError(t, os.WriteFile(sourcesFile, []byte(written), 0o644))
	}
}

// body is how a number begins: by what it is, or by who gave it.
var body = regexp.MustCompile(`^(DOI |ISBN |ISO |ISO/IEC |IEC |RFC |VDI |W3C |24 FR |ECMA-)\S`)

func TestSourcesStandOnceAndInOrder(t *testing.T) {
	_, rows := listed(t)
	require.True(t, slices.IsSortedFunc(rows, func(a, b source) int {
		return strings.Compare(strings.ToLower(a.key), strings.ToLower(b.key))
	}), "sorted by what they are cited as")
	seen := map[string]string{}
	for _, s := range rows {
		require.NotEmpty(t, s.title, s.key)
		if strings.HasPrefix(s.number, "none: ") {
			continue
		}
		require.Regexp(t, body, s.number, s.key)
		require.Empty(t, seen[s.number], "%s and %s have one number", s.key, seen[s.number])
		seen[s.number] = s.key
	}
}
