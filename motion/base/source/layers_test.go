package source_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
)

// stage is a document of tables, tables by name, and lists of both kinds.
type stage struct {
	Title source.Text     `toml:"title"`
	Front front           `toml:"front"`
	Wing  map[string]wing `toml:"wing"`
	Lamps []lamp          `toml:"lamps"`
	Marks []struct {
		At source.Text `toml:"at"`
	} `toml:"marks"`
}

type front struct {
	Without source.Without `toml:"without"`
	Wide    source.Text    `toml:"wide" instead:"high"`
	High    source.Text    `toml:"high" instead:"wide"`
	Kind    source.Text    `toml:"kind" shelf:"kind"`
	Ends    source.Texts   `toml:"ends"`
	made
}

type made struct {
	Of source.Text `toml:"of"`
}

type wing struct {
	Side source.Text `toml:"side"`
	Deep source.Text `toml:"deep"`
}

type lamp struct {
	Name    source.Text    `toml:"name"`
	Without source.Without `toml:"without"`
	Level   source.Text    `toml:"level"`
	Hue     source.Text    `toml:"hue"`
}

func layersOf(r *source.Report) source.Layers {
	return source.Layers{
		Like: &stage{}, Shelves: map[string]any{"kind": &made{}}, Report: r,
		Knows: func(_, _ string) bool { return true }, Same: func(a, b source.Text) bool { return a.Text == b.Text },
	}
}

// laid lays a over b and returns every value that comes of it.
func laid(t *testing.T, a, b string) (string, *source.Report) {
	t.Helper()
	r := &source.Report{File: "a"}
	l := layersOf(r)
	below, ok := source.Parse("b", []byte(b), r)
	require.True(t, ok)
	above, ok := source.Parse("a2", []byte(a), r) // a name, so that its values are told too
	require.True(t, ok)
	doc := l.Over(above, l.Over(below, source.Nothing()))
	out := ""
	for _, v := range l.Leaves(doc) {
		out += v.Path + "=" + v.Text.Text + "@" + v.Text.File
		for _, was := range v.Below {
			out += "<" + was.Text + "@" + was.File
		}
		out += " "
	}
	var into stage
	doc.Bind(&into, r)
	return out, r
}

func TestLayers(t *testing.T) {
	for _, x := range []struct{ over, under, want string }{
		{`title = "x"`, `title = "y"`, "title=x@a2<y@b "},
		{`title = "x"`, `title = "x"`, "title=x@a2 "},
		{`front.of = 1`, `front.ends = [1, 2]`, "front.ends=1, 2@b front.of=1@a2 "},
		{`front.ends = [3]`, `front.ends = [1, 2]`, "front.ends=3@a2<1, 2@b "},
		{`front.wide = 1`, "front.high = 2\nfront.of = 3", "front.of=3@b front.wide=1@a2 "},
		{`front.kind = "new"`, "front.kind = \"old\"\nfront.of = 3\nfront.wide = 2", "front.kind=new@a2<old@b front.wide=2@b "},
		{`front.kind = "old"`, "front.kind = \"old\"\nfront.of = 3", "front.kind=old@a2 front.of=3@b "},
		{`front.without = true`, "title = \"t\"\nfront.of = 3", "title=t@b "},
		{"[front]\nwithout = true\nwide = 1", "front.of = 3", "front.wide=1@a2 "},
		{`front.without = "of"`, "front.of = 3\nfront.wide = 1", "front.wide=1@b "},
		{`front.without = ["of", "wide"]`, "front.of = 3\nfront.wide = 1", ""},
		{`wing.left.deep = 1`, "wing.left.side = 2\nwing.right.side = 3", "wing.left.side=2@b wing.left.deep=1@a2 wing.right.side=3@b "},
		{"[[lamps]]\nname = \"k\"\nlevel = 1", "[[lamps]]\nname = \"f\"\n[[lamps]]\nname = \"k\"\nlevel = 2\nhue = 3",
			"lamps[1].name=f@b lamps[2].name=k@a2 lamps[2].level=1@a2<2@b lamps[2].hue=3@b "},
		{"[[lamps]]\nlevel = 1\n[[lamps]]\nname = \"n\"", "[[lamps]]\nname = \"k\"", "lamps[1].name=k@b lamps[2].level=1@a2 lamps[3].name=n@a2 "},
		{"[[lamps]]\nname = \"f\"\nwithout = true\n[[lamps]]\nname = \"k\"\nlevel = 9", "[[lamps]]\nname = \"f\"\n[[lamps]]\nname = \"k\"\nlevel = 1",
			"lamps[1].name=k@a2 lamps[1].level=9@a2<1@b "},
		{"[[marks]]\nat = 1", "[[marks]]\nat = 2\n[[marks]]\nat = 3", "marks[1].at=1@a2 "},
		{`front = 3`, `front.of = 1`, "front=3@a2<@b "}, // a fault of its shape, and none of ours
		{``, "wing = 3\nlamps = 4", "wing=3@b lamps=4@b "},
	} {
		t.Run(x.over+" over "+x.under, func(t *testing.T) {
			got, _ := laid(t, x.over, x.under)
			assert.Equal(t, x.want, got)
		})
	}
}

func TestLayersRefuse(t *testing.T) {
	for over, want := range map[string]string{
		"front.without = \"of\"":                               `a2:1:17: front.without "of" is in no file under this one; there are wide`,
		"front.without = false":                                `a2:1:17: front.without "false" must be true, or a list of keys such as ["height"]`,
		"[[lamps]]\nname = \"z\"\nwithout = true":              `a2:3:11: lamps[2].without takes nothing out: no file under this one has one of the name "z"; there are "k"`,
		"[[lamps]]\nname = \"k\"\n[[lamps]]\nname = \"k\"":     `a2:3:3: lamps "k" is named twice here; write all that changes of it into one table`,
		"wing.left.without = true":                             `a2:1:11: wing.left.without is not a key that means anything here; keys here are side, deep`,
		"[[lamps]]\nwithout = [\"hue\"]":                       `a2:2:1: lamps[2].without takes nothing out, as this has no name to know it by; there are "k"`,
		"title = \"t\"\n[front]\nwithout = [\"wide\", \"of\"]": `a2:3:20: front.without "of" is in no file under this one; there are none`,
	} {
		_, r := laid(t, over, "front.wide = 1\n[[lamps]]\nname = \"k\"")
		assert.EqualError(t, r.Faults.Err(), want)
	}
}

// Nothing that is laid over anything panics, and each value has one place.
func FuzzLayers(f *testing.F) {
	f.Add("front.without = true", "front.of = 3")
	f.Add("[[lamps]]\nname = 3\nwithout = [1]", "lamps = [{name = \"3\"}, {}]")
	f.Fuzz(func(t *testing.T, a, b string) {
		r := &source.Report{File: "a"}
		l := layersOf(r)
		below, ok := source.Parse("b", []byte(b), r)
		above, ok2 := source.Parse("", []byte(a), r)
		if !ok || !ok2 {
			return
		}
		doc := l.Over(above, l.Over(below, source.Nothing()))
		seen := map[string]bool{}
		for _, v := range l.Leaves(doc) {
			require.False(t, seen[v.Path], v.Path)
			seen[v.Path] = true
			if i, local := doc.Home(v.Path, []*source.Doc{below}); v.Text.File == "b" && i == 0 {
				_, found := source.Value([]byte(b), local)
				require.True(t, found, fmt.Sprint(v.Path, " at ", local))
			}
		}
		var into stage
		doc.Bind(&into, r)
	})
}
