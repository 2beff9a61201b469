package source

import (
	"reflect"
	"slices"
	"strings"
	"sync"
)

// The tags of a field: its key, what its schema says of it in words, and the rules
// of that.
const (
	keyTag   = "toml"
	helpTag  = "jsonschema_description"
	rulesTag = "jsonschema"
	// sharedRule is the rule of a field whose key another struct has as well, which
	// says what the schema says of it. Its own help is added to that one's.
	sharedRule = "-"
)

// Chooser is a table that works out which words a key may have: nil for none.
type Chooser interface{ Choices(key string) []string }

// Key is one key of a table.
type Key struct {
	Key     string
	Help    string   // what the schema says of it
	Choices []string // the only words it may have, if any
	Example string   // what it could be, "" where the schema has none
	Type    reflect.Type
	Index   []int // of the first field that has it
}

// Keys returns the keys of a struct that Read fills, in the order of its schema,
// those of embedded structs too. A key that several of these have comes once, where
// it is not shared (`jsonschema:"-"`); in a struct that only shares it, at the end.
func Keys(table reflect.Type) []Key {
	found, ok := known.Load(table)
	if !ok {
		found, _ = known.LoadOrStore(table, keys(table))
	}
	return slices.Clone(found.([]Key))
}

// known has the keys of each table that was asked for: tags do not change, and to read
// them takes longer than to plan.
var known sync.Map

func keys(table reflect.Type) []Key {
	var out, shared []Key
	chooser, _ := reflect.Zero(table).Interface().(Chooser)
	for _, f := range tagged(table, nil) {
		key := f.Tag.Get(keyTag)
		k := Key{key, f.Tag.Get(helpTag), choices(chooser, key, f.Tag), example(f.Tag), f.Type, f.Index}
		if f.Tag.Get(rulesTag) == sharedRule {
			shared = append(shared, k)
		} else {
			out = append(out, k)
		}
	}
	for _, k := range shared {
		i := slices.IndexFunc(out, func(o Key) bool { return o.Key == k.Key })
		switch {
		case i < 0:
			out = append(out, k)
		case k.Help != "":
			out[i].Help = strings.TrimSpace(out[i].Help + " " + k.Help)
		}
	}
	return out
}

// tagged are the fields of a struct that have a key, those of embedded structs in
// their place, under the index from the top.
func tagged(table reflect.Type, above []int) []reflect.StructField {
	var out []reflect.StructField
	for i := range table.NumField() {
		f := table.Field(i)
		f.Index = append(slices.Clone(above), i)
		key := f.Tag.Get(keyTag)
		switch {
		case f.Anonymous:
			out = append(out, tagged(f.Type, f.Index)...)
		case key != "" && key != "-":
			out = append(out, f)
		}
	}
	return out
}

func choices(table Chooser, key string, tag reflect.StructTag) []string {
	if table != nil {
		if words := table.Choices(key); words != nil {
			return words
		}
	}
	return ruled(tag, "enum=")
}

func example(tag reflect.StructTag) string {
	for _, e := range ruled(tag, "example=") {
		return e
	}
	return ""
}

// ruled is what the rules of a schema say under a word.
func ruled(tag reflect.StructTag, word string) []string {
	var out []string
	for _, rule := range strings.Split(tag.Get(rulesTag), ",") {
		if said, ok := strings.CutPrefix(rule, word); ok {
			out = append(out, said)
		}
	}
	return out
}
