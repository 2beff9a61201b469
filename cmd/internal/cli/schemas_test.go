package cli_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/invopop/jsonschema"
	check "github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/export/cue/cuesheet"
	"seamrail/export/drive/takelog"
	"seamrail/export/handoff/motionjson"
	"seamrail/export/report/connectreport"
	"seamrail/export/report/filesreport"
	"seamrail/export/report/fitreport"
	"seamrail/export/report/footagereport"
	"seamrail/export/report/groupreport"
	"seamrail/export/report/measurereport"
	"seamrail/export/report/planreport"
	"seamrail/export/report/portsreport"
	"seamrail/export/report/rampreport"
	"seamrail/export/report/reachreport"
	"seamrail/export/report/rigsreport"
	"seamrail/export/report/sequencereport"
	"seamrail/export/report/shakereport"
	"seamrail/export/report/softenreport"
	"seamrail/export/report/spinreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/list"
)

var update = flag.Bool("update", false, "write the schemas of the JSON documents anew")

// motionDocument is the document of motionjson, which is written frame by frame.
type motionDocument struct {
	motionjson.Head
	Frames []motionjson.Frame `json:"frames"`
}

// document is what a package of export writes in JSON.
type document struct {
	folder, name string // the package, and that of its schema
	value        any
	commands     [][]string // some that print one
	deep         bool       // every key, however deep, is in words; if not, those at the top
}

// tmp stands for a folder of the test's own.
const tmp = "TMP"

// wayTake is a take of a rig with a ramp of its own.
var wayTake, _ = filepath.Abs("../../../export/report/rampreport/testdata/way-4s.csv")

var documents = []document{
	{"report/planreport", planreport.Schema, planreport.Document{}, [][]string{{"plan", "--json"}, {"plan", "--from", "40 mm", "--to", "90 mm", "--json"}}, false},
	{"report/spinreport", spinreport.Schema, spinreport.Document{}, [][]string{
		{"spin", "--period", "7.3 s", "--json"}, {"spin", "--turns", "1/3", "--json"},
		{"spin", "--timed", "20 turns in 146.2 s", "--timed", "30 turns in 219.1 s", "--json"},
	}, false},
	{"report/reachreport", reachreport.Schema, reachreport.Document{}, [][]string{{"reach", "--json"}, {"reach", "--law", "uniform", "--travel", "60 mm", "--json"}}, true},
	{"report/filesreport", filesreport.Schema, filesreport.Document{}, [][]string{
		{"make", "--json", "-o", tmp}, {"make", "--from", "20 mm", "--to", "90 mm", "--json", "-o", tmp}, {"plot", "--json", "-o", tmp + "/loop.svg"},
		{"preview", "--seam", "--json", "-o", tmp + "/seam.png"}, {"above", "--json", "-o", tmp + "/above.pdf"}, {"sheet", "--json", "-o", tmp + "/sheet.html"},
		{"export", "frames", "--json", "-o", tmp + "/frames.csv"}, {"new", tmp + "/new", "--json"}, {"man", tmp, "--json"},
	}, true},
	{"report/portsreport", portsreport.Schema, portsreport.Document{}, [][]string{{"ports", "--json"}}, true},
	{"report/connectreport", connectreport.Schema, connectreport.Document{}, [][]string{
		{"connect", "--virtual", "--json"}, {"connect", "--virtual", "--json", "-o", tmp + "/bench.toml"},
	}, true},
	{"report/measurereport", measurereport.Schema, measurereport.Document{}, nil, true},
	{"report/rampreport", rampreport.Schema, rampreport.Document{}, [][]string{{"ramp", wayTake, "--capture", "24", "--json"}}, true},
	{"drive/takelog", takelog.Schema, takelog.Document{}, nil, true},
	{"report/groupreport", groupreport.Schema, groupreport.Document{}, nil, true},
	{"report/fitreport", fitreport.Schema, fitreport.Document{}, [][]string{{"fit", "--laws", "3-4-5", "--json"}, {"fit", "--laws", "3-4-5", "--between", "1 s,2 s", "--json"}}, false},
	{"report/rigsreport", rigsreport.Schema, rigsreport.Document{}, nil, true},
	{"report/shakereport", shakereport.Schema, shakereport.Document{}, [][]string{{"shake", "--frequency", "6 Hz", "--json"}}, false},
	{"report/softenreport", softenreport.Schema, softenreport.Document{}, [][]string{{"soften", "--json"}, {"soften", "--frequency", "6 Hz", "--json"}}, false},
	{"report/footagereport", footagereport.Schema, footagereport.Document{}, nil, false},
	{"report/sequencereport", sequencereport.Schema, sequencereport.Document{}, [][]string{{"sequence", "--json"}}, true},
	{"cue/cuesheet", cuesheet.Schema, cuesheet.Document{}, [][]string{{"cues", "--json"}}, true},
	{"handoff/motionjson", motionjson.Schema, motionDocument{}, [][]string{{"export", "motion"}}, true},
}

// structs gathers the struct types of a value, by the name that its schema has.
func structs(t reflect.Type, into map[string]reflect.Type) {
	switch {
	case leaf(t) != nil:
	case t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Array || t.Kind() == reflect.Map:
		structs(t.Elem(), into)
	case t.Kind() == reflect.Struct && into[defined(t)] == nil:
		into[defined(t)] = t
		for i := range t.NumField() {
			structs(t.Field(i).Type, into)
		}
	}
}

// defined is what a type is called in a schema: two packages have a Loop. What has no
// name has no definition of its own.
func defined(t reflect.Type) string {
	if t.Name() == "" {
		return ""
	}
	return strings.TrimSuffix(filepath.Base(t.PkgPath()), "report") + t.Name()
}

// leaf is the schema of a type that is one value in JSON.
func leaf(t reflect.Type) *jsonschema.Schema {
	switch {
	case t == reflect.TypeFor[exact.Rat]():
		return &jsonschema.Schema{Type: "string", Pattern: "^-?[0-9]+(/[0-9]+)?$"}
	case t.Kind() == reflect.String && t.Name() == "number": // digits, as they are to be written
		return &jsonschema.Schema{Type: "number"}
	}
	return nil
}

// orNull lets a pointer that is always written be null.
func orNull(s *jsonschema.Schema, t reflect.Type) {
	for i := range t.NumField() {
		f := t.Field(i)
		key, how, _ := strings.Cut(f.Tag.Get("json"), ",")
		if f.Anonymous {
			orNull(s, f.Type)
		}
		one, there := s.Properties.Get(key)
		if !there || f.Type.Kind() != reflect.Pointer || how == "omitempty" {
			continue
		}
		either := &jsonschema.Schema{Description: one.Description}
		one.Description = ""
		either.AnyOf = []*jsonschema.Schema{one, {Type: "null"}}
		s.Properties.Set(key, either)
	}
}

// schema is what a document looks like, as its structs and their comments say. A strict
// one allows no keys besides.
func (d document) schema(t *testing.T, strict bool) []byte {
	t.Helper()
	r := jsonschema.Reflector{Anonymous: true, ExpandedStruct: true, AllowAdditionalProperties: !strict, Namer: defined, Mapper: leaf}
	require.NoError(t, r.AddGoComments("seamrail", "export"))
	s := r.Reflect(d.value)
	all := map[string]reflect.Type{}
	structs(reflect.TypeOf(d.value), all)
	for name, one := range s.Definitions {
		orNull(one, all[name])
	}
	orNull(s, reflect.TypeOf(d.value))
	name, _ := s.Properties.Get("schema")
	name.Const, s.Title = d.name, d.name
	text, err := json.MarshalIndent(s, "", "  ")
	require.NoError(t, err)
	return append(text, '\n')
}

// samples are documents of the kind: what the commands print, and what lies beside the
// tests of the package.
func (d document) samples(t *testing.T) (out []any) {
	t.Helper()
	texts := map[string][]byte{}
	dir := t.TempDir()
	for _, words := range d.commands {
		words = list.Map(words, func(word string) string { return strings.Replace(word, tmp, dir, 1) })
		texts[strings.Join(words, " ")] = []byte(printed(t, words...))
	}
	golden, err := filepath.Glob(filepath.Join("export", d.folder, "testdata", "*.json"))
	require.NoError(t, err)
	for _, name := range golden {
		texts[name], err = os.ReadFile(name)
		require.NoError(t, err)
	}
	if d.name == motionjson.Schema {
		texts["kept"], texts["left out"] = keptAndLeftOut(t)
	}
	if d.name == takelog.Schema {
		texts["taken"] = taken(t)
	}
	if d.name == footagereport.Schema {
		texts["filmed"] = lookedThrough(t, "--shot")
		texts["kept"] = keptFilm(t)
		texts["filmed by nobody's plan"] = lookedThrough(t)
	}
	for name, text := range texts {
		if !bytes.Contains(text, []byte(`"schema"`)) {
			continue // a part of one
		}
		v, err := check.UnmarshalJSON(bytes.NewReader(text))
		require.NoError(t, err, name)
		out = append(out, v)
	}
	return out
}

// taken are the takes of a shot that was run on a rig of software, some as if of metal.
func taken(t *testing.T) []byte {
	t.Helper()
	dir := t.TempDir()
	name := filepath.Join(dir, "lantern.toml")
	printed(t, "new", dir)
	printed(t, "drive", name, "--virtual", "--fast", "--confirmed")
	ofMetal(t, filepath.Join(dir, "lantern.takes.jsonl"))
	printed(t, "takes", name, "--keep", "--note", "good", "--late", "0.08 s")
	printed(t, "drive", name, "--virtual", "--fast", "--confirmed")
	f, err := os.OpenFile(filepath.Join(dir, "lantern.takes.jsonl"), os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	require.NoError(t, json.NewEncoder(f).Encode(takelog.Record{Kind: takelog.Filmed, Take: 1, Film: &takelog.Film{
		File: "B.mov", Rate: exact.Int(24), Timecode: "01:00:00:00", Still: "a.png", Trusted: true,
		Actions: []takelog.Action{{Cue: "bead", How: "late", Off: 4, From: 60, To: 70}},
	}}))
	require.NoError(t, f.Close())
	return []byte(printed(t, "takes", name, "--json"))
}

// keptFilm is what is told of a film that is kept, of a shot with a hand.
func keptFilm(t *testing.T) []byte {
	t.Helper()
	dir := t.TempDir()
	shot, film := filepath.Join(dir, "macro.toml"), filepath.Join(dir, "A.png")
	text, err := os.ReadFile(filepath.Join("testdata", "shots", "macro.toml"))
	require.NoError(t, err)
	text = append(text, "\n[[cue]]\nname = \"bead\"\nat = \"20 frames\"\nleaves = \"nothing\"\n"...)
	require.NoError(t, os.WriteFile(shot, text, 0o600))
	flags := []string{"--capture", "24", "--loop", "2 s"}
	printed(t, append([]string{"preview", shot, "-o", film, "--width", "320"}, flags...)...)
	flags = append(flags, "--rounds", "1")
	printed(t, append([]string{"drive", shot, "--virtual", "--fast", "--confirmed"}, flags...)...)
	ofMetal(t, filepath.Join(dir, "macro.takes.jsonl"))
	return []byte(printed(t, append([]string{"footage", film, "--shot", shot, "--json", "--keep", "A.png=1"}, flags...)...))
}

// lookedThrough is what is told of the drawn picture of a shot, beside the shot if that is asked for.
func lookedThrough(t *testing.T, of ...string) []byte {
	t.Helper()
	shot, film := filepath.Join("testdata", "shots", "macro.toml"), filepath.Join(t.TempDir(), "macro.png")
	flags := []string{"--capture", "24", "--loop", "2 s"}
	printed(t, append([]string{"preview", shot, "-o", film, "--width", "320"}, flags...)...)
	words := append([]string{"footage", film, "--json", "--between", "40 frames,47 frames"}, of...)
	if len(of) > 0 {
		words = append(append(words, shot), flags...)
	}
	return []byte(printed(t, words...))
}

// printed is what a command prints that ends well, or has found that something does not
// hold.
func printed(t *testing.T, words ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	code := cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &errs}, words)
	require.Contains(t, []int{exit.Fine, exit.Limits}, code, errs.String())
	return out.String()
}

// keptAndLeftOut are motion documents of a shot with a take that is kept, and of a longer
// loop, to which it is one that another plan has filmed.
func keptAndLeftOut(t *testing.T) (kept, out []byte) {
	t.Helper()
	dir := t.TempDir()
	name := filepath.Join(dir, "lantern.toml")
	printed(t, "new", dir)
	printed(t, "drive", name, "--virtual", "--fast", "--confirmed")
	ofMetal(t, filepath.Join(dir, "lantern.takes.jsonl"))
	printed(t, "takes", name, "--keep")
	return []byte(printed(t, "export", "motion", name)), []byte(printed(t, "export", "motion", name, "--loop", "7 s"))
}

// The schema beside each package that writes JSON is what its structs say; what is
// written keeps to it, has no key that it does not know, and none that the package does not
// name in words.
func TestTheSchemasAreThoseOfTheDocuments(t *testing.T) {
	t.Chdir(filepath.Join("..", "..", ".."))
	for _, d := range documents {
		t.Run(d.folder, func(t *testing.T) {
			file := filepath.Join("export", d.folder, "schema.json")
			text := d.schema(t, false)
			if *update {
				require.NoError(t, os.WriteFile(file, text, 0o644))
			}
			there, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(text), string(there), "go test ./cmd/internal/cli -run Schemas -update, and read what has changed")
			s, strict := compiled(t, text), compiled(t, d.schema(t, true))
			samples := d.samples(t)
			for _, v := range samples {
				assert.NoError(t, s.Validate(v))
				assert.NoError(t, strict.Validate(v))
				spoilt(t, s, v.(map[string]any))
			}
			d.named(t, samples)
		})
	}
}

// spoilt sees that a schema refuses a document that lacks a key, has a value of another
// kind in it or another name.
func spoilt(t *testing.T, s *check.Schema, v map[string]any) {
	t.Helper()
	for key, value := range v {
		delete(v, key)
		if s.Validate(v) == nil {
			assert.Contains(t, optional, key)
		}
		v[key] = true
		if value == true || value == false {
			v[key] = "true"
		}
		assert.Error(t, s.Validate(v), key)
		v[key] = value
	}
	name := v["schema"]
	v["schema"] = "seamrail-other/1"
	assert.Error(t, s.Validate(v))
	v["schema"] = name
}

// optional are the keys of documents that are left out where there is nothing to say.
var optional = []string{"by_hand", "motors", "controller", "picture", "after_shake", "closing_loops"}

var coded = regexp.MustCompile("`([^`]+)`")

// named wants every key of some documents in the words with which the package that
// writes them begins.
func (d document) named(t *testing.T, samples []any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("export", d.folder, "written.go"))
	require.NoError(t, err)
	words, said, keys := strings.ReplaceAll(string(text), "\n//     ", " "), map[string]bool{}, map[string]bool{}
	for _, m := range coded.FindAllStringSubmatch(words, -1) {
		said[m[1]] = true
	}
	for _, v := range samples {
		d.keys(v.(map[string]any), keys)
	}
	assert.Greater(t, len(keys), 5)
	for key := range keys {
		assert.True(t, said[key], "%s says nothing of %s", d.folder, key)
	}
}

// keys gathers the keys of a sample that words have to name.
func (d document) keys(v map[string]any, into map[string]bool) {
	if d.deep {
		keysOf(v, into)
		return
	}
	for key, value := range v {
		into[key] = true
		if inner, ok := value.(map[string]any); ok && d.name == planreport.Schema {
			for name := range inner {
				into[name] = true
			}
		}
	}
}

// keysOf gathers every key of a JSON value, however deep.
func keysOf(v any, into map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for key, one := range v {
			into[key] = true
			keysOf(one, into)
		}
	case []any:
		for _, one := range v {
			keysOf(one, into)
		}
	}
}
