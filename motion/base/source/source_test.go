package source_test

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
)

type inner struct {
	Place source.Place `toml:"-"`
	From  source.Text  `toml:"from"`
	To    source.Text  `toml:"to"`
}

type document struct {
	Place source.Place     `toml:"-"`
	Title source.Text      `toml:"title"`
	On    source.Switch    `toml:"on"`
	Ends  source.Texts     `toml:"ends"`
	One   *inner           `toml:"one"`
	Axis  map[string]inner `toml:"axis"`
	Keys  []inner          `toml:"keys"`
}

type outer struct {
	Title source.Text `toml:"title"`
	Shared
}

// Shared is exported so that its fields can be set through the struct that
// embeds it.
type Shared struct {
	Name source.Text `toml:"name"`
}

func read(t *testing.T, text string, over ...source.Override) (document, fault.List) {
	t.Helper()
	var d document
	report := &source.Report{File: "f.toml"}
	source.Read([]byte(text), over, &d, report)
	return d, report.Faults
}

func at(line, column int, text string) source.Text {
	return source.Text{Text: text, Line: line, Column: column, Set: true}
}

func TestEveryValueHasItsPlace(t *testing.T) {
	d, faults := read(t, strings.Join([]string{
		`title = "a"`,
		`on = true`,
		`ends = ["x",`,
		`  12]`,
		`one.from = 1_000`,
		`[axis.rail]`,
		`  "from" = "é" # note`,
		`  to = 0x10`,
		`[[keys]]`,
		`from = 1.50`,
		`[[keys]]`,
		`to = 'z'`,
	}, "\n"))
	require.Empty(t, faults)
	assert.Equal(t, at(1, 9, "a"), d.Title)
	assert.Equal(t, source.Switch{On: true, Line: 2, Column: 6, Set: true}, d.On)
	assert.Equal(t, []source.Text{at(3, 9, "x"), at(4, 3, "12")}, d.Ends.Items)
	assert.False(t, d.Ends.Single)
	assert.Equal(t, at(5, 12, "1000"), d.One.From)
	assert.Equal(t, source.Place{Line: 6, Column: 7}, d.Axis["rail"].Place)
	assert.Equal(t, at(7, 12, "é"), d.Axis["rail"].From)
	assert.Equal(t, at(8, 8, "16"), d.Axis["rail"].To)
	require.Len(t, d.Keys, 2)
	assert.Equal(t, at(10, 8, "1.50"), d.Keys[0].From)
	assert.Equal(t, at(12, 6, "z"), d.Keys[1].To)
}

// A column counts characters, not bytes.
func TestColumnsCountCharacters(t *testing.T) {
	d, faults := read(t, `one = { from = "ééé", to = "here" }`)
	require.Empty(t, faults)
	assert.Equal(t, 28, d.One.To.Column)
}

func TestWindowsLinesAndMark(t *testing.T) {
	d, faults := read(t, "\ufefftitle = \"a\"\r\non = false\r\nends = \"x\"\r\n")
	require.Empty(t, faults)
	assert.Equal(t, 3, d.Ends.Line)
	assert.True(t, d.Ends.Single)
}

func TestEmbeddedFields(t *testing.T) {
	var o outer
	report := &source.Report{}
	require.True(t, source.Read([]byte("title = 1\nname = 2"), nil, &o, report))
	require.Empty(t, report.Faults)
	assert.Equal(t, at(2, 8, "2"), o.Name)
}

func TestOverrides(t *testing.T) {
	d, faults := read(t, "title = \"a\"\n[axis.rail]\nfrom = \"b\"\nto = \"c\"",
		source.Override{Path: "axis.rail.from", Text: "B", Origin: "--from"},
		source.Override{Path: "one.to", Text: "D", Origin: "--to"},
		source.Override{Path: "on", Text: "true", Origin: "--on"})
	require.Empty(t, faults)
	assert.Equal(t, source.Text{Text: "B", Origin: "--from", Set: true}, d.Axis["rail"].From)
	assert.Equal(t, at(4, 6, "c"), d.Axis["rail"].To)
	assert.Equal(t, "D", d.One.To.Text)
	assert.True(t, d.On.On)
}

// An override of an item of a list is of that one alone, and of none that is not there.
func TestAnOverrideOfAnItem(t *testing.T) {
	const text = "ends = [\"1\", \"2\"]\n[[keys]]\nfrom = \"a\"\n[[keys]]\nfrom = \"b\"\n"
	d, faults := read(t, text,
		source.Override{Path: "keys[1].from", Text: "A", Origin: "--x"}, source.Override{Path: "ends[2]", Text: "3", Origin: "--y"})
	require.Empty(t, faults)
	assert.Equal(t, []string{"A", "b"}, []string{d.Keys[0].From.Text, d.Keys[1].From.Text})
	assert.Equal(t, []string{"1", "3"}, []string{d.Ends.Items[0].Text, d.Ends.Items[1].Text})
	for _, path := range []string{"keys[3].from", "ends[3]", "keys[0].from", "ends[x]"} {
		_, faults := read(t, text, source.Override{Path: path, Text: "A", Origin: "--x"})
		require.Len(t, faults, 1, path)
		assert.Contains(t, faults[0].String(), "has no table to go into")
	}
}

func TestAnOverrideMayBeTheWholeDocument(t *testing.T) {
	d, faults := read(t, "", source.Override{Path: "title", Text: "x", Origin: "--title"})
	assert.Empty(t, faults)
	assert.Equal(t, "x", d.Title.Text)
}

func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "f.toml: the file is empty"},
		{"only notes", "# nothing\n\n", "f.toml: the file is empty"},
		{"zero bytes", "title = 1\x00", "f.toml: the file must be text in UTF-8"},
		{"not UTF-8", "title = \"caf\xe9\"", "f.toml: the file must be text in UTF-8"},
		{"too long", strings.Repeat("#\n", source.MaxBytes/2+1), "f.toml: the file of 1048578 bytes must be at most 1048576 bytes"},
		{"lists too deep", "ends = " + strings.Repeat("[", 33) + strings.Repeat("]", 33), "f.toml: the file has keys and lists more than 32 deep in each other, which is no shot and no rig"},
		{"keys too deep", "[a" + strings.Repeat(".a", 20) + "]\nb" + strings.Repeat(".b", 11) + " = 1", "f.toml: the file has keys and lists more than 32 deep in each other, which is no shot and no rig"},
		{"key too long", strings.Repeat("k", 513) + " = 1", "f.toml: the file has a key of more than 512 bytes, which is no shot and no rig"},
		{"key of a table too long", "one = { " + strings.Repeat("k", 513) + " = 1 }", "f.toml: the file has a key of more than 512 bytes, which is no shot and no rig"},
		{"as deep as may be", "one = " + strings.Repeat("[", 32) + strings.Repeat("]", 32), "f.toml:1:1: one (a list) must be a table"},
		{"a key as long as may be", "one." + strings.Repeat("k", 512) + " = 1", "f.toml:1:5: one.kkkk"},
		{"syntax", "title = \n", "f.toml:1:"},
		{"no quotes", "[axis.rail]\nfrom = 40 mm\n", `f.toml:2:11: TOML: expected newline but got U+006D 'm'; values with a unit go in quotes`},
		{"said twice", "title = 1\ntitle = 2", "f.toml:2:1: TOML: key title is already defined"},
		{"table said twice", "[axis.rail]\n[axis.rail]", "f.toml:2:"},
		{"huge float", "title = 1e400", `f.toml:1:9: TOML: unable to parse float: "1e400": value out of range`},
		{"huge number", "title = 99999999999999999999", "f.toml:1:9: TOML:"},
		{"list for a text", "title = [1]", "f.toml:1:1: title (a list) must be text in quotes or a number"},
		{"table for a text", "title.x = 1", "f.toml:1:1: title (a table) must be text in quotes or a number"},
		{"boolean for a text", "title = true", `f.toml:1:9: title "true" must be text in quotes or a number`},
		{"time for a text", "title = 01:00:00", `f.toml:1:9: title "01:00:00" must be text in quotes or a number; put it in quotes`},
		{"text for a boolean", "on = \"true\"", `f.toml:1:6: on "true" must be true or false, without quotes`},
		{"text for a table", "one = \"x\"", `f.toml:1:7: one "x" must be a table`},
		{"text for a table of names", "axis = 3", `f.toml:1:8: axis "3" must be a table`},
		{"text for a named table", "[axis]\nrail = 3", `f.toml:2:8: axis.rail "3" must be a table`},
		{"text for a list", "keys = 3", `f.toml:1:8: keys "3" must be a list, in [ ]`},
		{"number in a list of tables", "keys = [3]", `f.toml:1:9: keys[1] "3" must be a table`},
		{"table in a list of texts", "ends = [{}]", `f.toml:1:9: ends[1] (a table) must be text in quotes or a number`},
		{"boolean for texts", "ends = true", `f.toml:1:8: ends "true" must be text in quotes, or a list of them`},
		{"misspelt key", "[axis.rail]\nform = 1", `f.toml:2:1: axis rail: form is not a key that means anything here; did you mean "from"?`},
		{"misspelt table", "[axsi.rail]\nfrom = 1", `f.toml:1:2: axsi is not a key that means anything here; did you mean "axis"?`},
		{"unknown key", "[axis.rail]\nbrightness = 1", `f.toml:2:1: axis rail: brightness is not a key that means anything here; keys here are from, to`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := read(t, c.text)
			require.Len(t, faults, 1)
			assert.True(t, strings.HasPrefix(faults[0].String(), c.want), faults[0].String())
		})
	}
}

func TestEveryFaultIsFoundAtOnce(t *testing.T) {
	_, faults := read(t, "titel = true\non = 3\n[axis.rail]\nfrom = []\nzzzzzz = 1")
	assert.Len(t, faults, 5) // the misspelt key, and what it holds as well
}

// A misspelt key is read as the key it was meant to be, unless that is there.
func TestAMisspeltKeyStillCounts(t *testing.T) {
	d, faults := read(t, "titel = \"a\"")
	assert.Len(t, faults, 1)
	assert.Equal(t, "a", d.Title.Text)
	d, faults = read(t, "titel = \"a\"\ntitle = \"b\"")
	assert.Len(t, faults, 1)
	assert.Equal(t, "b", d.Title.Text)
}

func TestAnOverrideNeedsATable(t *testing.T) {
	_, faults := read(t, "title = 1", source.Override{Path: "title.x", Text: "y", Origin: "--x"})
	require.Len(t, faults, 1)
	assert.Equal(t, `--x: title.x "y" has no table to go into`, faults[0].String())
}

// readTime is far above what a file of bounded keys takes on a slow machine,
// and far below what the square of a megabyte of keys does.
const readTime = 10 * time.Second

func keys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("k" + strconv.Itoa(i) + "=1\n")
	}
	return b.String()
}

func TestAHostileFileIsNeitherSlowNorTalkative(t *testing.T) {
	began := time.Now()
	_, faults := read(t, keys(100_000))
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].String(), "has more than 5000 keys")
	_, faults = read(t, keys(5000))
	assert.Len(t, faults, 101)
	assert.Contains(t, faults.Error(), "has more wrong with it than is listed here")
	_, faults = read(t, "keys = ["+strings.Repeat("{a.b.c=1},", 4000)+"]")
	assert.Len(t, faults, 1)
	assert.Less(t, time.Since(began), readTime)
}

func TestNearest(t *testing.T) {
	known := []string{"from", "to", "law", "dwell-far", "dwell-near"}
	for word, want := range map[string]string{
		"form": "from", "frmo": "from", "From": "from", "fro": "from", "lwa": "law",
		"dwel-far": "dwell-far", "dwell_near": "dwell-near", "dwelnear": "dwell-near",
		"capture": "", "x": "", "": "", strings.Repeat("from", 40): "",
	} {
		assert.Equal(t, want, source.Nearest(word, known), word)
	}
}

func TestInOrder(t *testing.T) {
	d, faults := read(t, "[axis.zoom]\n[axis.b]\n[axis.a]\n",
		source.Override{Path: "axis.y.to", Text: "1", Origin: "--y"},
		source.Override{Path: "axis.x.to", Text: "1", Origin: "--x"})
	require.Empty(t, faults)
	got := source.InOrder(d.Axis, func(i inner) source.Place { return i.Place })
	assert.Equal(t, []string{"zoom", "b", "a", "x", "y"}, got)
}

// A key that is nothing, or that has a dot in it, is named as TOML would.
func TestAPathTellsEveryKey(t *testing.T) {
	for path, want := range map[string]string{
		"":                    `--x: "" is not a key`,
		".":                   `--x: "" is not a key`,
		"axis..from":          "",
		`axis."a.b".form`:     "--x: axis a.b: form is not a key",
		".axi\x80.rail.from":  `--x: "" is not a key`,
		"axi\x80.rail.from":   `--x: "axi\x80" is not a key`,
		`axis."rail\u202e".x`: "--x: axis rail\ufffd: x is not a key",
	} {
		_, faults := read(t, "title = 1", source.Override{Path: path, Text: "1", Origin: "--x"})
		if want == "" {
			assert.Empty(t, faults, path)
			continue
		}
		require.Len(t, faults, 1, path)
		assert.True(t, strings.HasPrefix(faults[0].String(), want), faults[0].String())
	}
	d, faults := read(t, "[axis.\"a.b\"]\nfrom = 1", source.Override{Path: source.Join("axis", "a.b", "to"), Text: "2", Origin: "--to"})
	require.Empty(t, faults)
	assert.Equal(t, "2", d.Axis["a.b"].To.Text)
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"title = \"a\"", "[[keys]]\nfrom=1", "axis.rail.from = {a=[1,{b=2}]}", "one = { from = '''\nx''' }", "\x00",
		"[a]\n[a.b]\n[[a.b]]", "\ufefftitle = 1\r\n[axis.\"\"]\r\nfrom = nan", "ends = [\"x\",\n 3 ]\non = true",
		"[axis.\"a.b\"]\nfrom = \"\\u202e\"\n", "title = \"\xe9\"", "\"ti\\u0000tle\" = 1e400", "title=1\ntitle=2",
	} {
		for _, path := range []string{"axis.rail.from", "", ".axi\x80.rail.from", `axis."a.b".from`, "title", "keys[1].from"} {
			f.Add(s, path, "1")
		}
	}
	f.Fuzz(func(t *testing.T, text, path, value string) {
		over := source.Override{Path: path, Text: value, Origin: "--x"}
		d, faults := read(t, text, over)
		lines := strings.Split(text, "\n")
		for _, x := range faults {
			wantPlace(t, lines, x)
		}
		if len(faults) > 0 {
			return
		}
		again, _ := read(t, text, over)
		assert.Equal(t, d, again, "a document is read the same each time")
		plain, faults := read(t, text)
		if len(faults) > 0 || !plain.Title.Set {
			return
		}
		out, err := source.Set("f.toml", []byte(text), "title", plain.Title.Text)
		if err != nil {
			return
		}
		after, faults := read(t, string(out))
		assert.Empty(t, faults, "what was sound stays so")
		assert.Equal(t, wordsOf(plain), wordsOf(after), "and says the same")
	})
}

// wantPlace wants a fault to say what is wrong, and where: a flag, or a place
// within the document.
func wantPlace(t *testing.T, lines []string, x fault.Fault) {
	t.Helper()
	assert.NotEmpty(t, x.Quantity, x)
	assert.NotEmpty(t, x.Bound, x)
	assert.True(t, utf8.ValidString(x.Quantity), x)
	if x.File == "--x" {
		assert.Zero(t, x.Line, x)
		return
	}
	assert.Equal(t, "f.toml", x.File)
	assert.LessOrEqual(t, x.Line, len(lines), x)
	if assert.GreaterOrEqual(t, x.Line, 0, x) && x.Line > 0 && x.Line <= len(lines) {
		assert.LessOrEqual(t, x.Column, len(lines[x.Line-1])+1, x)
		assert.GreaterOrEqual(t, x.Column, 1, x)
	}
}

// wordsOf is what a document says, wherever it says it.
func wordsOf(d document) []string {
	out := []string{"title " + d.Title.Text, "on " + strconv.FormatBool(d.On.On)}
	for _, e := range d.Ends.Items {
		out = append(out, "end "+e.Text)
	}
	inners := d.Keys
	if d.One != nil {
		inners = append(inners, *d.One)
	}
	for _, name := range slices.Sorted(maps.Keys(d.Axis)) {
		out, inners = append(out, "axis "+name), append(inners, d.Axis[name])
	}
	for _, i := range inners {
		out = append(out, "from "+i.From.Text, "to "+i.To.Text)
	}
	return out
}
