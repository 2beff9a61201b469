package source_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/source"
)

// file has everything in as many ways as TOML has, with remarks wherever one may be.
const file = `# A shot.

a = 1            # first

# The rail.
[axis.rail]
move = "keys"
# how it goes
curve = "smooth" # or monotone,
                 # which never passes a key
keys = [
  { at = "0 frames", pos = "40 mm" },
  { at = "72 frames", pos = "90 mm" } # there
]

# Lamps are aimed.
[[scene.lamps]]
name = "key"
# level = "1"

# The fill.
[[scene.lamps]]
name = "fill"
fade = { from = "0 %", to = "50 %" }

[scene.axis]
rail.role = "slide" # it carries
table = { role = "table" }

[[cue]]
name = "a"
rounds = [1, 2, 3]
# the end
`

func TestRemove(t *testing.T) {
	for path, gone := range map[string]string{
		"a":                     "a = 1            # first\n",
		"axis.rail":             file[strings.Index(file, "# The rail"):strings.Index(file, "# Lamps")],
		"axis.rail.move":        "move = \"keys\"\n",
		"axis.rail.curve":       file[strings.Index(file, "# how"):strings.Index(file, "keys = [")],
		"axis.rail.keys":        file[strings.Index(file, "keys = ["):strings.Index(file, "\n# Lamps")],
		"axis.rail.keys[1]":     "  { at = \"0 frames\", pos = \"40 mm\" },\n",
		"axis.rail.keys[1].at":  `at = "0 frames", `,
		"axis.rail.keys[1].pos": `, pos = "40 mm"`,
		"scene.lamps[1]":        file[strings.Index(file, "\n# Lamps"):strings.Index(file, "\n# The fill")],
		"scene.lamps[2]":        file[strings.Index(file, "\n# The fill"):strings.Index(file, "\n[scene.axis]")],
		"scene.lamps[2].fade":   "fade = { from = \"0 %\", to = \"50 %\" }\n",
		"scene.axis.rail":       "rail.role = \"slide\" # it carries\n",
		"scene.axis.table":      "table = { role = \"table\" }\n",
		"cue[1].rounds[2]":      "2, ",
		"cue[1].rounds[3]":      ", 3",
		"cue[1]":                file[strings.Index(file, "\n[[cue]]"):],
	} {
		for _, feed := range []string{"\n", "\r\n"} {
			was := strings.ReplaceAll(file, "\n", feed)
			got, err := source.Remove("x", []byte(was), path)
			require.NoError(t, err, path)
			i := strings.Index(file, gone)
			require.GreaterOrEqual(t, i, 0, path)
			want := file[:i] + file[i+len(gone):]
			assert.Equal(t, strings.ReplaceAll(want, "\n", feed), string(got), path)
		}
	}
	for _, path := range []string{"b", "axis.pan", "cue[2]", "cue[1].rounds[4]", "axis.rail.keys[1].speed", "axis.rai"} {
		got, err := source.Remove("x", []byte(file), path)
		require.ErrorContains(t, err, "is not there", path)
		assert.Nil(t, got)
	}
}

// The comma of an item goes with the item that it was for.
func TestRemoveOfTheLastInALine(t *testing.T) {
	got, err := source.Remove("x", []byte(file), "axis.rail.keys[2]")
	require.NoError(t, err)
	assert.Contains(t, string(got), "keys = [\n  { at = \"0 frames\", pos = \"40 mm\" }\n]\n")
	got, err = source.Remove("x", got, "axis.rail.keys[1]")
	require.NoError(t, err)
	assert.Contains(t, string(got), "keys = [\n]\n")
}

var row = source.Row{{Key: "at", Value: "36 frames"}, {Key: "pos", Value: `6" long`}}

func TestAdd(t *testing.T) {
	inline := "{ at = \"36 frames\", pos = \"6\\\" long\" }"
	lines := "at = \"36 frames\"\npos = \"6\\\" long\"\n"
	for _, c := range []struct{ path, after, before, text string }{
		{"axis.rail.keys[1]", "", "  { at = \"0 frames\"", "  " + inline + ",\n"},
		{"axis.rail.keys[2]", "", "  { at = \"72 frames\"", "  " + inline + ",\n"},
		{"scene.lamps[1]", "", "# Lamps", "[[scene.lamps]]\n" + lines + "\n"},
		{"scene.lamps[2]", "", "\n# The fill", "\n[[scene.lamps]]\n" + lines},
		{"scene.lamps[3]", "", "\n[scene.axis]", "\n[[scene.lamps]]\n" + lines},
		{"scene.lamps[1].fade", "", "\n# The fill", "\n[scene.lamps.fade]\n" + lines},
		{"scene.holes[1]", "scene.lamps", "\n[scene.axis]", "\n[[scene.holes]]\n" + lines},
		{"axis.table", "axis", "\n# Lamps", "\n[axis.table]\n" + lines},
		{"axis.a b", "axis", "\n# Lamps", "\n[axis.\"a b\"]\n" + lines},
		{"cue[2]", "", "", "\n[[cue]]\n" + lines},
		{"camera", "lens", "", "\n[camera]\n" + lines},
		{"scene.axis.pan", "scene.axis", "\n[[cue]]", "\n[scene.axis.pan]\n" + lines},
		{"scene.axis.table.deep", "", " }\n\n[[cue]]", ", deep = " + inline},
	} {
		var after []string
		if c.after != "" {
			after = []string{"nothing.of.it", c.after, "cue"}
		}
		i := len(file)
		if c.before != "" {
			i = strings.Index(file, c.before)
		}
		require.GreaterOrEqual(t, i, 0)
		for _, feed := range []string{"\n", "\r\n"} {
			got, err := source.Add("x", []byte(strings.ReplaceAll(file, "\n", feed)), c.path, row, after...)
			require.NoError(t, err, c.path)
			assert.Equal(t, strings.ReplaceAll(file[:i]+c.text+file[i:], "\n", feed), string(got), c.path)
		}
	}
	for _, path := range []string{"axis.rail", "scene.lamps[4]", "scene.holes[2]", "a", "a.b", "axis.rail.move.x"} {
		_, err := source.Add("x", []byte(file), path, row)
		require.ErrorContains(t, err, "x: ", path)
	}
}

// Behind an item without a comma comes one with none, and the comma goes where it has to.
func TestAddBehindTheLast(t *testing.T) {
	got, err := source.Add("x", []byte(file), "axis.rail.keys[3]", row)
	require.NoError(t, err)
	assert.Contains(t, string(got), "pos = \"90 mm\" }, # there\n  { at = \"36 frames\", pos = \"6\\\" long\" }\n]\n")
	for before, after := range map[string]string{
		`keys = []`:                        `keys = [{ at = "36 frames", pos = "6\" long" }]`,
		`keys = [{ at = "0 s" }]`:          `keys = [{ at = "0 s" }, { at = "36 frames", pos = "6\" long" }]`,
		"keys = [{ at = 0 } , { at = 1 }]": `keys = [{ at = 0 } , { at = 1 } , { at = "36 frames", pos = "6\" long" }]`,
		"keys = [\n\t{ at = 0 },\n]":       "keys = [\n\t{ at = 0 },\n\t{ at = \"36 frames\", pos = \"6\\\" long\" },\n]",
	} {
		got, err := source.Add("x", []byte(before), fmt.Sprintf("keys[%d]", 1+strings.Count(before, "at")), row)
		require.NoError(t, err, before)
		assert.Equal(t, after, string(got))
	}
}

func TestPut(t *testing.T) {
	rows := []source.Row{{{Key: "at", Value: "0 s"}}, {{Key: "at", Value: "3"}}}
	for _, c := range []struct {
		path, before, text string
		value              any
	}{
		{"b", "\n# The rail", "b = 3\n", "3"},
		{"axis.rail.marks", "\n# Lamps", "marks = [\n  { at = \"0 s\" },\n  { at = 3 },\n]\n", rows},
		{"scene.lamps[1].point", "# level = ", "point = [\"1 mm\", 2]\n", []string{"1 mm", "2"}},
		{"scene.lamps[2].fade.law", " }\n\n[scene.axis]", `, law = "uniform"`, "uniform"},
		{"scene.axis.rail.rise", "table = { role", "rail.rise = \"1 deg\"\n", "1 deg"},
		{"scene.dark.width", "\n[[cue]]", "\n[scene.dark]\nwidth = \"2 mm\"\n", "2 mm"},
	} {
		i := strings.Index(file, c.before)
		got, err := source.Put("x", []byte(file), c.path, c.value, "scene")
		require.NoError(t, err, c.path)
		assert.Equal(t, file[:i]+c.text+file[i:], string(got), c.path)
	}
	_, err := source.Put("x", []byte(file), "axis.rail.move", "hold")
	require.ErrorContains(t, err, "no place")
}

// What is set aside means nothing any more, and comes back as it was.
func TestAside(t *testing.T) {
	got, err := source.Aside("x", []byte(file), "keys", "axis.rail.curve", "axis.rail.keys")
	require.NoError(t, err)
	assert.Contains(t, string(got), "# how it goes\n#~ keys: curve = \"smooth\" # or monotone,\n                 # which")
	assert.Contains(t, string(got), "#~ keys: keys = [\n#~ keys:   { at = \"0 frames\", pos = \"40 mm\" },\n")
	kept := source.KeptUnder(got, "axis.rail")
	require.Len(t, kept, 2)
	assert.Equal(t, "axis.rail.curve", kept[0].Path)
	assert.Equal(t, "axis.rail.keys", kept[1].Path)
	assert.Equal(t, "keys", kept[1].Word)
	assert.Equal(t, file, string(source.Back(got, kept...)))
	assert.Empty(t, source.KeptUnder(got, "axis.table"))

	// with the table goes what was set aside in it
	gone, err := source.Remove("x", got, "axis.rail")
	require.NoError(t, err)
	assert.NotContains(t, string(gone), "#~")
}

// A list of tables is set aside as one value, with its headers.
func TestAsideOfAList(t *testing.T) {
	const text = "[axis.table]\nmove = \"keys\"\n\n[[axis.table.keys]]\nat = \"0 s\"\n\n# then\n[[axis.table.keys]]\nat = \"1 s\"\n\n[camera]\n"
	got, err := source.Aside("x", []byte(text), "keys", "axis.table.keys")
	require.NoError(t, err)
	assert.Equal(t, 4, strings.Count(string(got), "\n#~ keys: "))
	kept := source.KeptUnder(got, "axis.table")
	require.NotEmpty(t, kept)
	assert.Equal(t, text, string(source.Back(got, kept...)))
	gone, err := source.Remove("x", got, "axis.table")
	require.NoError(t, err)
	assert.Equal(t, "[camera]\n", string(gone))
}

// Whatever is added to a document and taken out of it again leaves it byte for byte as it
// was, however it is laid out; and so does what is set aside and taken back.
func TestThereAndBackLeavesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyFile(t)
		path := rapid.SampledFrom([]string{
			"axis.rail.keys[1]", "axis.rail.keys[2]", "axis.rail.keys[3]", "lamps[1]", "lamps[2]", "lamps[3]",
			"axis.pan", "dark", "lamps[1].fade", "lamps[2].fade", "hole[1]", "axis.rail.inner",
		}).Draw(t, "path")
		after := rapid.SampledFrom([][]string{nil, {"axis"}, {"lamps"}, {"hole", "axis.rail"}}).Draw(t, "after")
		got, err := source.Add("x", []byte(text), path, row, after...)
		if err != nil {
			assert.NotContains(t, err.Error(), "in a way", "%s", text)
			return
		}
		back, err := source.Remove("x", got, path)
		require.NoError(t, err, "%s", got)
		require.Equal(t, text, string(back), "%s in between:\n%s", path, got)
	})
}

func TestPutAndTakenOutLeavesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyFile(t)
		path := rapid.SampledFrom([]string{"axis.rail.law", "lamps[1].x", "lamps[2].x", "axis.rail.keys[1].hold"}).Draw(t, "path")
		got, err := source.Put("x", []byte(text), path, "1 s")
		if err != nil {
			return
		}
		back, err := source.Remove("x", got, path)
		require.NoError(t, err, "%s", got)
		require.Equal(t, text, string(back), "in between:\n%s", got)
	})
}

func TestAsideAndBackLeavesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyFile(t)
		path := rapid.SampledFrom([]string{"axis.rail.keys", "axis.rail.from", "axis.rail.to"}).Draw(t, "path")
		got, err := source.Aside("x", []byte(text), "keys", path)
		if err != nil {
			return
		}
		kept := source.KeptUnder(got, "axis.rail")
		require.NotEmpty(t, kept, "%s", got)
		require.Equal(t, text, string(source.Back(got, kept...)), "in between:\n%s", got)
	})
}

// anyFile is one of two axes and lamps, laid out in some way.
func anyFile(t *rapid.T) string {
	maybe := func(some ...string) string { return rapid.SampledFrom(append(some, "")).Draw(t, "maybe") }
	blank := func() string { return rapid.SampledFrom([]string{"", "\n", "\n\n"}).Draw(t, "blank") }
	note := func() string { return maybe("# note\n", "# x = 1\n", "\n# apart\n\n", "  # in\n") }
	tail := func() string { return maybe(" # behind", " # behind\n      # and on") }
	item := func() string {
		return rapid.SampledFrom([]string{`{ at = "0 s", pos = 1 }`, `{at="a,b}#"}`, `{ at = '#' }`}).Draw(t, "item")
	}
	list := func(key string) string {
		switch rapid.IntRange(0, 4).Draw(t, "list") {
		case 0:
			return key + " = [" + item() + ", " + item() + "]" + tail() + "\n"
		case 1:
			return key + " = [\n  " + item() + ",\n  # between\n  " + item() + maybe(",") + maybe(" # end") + "\n]" + tail() + "\n"
		case 2:
			return key + " = [" + item() + "]\n"
		case 3:
			return key + " = [" + item() + ",\n   " + item() + "]\n"
		}
		return ""
	}
	out := note() + blank() + "a = 1" + tail() + "\n" + blank() + note() + "[axis.rail]" + tail() + "\n" + note() +
		"from = \"1 mm\"" + tail() + "\n" + maybe("to = \"\"\"a\n#~ b\n\"\"\"\n", "to = 2\n") + list("keys") + note()
	if !strings.Contains(out, "keys = ") {
		out += blank() + note() + "[[axis.rail.keys]]\nat = 1\n" + blank() + note() + "[[axis.rail.keys]]\nat = 2" + tail() + "\n"
	}
	out += blank() + note()
	for range rapid.IntRange(0, 2).Draw(t, "lamps") {
		out += note() + "[[lamps]]\nname = \"l\"" + tail() + "\n" + maybe("[lamps.fade]\nfrom = 1\n", "fade.from = 1\n", "fade = { from = 1 }\n") + note() + blank()
	}
	out += maybe("[dark]\nx = 1\n", "[hole]\n")
	if rapid.Bool().Draw(t, "open") {
		out = strings.TrimRight(out, "\n")
	}
	if rapid.Bool().Draw(t, "crlf") {
		out = strings.ReplaceAll(out, "\n", "\r\n")
	}
	return maybe("\ufeff") + out
}
