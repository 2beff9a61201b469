package cli_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter"
	"seamrail/motion/base/plain"
	"seamrail/motion/plan/sample/many"
)

// shapeless are characters that do something and are not to be looked at: what
// UAX #9 orders text with, controls that a terminal obeys, what parts lines, and
// what has no width.
var shapeless = []rune{
	0x01, 0x07, 0x08, 0x1b, 0x7f, 0x80, 0x85, 0x9b, 0x9f, 0xad, 0x61c, 0x200b, 0x200c, 0x200d, 0x200e, 0x200f,
	0x2028, 0x2029, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2060, 0x2066, 0x2067, 0x2068, 0x2069, 0xfeff, 0xfffe, 0xe0041,
}

// escaped are all of them as a TOML text has them.
func escaped() string {
	out := "x"
	for _, r := range shapeless {
		out += fmt.Sprintf(`\U%08Xx`, r)
	}
	return out
}

// wantPlain wants a text, or a file of it, to hold none of them.
func wantPlain(t *testing.T, text []byte, of string) {
	t.Helper()
	assert.True(t, utf8.Valid(text), of)
	for i, r := range string(text) {
		if r != '\n' && r != '\t' && !plain.Is(string(r)) {
			t.Errorf("%s holds %U: %q", of, r, text[max(0, i-60):min(len(text), i+20)])
			return
		}
	}
}

// Whatever a title, a name, a note or the name of a file holds, nothing that is
// printed or written does.
func TestNothingShapelessComesOut(t *testing.T) {
	many.Long(t)
	dir := filepath.Join(t.TempDir(), "a\u202eb\u200bc\x07d")
	require.NoError(t, os.Mkdir(dir, 0o755))
	t.Chdir(dir)
	bad, name := escaped(), "lan\u202etern\x1b[31m.toml"
	s := strings.NewReplacer("Fernhollow lantern, slow reveal", bad, `"brass bead"`, `"`+bad+`"`, `"left"`, `"`+bad+`"`, `"key"`, `"`+bad+`"`).Replace(string(starter.Shot()))
	g := strings.NewReplacer("Bench rail and table", bad, "Keep the cable clear", bad).Replace(string(starter.Rig()))
	require.NoError(t, os.WriteFile(name, []byte(s), 0o644))
	require.NoError(t, os.WriteFile(starter.RigName, []byte(g), 0o644))
	require.NoError(t, os.WriteFile("clip.toml", []byte(fmt.Sprintf("sequence = \"%s\"\n[[shot]]\nfile = \"%s\"\nlight = \"%s\"\n", bad, "lan\\u202etern\\u001b[31m.toml", bad)), 0o644))
	run := func(args ...string) []byte {
		var out, said bytes.Buffer
		code := cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &said}, args)
		if code == exit.Usage {
			t.Logf("%q: %s", args, said.String())
		}
		wantPlain(t, said.Bytes(), fmt.Sprint(args, " on standard error"))
		return out.Bytes()
	}
	said := func(args ...string) {
		wantPlain(t, run(args...), fmt.Sprint(args))
	}
	said("drive", name, "--virtual", "--fast", "--confirmed", "--rounds", "1")
	said("takes", name, "--keep", "--note", "a\u202e\x1b]0;b\x07c\xff", "--late", "0.1 s")
	said("takes", name)
	for _, form := range []string{"frames", "steps", "ticks", "gcode", "picture", "json", "selects", "otio", "motion"} {
		said("export", form, name)
	}
	for _, args := range [][]string{
		{"plan"}, {"plan", "--json"}, {"reach"}, {"cues"}, {"soften"}, {"soften", "--json"}, {"shake", "--frequency", "6 Hz", "--damping", "3 %"},
		{"shake", "--json", "--frequency", "6 Hz", "--damping", "3 %"}, {"plan", "--loop", "1 s"}, {"plan", "--rig", "no\u202e\x1b.toml"},
		{"plan", "--law", "a\u202e\x1bb"}, {"plan", "--axis", "a\u202eb"}, {"plot", "-o", "p\u202e.svg"}, {"sheet", "-o", "s\u202e.html"},
		{"above", "-o", "a\u202e.svg"}, {"cues", "-o", "c\u202e.vtt"}, {"make", "-o", "all\u202e"},
	} {
		said(append([]string{args[0], name}, args[1:]...)...)
	}
	for _, args := range [][]string{
		{"sequence", "clip.toml"}, {"sequence", "clip.toml", "--json"}, {"sequence", "clip.toml", "-o", "strip.svg"}, {"a\u202eb"}, {"help", "a\u202eb"},
		{"plan", "no\u202e.toml"}, {"takes", "no\u202e.toml"}, {"export", "fr\u202eames"}, {"plan", "--no\u202e"}, {"new", "n\u202e"}, {"man", "m\u202e"},
		{"spin", "--period", "7.3 s", "--symmetry", "6", "--between", "4 s,8 s"}, {"sheet", "--sequence", "clip.toml", "-o", "q\u202e.pdf"},
	} {
		said(args...)
	}
	read := 0
	require.NoError(t, filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		switch filepath.Ext(path) {
		case ".csv", ".svg", ".html", ".json", ".jsonl", ".txt", ".otio", ".vtt", ".ngc":
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			wantPlain(t, data, path)
			if ext := filepath.Ext(path); ext == ".json" || ext == ".otio" {
				assert.True(t, json.Valid(data), path)
			}
			read++
		}
		return nil
	}))
	assert.Greater(t, read, 20)
}
