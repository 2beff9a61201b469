package page

import (
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// INTERFACE.md tells every question with all that it asks, and none that is not there.
func TestTheInterfaceIsToldAsItIs(t *testing.T) {
	data, err := os.ReadFile("INTERFACE.md")
	require.NoError(t, err)
	rows, w := rowsOf(string(data)), readWire(t)
	asked := maps.Clone(w.questions)
	for path := range w.answers {
		if _, posted := asked[path]; !posted {
			asked[path] = "" // what is asked by GET
		}
	}
	assert.Equal(t, slices.Sorted(maps.Keys(asked)), slices.Sorted(maps.Keys(rows)))
	assert.Contains(t, string(data), "`GET "+guidePath+"`")
	for name := range requests {
		assert.Contains(t, string(data), "`"+name+"`", "a rig is asked it")
	}
	alike := map[string]string{} // rows by what is asked: some say that it is the same
	for path, question := range asked {
		alike[question] += rows[path]
	}
	for question, told := range alike {
		for _, field := range w.fieldsOf(question) {
			assert.Regexp(t, "`"+field+"`", told, "a question asks it")
		}
	}
}

// rowsOf are the lines of the table of questions, by the paths that they are of. That of the
// key is told above the table.
func rowsOf(told string) map[string]string {
	out := map[string]string{}
	path := regexp.MustCompile("`(?:GET |POST )?" + apiPath + "([a-z/-]+)`")
	for line := range strings.Lines(told) {
		if cells := strings.Split(line, "|"); len(cells) >= 4 {
			for _, m := range path.FindAllStringSubmatch(cells[1], -1) {
				out[m[1]] = line
			}
		} else if strings.Contains(line, "`POST "+ticketPath+"`") {
			out["key"] = line
		}
	}
	return out
}

// fieldsOf are the names in a question, as the scripts are told of it.
func (w *wired) fieldsOf(question string) (out []string) {
	name := strings.TrimSuffix(strings.TrimPrefix(question, "Some<"), ">")
	for _, f := range w.structs[name] {
		out = append(out, strings.TrimSuffix(f.name, "?"))
	}
	for _, m := range regexp.MustCompile(`(\w+):`).FindAllStringSubmatch(name, -1) {
		out = append(out, m[1])
	}
	return out
}
