package source_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
)

func TestSet(t *testing.T) {
	const text = "# head\ntitle = 'old'  # note\none = { from = \"a\", to = 3 } # in line\n" +
		"[axis.rail] # rail\n  from = 1_000\n  to = \"\"\"x\ny\"\"\" # long\n[[keys]]\nfrom = 1\n[[keys]]\nfrom = 2\nto=\"é\"#end"
	for _, c := range []struct{ path, value, old, new string }{
		{"title", "new", "'old'", `"new"`},
		{"title", `say "so" \ `, "'old'", `"say \"so\" \\ "`},
		{"title", "7", "'old'", `"7"`},
		{"one.from", "60 mm", `"a"`, `"60 mm"`},
		{"one.to", "3.25", "3 }", "3.25 }"},
		{"one.to", "3 mm", "3 }", `"3 mm" }`},
		{"axis.rail.from", "-7", "1_000", "-7"},
		{"axis.rail.to", "z", "\"\"\"x\ny\"\"\"", `"z"`},
		{"keys[1].from", "9", "from = 1\n", "from = 9\n"},
		{"keys[2].from", "9", "from = 2\n", "from = 9\n"},
		{"keys[2].to", "t\tu", `"é"`, `"t\u0009u"`},
		{"axis.rail.law", "3-4-5", "# rail\n", "# rail\nlaw = \"3-4-5\"\n"},
		{"keys[1].to", "2", "[[keys]]\nfrom = 1", "[[keys]]\nto = \"2\"\nfrom = 1"},
		{`axis."a.b".from`, "2 deg", "#end", "#end\n\n[axis.\"a.b\"]\nfrom = \"2 deg\"\n"},
		{`axis.rail."le ft"`, "x", "# rail\n", "# rail\n\"le ft\" = \"x\"\n"},
		{"axis.table.from", "2 deg", "#end", "#end\n\n[axis.table]\nfrom = \"2 deg\"\n"},
	} {
		t.Run(c.path+" "+c.value, func(t *testing.T) {
			require.Contains(t, text, c.old)
			out, err := source.Set("f.toml", []byte(text), c.path, c.value)
			require.NoError(t, err)
			assert.Equal(t, strings.Replace(text, c.old, c.new, 1), string(out))
		})
	}
}

func TestSetKeepsMarkAndWindowsLines(t *testing.T) {
	out, err := source.Set("f", []byte("\ufefftitle = \"a\"\r\n[axis.rail]\r\nfrom = 1\r\n"), "axis.rail.to", "b")
	require.NoError(t, err)
	assert.Equal(t, "\ufefftitle = \"a\"\r\n[axis.rail]\r\nto = \"b\"\r\nfrom = 1\r\n", string(out))
	out, err = source.Set("f", []byte("\ufefftitle = \"a\"\r\n"), "title", "é")
	require.NoError(t, err)
	assert.Equal(t, "\ufefftitle = \"é\"\r\n", string(out))
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, path, want string }{
		{"no TOML", "title = ", "title", "f:1:"},
		{"a table for a value", "[axis.rail]\nfrom = 1", "axis.rail", `f: axis.rail "v" has no place`},
		{"a list for a value", "ends = [1, 2]", "ends", `f: ends "v" has no place`},
		{"inside a value", "title = 1", "title.x", `f: title.x "v" has no place`},
		{"no such item", "ends = [1, 2]", "ends[3]", `f: ends[3] "v" has no place`},
		{"into a table in a line", "[axis]\nrail = { from = 1 }", "axis.rail.to", `f: axis rail: to "v" has no place`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := source.Set("f", []byte(c.text), c.path, "v")
			var list fault.List
			require.ErrorAs(t, err, &list)
			assert.True(t, strings.HasPrefix(err.Error(), c.want), err.Error())
		})
	}
}

// pieces of a document, of which any order and choice is one.
var pieces = []string{
	"# a note with = and \"quotes\"\n", "\n", "   \n", "on = true # not it\n", "ends = [\n  \"x\", # one\n  'y',\n]\n",
}

// Whatever is around a value stays as it is, byte by byte, and the value is
// what it was set to.
func TestSetChangesTheValueAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		around := rapid.SliceOfNDistinct(rapid.SampledFrom(pieces), 0, len(pieces), rapid.ID[string]).Draw(t, "before")
		old := rapid.SampledFrom([]string{`"a"`, `'b'`, "3", "-1.5", `"""c` + "\n" + `d"""`, "'''\ne'''", `"\u00e9"`, "1_000", "0x1f"}).Draw(t, "old")
		gap := rapid.SampledFrom([]string{"=", " = ", "\t=  "}).Draw(t, "gap")
		end := rapid.SampledFrom([]string{"", "  # why", "\n", "\r\n", "\n[one]\nfrom = 3 # of one\n[[keys]]\n"}).Draw(t, "end")
		text := rapid.StringN(0, 20, 60).Filter(func(s string) bool {
			return !strings.ContainsRune(s, 0) && !strings.ContainsRune(s, '\ufffd')
		}).Draw(t, "text")
		before := strings.Join(around, "") + "title" + gap
		out, err := source.Set("f", []byte(before+old+end), "title", text)
		require.NoError(t, err)
		require.True(t, strings.HasPrefix(string(out), before), "%q", out)
		require.True(t, strings.HasSuffix(string(out), end), "%q", out)
		var d document
		report := &source.Report{File: "f"}
		require.True(t, source.Read(out, nil, &d, report), fmt.Sprint(report.Faults))
		require.Empty(t, report.Faults)
		require.Equal(t, text, d.Title.Written())
	})
}

func FuzzSet(f *testing.F) {
	f.Add("title = 1\n[axis.rail]\nfrom = 2", "axis.rail.from", "x")
	f.Add("keys = [{from = 1}]", "keys[1].from", "\"")
	f.Fuzz(func(t *testing.T, text, path, value string) {
		out, err := source.Set("f", []byte(text), path, value)
		if err != nil {
			return
		}
		again, err := source.Set("f", out, path, value)
		require.NoError(t, err)
		assert.Equal(t, string(out), string(again), "a second time changes nothing")
	})
}
