package sequence_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan/sample"
)

const base = `sequence = "The clip"
[[shot]]
file = "a.toml"
`

const everything = `sequence = "The clip"
playback = 24
timecode = "01:00:00:00"
drop-frame = false
takes = 4

[card]
frame-size = "2.4 MB"
size = "128 GB"
lead = "1.5 s"

[day]
rig-change = "30 min"
light-change = "10 min"
between-takes = "40 s"

[[shot]]
file = "a.toml"
from = "12 frames"
length = "48 frames"
takes = 5
rig = "low"
light = "key left"

[[shot]]
file = "more/b.toml"
rounds = 2
`

func TestDecode(t *testing.T) {
	s, err := sequence.Decode("f.toml", []byte(everything), nil)
	require.NoError(t, err)
	assert.Equal(t, "The clip", s.Title)
	assert.Equal(t, "24", s.Playback.String())
	assert.Equal(t, "2400000", s.Card.Frame.String())
	assert.Equal(t, "3/2", s.Card.Lead.String())
	assert.True(t, s.Card.Known())
	assert.Equal(t, sequence.Day{RigChange: exact.Int(1800), LightChange: exact.Int(600), Between: exact.Int(40), CountIn: exact.Int(3), Timed: true}, s.Day)
	require.Len(t, s.Entries, 2)
	a, b := s.Entries[0], s.Entries[1]
	assert.Equal(t, unit.Quantity{Value: exact.Int(12), Dim: unit.Frames}.String(), a.From.String())
	assert.Equal(t, "48 frames", a.Length.String())
	assert.Equal(t, []any{5, "low", "key left"}, []any{a.Takes, a.Rig, a.Light})
	assert.Equal(t, []any{"more/b.toml", int64(2), 4}, []any{b.File, b.Rounds, b.Takes})
	assert.Empty(t, s.Defaults)
}

func TestTakesOfAFlag(t *testing.T) {
	s, err := sequence.Decode("f.toml", []byte(everything), []source.Override{{Path: "takes", Text: "7", Origin: "--takes"}})
	require.NoError(t, err)
	assert.Equal(t, []int{5, 7}, []int{s.Entries[0].Takes, s.Entries[1].Takes})
	_, err = sequence.Decode("f.toml", []byte(everything), []source.Override{{Path: "takes", Text: "0", Origin: "--takes"}})
	assert.ErrorContains(t, err, `--takes: takes "0" must be from 1 to 1000`)
}

func TestDefaultsAreTold(t *testing.T) {
	s, err := sequence.Decode("f.toml", []byte("[[shot]]\nfile = \"a.toml\"\n"), nil)
	require.NoError(t, err)
	var keys []string
	for _, d := range s.Defaults {
		keys = append(keys, d.Key)
	}
	assert.Equal(t, []string{"sequence", "card.lead", "takes", "shot[1].length"}, keys)
	assert.Equal(t, 3, s.Entries[0].Takes)
	assert.False(t, s.Card.Known())
}

func TestFaults(t *testing.T) {
	for text, want := range map[string]string{
		"":                                                 "f.toml: the file is empty",
		"sequence = \"x\"\n":                               "shot is missing; a sequence has at least one [[shot]]",
		base + "lenght = \"2 s\"\n":                        `f.toml:4:1: shot[1].lenght is not a key that means anything here; did you mean "length"?`,
		"[[shot]]\ntakes = 2\n":                            `shot[1].file is missing`,
		base + "from = \"-1 frames\"\n":                    `f.toml:4:8: shot[1].from "-1 frames" must be 0 or more`,
		base + "from = \"1.5 frames\"\n":                   `must be a whole number of frames; 1 or 2 frames would do`,
		base + "from = \"2 mm\"\n":                         `it must be a time`,
		base + "length = \"0 s\"\n":                        `must be above 0`,
		base + "length = 48\n":                             `"48" needs a unit, such as "48 s" or "48 frames"`,
		base + "length = \"2 s\"\nrounds = 2\n":            `shot[1].rounds "2" is given, and so is length; keep one of the two`,
		base + "rounds = 0\n":                              `must be from 1 to`,
		base + "takes = 0\n":                               `shot[1].takes "0" must be from 1 to 1000`,
		"takes = 0.5\n" + base[strings.Index(base, "[["):]: `must be from 1 to 1000`,
		"playback = \"fast\"\n" + base:                     `frame rate`,
		"[card]\nbitrate = \"400 Mb/s\"\n" + base[strings.Index(base, "[["):]:                              `card.bitrate "400 Mb/s" must be a number and one of Gbit/s`,
		"[card]\nlead = \"-1 s\"\n" + base[strings.Index(base, "[["):]:                                     `must be from 0 s to a week`,
		"[day]\nrig-change = \"30 min\"\n" + base[strings.Index(base, "[["):]:                              `day.light-change is missing`,
		"[day]\nlight-change = \"30 frames\"\nrig-change = \"1 min\"\n" + base[strings.Index(base, "[["):]: `day.light-change "30 frames" is a count of frames`,
		strings.Repeat("[[shot]]\nfile = \"a.toml\"\n", 101):                                               `f.toml:201:3: shot 101 must be at most 100`,
	} {
		_, err := sequence.Decode("f.toml", []byte(text), nil)
		var list fault.List
		if assert.ErrorAs(t, err, &list, text) {
			assert.ErrorContains(t, err, want, text)
		}
	}
}

func TestNamesStayInTheFolder(t *testing.T) {
	for _, name := range []string{"", "../../a.toml", "a/../../b.toml", "/etc/a.toml", "./a.toml", "a//b.toml", "a/", `..\\a.toml`, "c:a.toml",
		"a\\u0000.toml", strings.Repeat("a", 1001)} {
		_, err := sequence.Decode("f.toml", fmt.Appendf(nil, "[[shot]]\nfile = \"%s\"\n", name), nil)
		assert.ErrorContains(t, err, "must be a file in the folder of the sequence or below it", name)
	}
	for _, name := range []string{"a.toml", "more/a.toml", "..a.toml", "a b.toml", "übung.toml"} {
		_, err := sequence.Decode("f.toml", fmt.Appendf(nil, "[[shot]]\nfile = %q\n", name), nil)
		assert.NoError(t, err, name)
	}
}

func TestFaultsOfAFile(t *testing.T) {
	s, err := sequence.Decode("f.toml", []byte(base), nil)
	require.NoError(t, err)
	assert.Equal(t, `f.toml:3:8: shot[1].file "a.toml" is not there; did you mean "b.toml"?`, s.Entries[0].Missing("f.toml", "b.toml").String())
	assert.Contains(t, s.Entries[0].Missing("f.toml", "").String(), "is looked for in the folder of the sequence")
	assert.Equal(t, `f.toml:3:8: shot[1].file "a.toml" is a folder`, s.Entries[0].Unfit("f.toml", "is a folder").String())
}

func TestTheSchemaIsMadeOfTheTags(t *testing.T) { sample.Schema(t, "sequence", &sequence.Raw{}) }

func TestTheSchemaTakesWhatDecodeTakes(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(sequence.Schema())))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("s.json", doc))
	schema, err := c.Compile("s.json")
	require.NoError(t, err)
	check := func(text string) error {
		var v map[string]any
		require.NoError(t, toml.Unmarshal([]byte(text), &v))
		return schema.Validate(v)
	}
	assert.NoError(t, check(everything))
	assert.Error(t, check(strings.Replace(everything, "from =", "form =", 1)))
	assert.Error(t, check("sequence = \"x\"\n"))
	assert.Error(t, check("[[shot]]\ntakes = 3\n"))
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(everything))
	f.Add([]byte(base))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := sequence.Decode("f.toml", data, nil)
		var list fault.List
		if err != nil && !errors.As(err, &list) {
			t.Fatalf("%v is no list of faults", err)
		}
		for _, e := range s.Entries {
			if strings.HasPrefix(e.File, "/") || strings.Contains("/"+e.File+"/", "/../") {
				t.Fatalf("%q leaves the folder", e.File)
			}
			if e.Takes < 1 || e.Rounds < 1 || e.From.Value.Sign() < 0 || e.Length.Value.Sign() < 0 {
				t.Fatalf("%+v", e)
			}
		}
	})
}
