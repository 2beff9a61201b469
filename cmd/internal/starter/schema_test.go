package starter_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

func compile(t *testing.T, schema []byte) *jsonschema.Schema {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("schema.json", doc))
	s, err := c.Compile("schema.json")
	require.NoError(t, err)
	return s
}

func check(t *testing.T, s *jsonschema.Schema, file []byte) error {
	var v map[string]any
	require.NoError(t, toml.Unmarshal(file, &v))
	return s.Validate(v)
}

func TestThePairObeysItsSchemas(t *testing.T) {
	assert.NoError(t, check(t, compile(t, shot.Schema()), starter.Shot()))
	assert.NoError(t, check(t, compile(t, rig.Schema()), starter.Rig()))
}

// Each line put into the pair must be caught by the schema.
func TestTheSchemasCatchSlips(t *testing.T) {
	for _, c := range []struct {
		name     string
		schema   []byte
		file     []byte
		old, new string
	}{
		{"misspelt key", shot.Schema(), starter.Shot(), "dwell-far", "dwel-far"},
		{"no such move", shot.Schema(), starter.Shot(), `"there-and-back"`, `"to-and-fro"`},
		{"a position without a unit", shot.Schema(), starter.Shot(), `"40 mm"`, `40`},
		{"a table for a text", shot.Schema(), starter.Shot(), `"100 mm"`, `{ mm = 100 }`},
		{"no loop", shot.Schema(), starter.Shot(), "loop     =", "#"},
		{"misspelt table", shot.Schema(), starter.Shot(), "[take]", "[takes]"},
		{"no speed", rig.Schema(), starter.Rig(), `speed        = "400 mm/s"`, ""},
		{"no such feed", rig.Schema(), starter.Rig(), `"inverse-time"`, `"inverse"`},
		{"an axis without a table", rig.Schema(), starter.Rig(), "[axis.rail]", "axis.focus = 3\n[axis.rail]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := strings.Replace(string(c.file), c.old, c.new, 1)
			require.NotEqual(t, string(c.file), file)
			assert.Error(t, check(t, compile(t, c.schema), []byte(file)))
		})
	}
}
