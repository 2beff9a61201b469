package shot_test

import (
	"bytes"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/shot"
)

func compile(t *testing.T) *jsonschema.Schema {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(shot.Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("schema.json", doc))
	s, err := c.Compile("schema.json")
	require.NoError(t, err)
	return s
}

func TestTheSchemaIsMadeOfTheTags(t *testing.T) { sample.Schema(t, "shot", &shot.Raw{}) }

// What decodes must also please the schema, so that no editor marks a sound
// file.
func TestTheSchemaLetsSoundShotsPass(t *testing.T) {
	schema := compile(t)
	for name, file := range sound {
		t.Run(name, func(t *testing.T) {
			_, err := shot.Decode(name, []byte(file), nil)
			require.NoError(t, err)
			assert.NoError(t, schema.Validate(read(t, file)))
		})
	}
}

// Every key has words beside it.
func TestTheSchemaDescribesEveryKey(t *testing.T) {
	for key, s := range compile(t).Properties {
		assert.NotEmpty(t, s.Description, key)
		for inner, s := range s.Properties {
			assert.NotEmpty(t, s.Description, key+"."+inner)
		}
	}
}
