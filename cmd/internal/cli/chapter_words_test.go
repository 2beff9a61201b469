package cli_test

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/guide"
	shotkinds "seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
	"seamrail/motion/music"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/setup"
	"seamrail/motion/spec/shot"
)

// schemaTexts are the schemas of the files that somebody writes.
func schemaTexts() [][]byte {
	return append(slices.Collect(maps.Values(setup.Schemas())), shot.Schema(), rig.Schema(), sequence.Schema())
}

// schemas are those of the files that somebody writes.
func schemas(t *testing.T) (out []*jsonschema.Schema) {
	t.Helper()
	for _, text := range schemaTexts() {
		out = append(out, compiled(t, text))
	}
	return out
}

func compiled(t *testing.T, text []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("schema.json", doc))
	s, err := c.Compile("schema.json")
	require.NoError(t, err)
	return s
}

// complaints are what a schema has against a part of a file: all but that other parts
// are missing.
func complaints(err error) (out []string) {
	e, ok := err.(*jsonschema.ValidationError)
	if !ok {
		return nil
	}
	if len(e.Causes) == 0 {
		if _, missing := e.ErrorKind.(*kind.Required); !missing {
			out = append(out, e.Error())
		}
	}
	for _, cause := range e.Causes {
		out = append(out, complaints(cause)...)
	}
	return out
}

// suits tells whether a piece of TOML is a part of a shot, a rig or a sequence.
func suits(t *testing.T, all []*jsonschema.Schema, text string) bool {
	t.Helper()
	var v map[string]any
	require.NoError(t, toml.Unmarshal([]byte(text), &v), text)
	return slices.ContainsFunc(all, func(s *jsonschema.Schema) bool { return len(complaints(s.Validate(v))) == 0 })
}

func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	return string(text)
}

var fenced = regexp.MustCompile("(?s)```toml\n(.*?)```")

// What a chapter has written into a file is what that file may hold.
func TestChaptersWriteWhatFilesMayHold(t *testing.T) {
	all, count := schemas(t), 0
	texts := []string{readme(t)}
	for _, c := range guide.Chapters() {
		texts = append(texts, written(t, c))
	}
	for _, text := range texts {
		for _, found := range fenced.FindAllStringSubmatch(text, -1) {
			assert.True(t, suits(t, all, found[1]), found[1])
			count++
		}
	}
	assert.Greater(t, count, 5)
	for _, slip := range []string{"[axis.rail]\nmov = \"hold\"", "[axis.rail]\nmove = \"to-and-fro\"", "[clok]\nloop = \"6 s\""} {
		assert.False(t, suits(t, all, slip), slip)
	}
}

var span = regexp.MustCompile("`([^`\n]+)`")

// spans are the pieces of code in the text of a document, blocks aside.
func spans(text string) (out []string) {
	text = regexp.MustCompile("(?s)```.*?```").ReplaceAllString(text, "")
	text = regexp.MustCompile(`(?m)^    .*$`).ReplaceAllString(text, "")
	text = regexp.MustCompile(`([^\n])\n([^\n])`).ReplaceAllString(text, "$1 $2") // lines of a paragraph
	for _, m := range span.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	return out
}

// names gathers all keys of a schema and the words that may stand under them.
func names(v any, into map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		if all, ok := v["properties"].(map[string]any); ok {
			for key := range all {
				into[key] = true
			}
		}
		if all, ok := v["enum"].([]any); ok {
			for _, one := range all {
				if word, ok := one.(string); ok {
					into[word] = true
				}
			}
		}
		for _, one := range v {
			names(one, into)
		}
	case []any:
		for _, one := range v {
			names(one, into)
		}
	}
}

// known are the words that may stand alone as code: keys and their values, commands,
// flags, chapters and files.
func known(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	for _, text := range schemaTexts() {
		var v any
		require.NoError(t, json.Unmarshal(text, &v))
		names(v, out)
	}
	for _, c := range guide.Chapters() {
		out[c.Name] = true
	}
	for _, name := range append(law.Names(), optimal.Made()...) {
		out[name] = true
	}
	for _, name := range shotkinds.Names() {
		out[name] = true
	}
	for _, f := range format.All() {
		stem, ending, _ := strings.Cut(f.File, ".")
		out[f.File], out["."+ending], out[stem] = true, true, true
	}
	for _, c := range cli.NewRoot(command.Streams{}).Commands() {
		out[c.Name()] = true
		c.Flags().VisitAll(func(f *pflag.Flag) { out["--"+f.Name], out["-"+f.Shorthand] = true, true })
	}
	return out
}

// besides are words that are none of ours, or names somebody gives.
var besides = []string{
	"index.txt", "index.html", "lantern.toml", "bench-rail.toml", "loop", "seamrail-plan/1", "x", "c", "~", "?", "k", "my-shot/lantern.takes.jsonl", "unfinished-",
	"export/drive/stepplayer/PROTOCOL.md", "schema.json", "export", "[scene.axis.NAME]", "--ring-down knock.csv",
	"$1", "ok", "clear", "not the plan", "rtprio 1", "limits.conf(5)", "-o .", "| head", `"each"`, `"jerk"`, `"snap"`, `"zvd"`,
	"seamrail", "seamrail help", "time", "taken", "foretold",
}

// sound tells whether a piece of code in a text is right: a word that is known, a flag
// with a value, a command line that is understood, or a line of a file.
func sound(t *testing.T, all []*jsonschema.Schema, words map[string]bool, code string) bool {
	t.Helper()
	first, rest, more := strings.Cut(code, " ")
	switch {
	case words[code] || slices.Contains(besides, code):
		return true
	case first == "seamrail" || first == "go":
		return understood(code)
	case strings.HasPrefix(code, "--"):
		return words[first] && more && rest != ""
	case strings.HasPrefix(code, "["):
		return suits(t, all, code)
	case strings.HasPrefix(code, `"`), strings.Trim(code, "0123456789.:") == "":
		return moment(strings.Trim(code, `"`))
	case strings.Contains(code, " = "):
		key, _, _ := strings.Cut(code, " = ")
		var v map[string]any
		return words[key] && toml.Unmarshal([]byte(code), &v) == nil
	}
	return false
}

// moment tells whether a text is a moment or a length of a loop: by the music, in beats,
// in frames or seconds, or as a list of markers has it.
func moment(text string) bool {
	if _, _, faults := music.ReadList("list.csv", []byte("name,time\nx,"+text+"\n"), exact.Int(24)); len(faults) == 0 {
		return true
	}
	number, beats := strings.CutSuffix(text, " beats")
	_, err := exact.Parse(number)
	return music.Named(text) || beats && err == nil
}

// understood tells whether the program knows the command and its flags.
func understood(line string) bool {
	args := words(strings.TrimPrefix(line, "go run ./cmd/"))
	root := cli.NewRoot(command.Streams{})
	if args[1] == "help" {
		_, chapter := guide.Find(args[2])
		return chapter
	}
	c, rest, err := root.Find(args[1:])
	if err != nil || c == root && len(args) > 1 {
		return false
	}
	return c.ParseFlags(rest) == nil
}

// Every flag, key, file and command that README and chapters name is there.
func TestWhatTheGuideNamesIsKnown(t *testing.T) {
	all, words := schemas(t), known(t)
	texts := map[string]string{"README": readme(t)}
	for _, c := range guide.Chapters() {
		texts[c.Name] = written(t, c)
	}
	used := map[string]bool{}
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		for _, code := range spans(texts[name]) {
			used[code] = true
			assert.True(t, sound(t, all, words, code), "%s: `%s`", name, code)
		}
	}
	assert.Greater(t, len(used), 150)
	for _, code := range besides {
		assert.True(t, used[code], "nobody says %s any more", code)
	}
	for _, slip := range []string{"--fastt", "dwel-far", `lw = "3-4-5"`, "seamrail plam", "seamrail plan --lop 6", "seamrail help nosuch", "[axes.rail]", "loop.nc"} {
		assert.False(t, sound(t, all, words, slip), slip)
	}
}
