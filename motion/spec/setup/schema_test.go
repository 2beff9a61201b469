package setup_test

import (
	"bytes"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/setup"
)

func TestTheSchemasAreMadeOfTheTags(t *testing.T) {
	for kind, like := range map[string]any{"set-up": &setup.Raw{}, "camera": &setup.RawCamera{}, "lens": &setup.RawLens{}, "lamp": &setup.RawLamp{}} {
		sample.Schema(t, kind, like)
	}
}

func schema(t *testing.T, kind string) *jsonschema.Schema {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(setup.Schemas()[kind+".schema.json"]))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("schema.json", doc))
	s, err := c.Compile("schema.json")
	require.NoError(t, err)
	return s
}

// No editor marks what is sound, and each marks what is not.
func TestTheSchemasKnowSoundFiles(t *testing.T) {
	for _, x := range []struct {
		kind, text string
		sound      bool
	}{
		{"set-up", table, true}, {"camera", body, true}, {"lens", fifty, true}, {"lamp", panel, true},
		{"set-up", "set-up = \"x\"\n[[scene.lamps]]\nname = \"key\"\nwithout = true\n[scene.product]\nwithout = [\"radius\"]\n", true},
		{"set-up", "set-up = \"x\"\n[scene.product]\nwithout = false\n", false},
		{"set-up", "set-up = \"x\"\n[axis.rail]\nfrom = \"1 mm\"\n", false}, {"set-up", "[clock]\nplayback = 24\n", false},
		{"set-up", "set-up = \"x\"\n[clock]\nloop = \"1 s\"\n", false}, {"lens", fifty + "aperture = \"f/4\"\n", false},
		{"camera", fifty, false}, {"lamp", "lumens = 3\n", false},
	} {
		var doc map[string]any
		require.NoError(t, toml.Unmarshal([]byte(x.text), &doc))
		assert.Equal(t, x.sound, schema(t, x.kind).Validate(doc) == nil, x.text)
	}
}

// Every key has words beside it.
func TestTheSchemasDescribeEveryKey(t *testing.T) {
	for _, kind := range []string{"set-up", "camera", "lens", "lamp"} {
		for key, s := range schema(t, kind).Properties {
			assert.NotEmpty(t, s.Description, kind+": "+key)
		}
	}
}
