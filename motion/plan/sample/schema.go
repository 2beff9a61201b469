package sample

import (
	"encoding/json"
	"reflect"
	"strconv"
	"testing"

	"github.com/invopop/jsonschema"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
)

// textMark marks a source.Text until its tags have been read: those are kept only on
// a string.
const textMark = "text"

// Schema compares kind.schema.json, which a package embeds, with the JSON schema (draft
// 2020-12) of the struct v points to, or with -update writes it. It comes from the same
// struct that source.Read fills: keys from toml tags, words from jsonschema_description
// tags, required keys, choices and examples from jsonschema tags.
func Schema(t *testing.T, kind string, v any, required ...string) {
	t.Helper()
	r := jsonschema.Reflector{
		FieldNameTag:               "toml",
		Anonymous:                  true,
		DoNotReference:             true,
		RequiredFromJSONSchemaTags: true,
		Mapper:                     leafSchema,
	}
	s := r.Reflect(v)
	settle(s)
	worked(s, reflect.TypeOf(v).Elem())
	name := kind + ".schema.json"
	s.ID, s.Title = jsonschema.ID("https://seamrail.invalid/"+name), "seamrail "+kind
	s.Required = append(s.Required, required...)
	out, err := json.MarshalIndent(s, "", "  ")
	require.NoError(t, err)
	held(t, name, string(out)+"\n")
}

func leafSchema(t reflect.Type) *jsonschema.Schema {
	switch t {
	case reflect.TypeFor[source.Text]():
		return &jsonschema.Schema{Type: "string", Format: textMark}
	case reflect.TypeFor[source.Switch]():
		return &jsonschema.Schema{Type: "boolean"}
	case reflect.TypeFor[source.Without]():
		return &jsonschema.Schema{OneOf: []*jsonschema.Schema{
			{Const: true}, {Type: "string"}, {Type: "array", Items: &jsonschema.Schema{Type: "string"}},
		}}
	case reflect.TypeFor[source.Texts]():
		// A list is of anything, and a bare number is text to the reader.
		one := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Type: "string"}, {Type: "number"}}}
		return &jsonschema.Schema{OneOf: []*jsonschema.Schema{one, {Type: "array", Items: one}}}
	}
	return nil
}

// bare tells whether an example is a bare number: such a text may be written
// without quotes.
func bare(examples []any) bool {
	for _, x := range examples {
		if text, ok := x.(string); ok {
			if _, err := strconv.ParseFloat(text, 64); err == nil {
				return true
			}
		}
	}
	return false
}

// worked writes down what the tags of one field do not say: the help that others add
// to a shared key, and the choices that a table works out.
func worked(s *jsonschema.Schema, t reflect.Type) {
	switch {
	case s == nil:
	case t.Kind() == reflect.Pointer:
		worked(s, t.Elem())
	case t.Kind() == reflect.Slice:
		worked(s.Items, t.Elem())
	case t.Kind() == reflect.Map:
		worked(s.AdditionalProperties, t.Elem())
	case t.Kind() == reflect.Struct && s.Properties != nil:
		for _, k := range source.Keys(t) {
			one, ok := s.Properties.Get(k.Key)
			if !ok {
				continue
			}
			one.Description, one.Enum = k.Help, nil
			for _, c := range k.Choices {
				one.Enum = append(one.Enum, c)
			}
			worked(one, k.Type)
		}
	}
}

// settle turns every mark into what it stands for, in s and below.
func settle(s *jsonschema.Schema) {
	if s == nil {
		return
	}
	if s.Format == textMark {
		s.Format = ""
		if bare(s.Examples) {
			s.Type = ""
			s.AnyOf = []*jsonschema.Schema{{Type: "string"}, {Type: "number"}}
		}
	}
	for _, one := range s.OneOf {
		settle(one)
	}
	settle(s.Items)
	settle(s.AdditionalProperties)
	for _, inner := range s.PatternProperties {
		settle(inner)
	}
	if s.Properties == nil {
		return
	}
	for p := s.Properties.Oldest(); p != nil; p = p.Next() {
		settle(p.Value)
	}
}
