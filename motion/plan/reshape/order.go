package reshape

import (
	"reflect"
	"slices"
	"strings"

	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/shot"
)

// after are the paths behind which a new table has its place, the first being looked for
// first: its like, what the schema has before it in the same table, that table, and what
// the schema has before that.
func after(path string) []string {
	var out []string
	steps := parts(path)
	table := reflect.TypeFor[shot.Raw]()
	above := ""
	var tops [][]string
	for _, key := range steps {
		if strings.HasPrefix(key, "[") {
			above += key
			continue
		}
		all := keysOf(table)
		i := slices.IndexFunc(all, func(k source.Key) bool { return k.Key == key })
		here := source.Join(key)
		if above != "" {
			here = above + "." + here
		}
		before := []string{here}
		for j := i - 1; j >= 0; j-- {
			before = append(before, joined(above, all[j].Key))
		}
		if i < 0 { // a name of the shot's own
			before = []string{above}
		} else {
			table = elem(all[i].Type)
		}
		tops = append(tops, before)
		above = here
	}
	for _, before := range slices.Backward(tops) {
		out = append(out, before...)
	}
	return out
}

func joined(above, key string) string {
	if above == "" {
		return source.Join(key)
	}
	return above + "." + source.Join(key)
}

// keysOf are the keys of a table, none of what is no table of fixed keys.
func keysOf(t reflect.Type) []source.Key {
	if t.Kind() != reflect.Struct {
		return nil
	}
	return source.Keys(t)
}

// elem is the type of a table behind pointers, lists and names.
func elem(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
		t = t.Elem()
	}
	return t
}

// schemaOf are the keys of the table at a path.
func schemaOf(path string) []source.Key {
	t := reflect.TypeFor[shot.Raw]()
	if path == "" {
		return keysOf(t)
	}
	named := false // the next step is a name of the shot's own
	for _, step := range parts(path) {
		if strings.HasPrefix(step, "[") || named {
			named = false
			continue
		}
		all := keysOf(t)
		i := slices.IndexFunc(all, func(k source.Key) bool { return k.Key == step })
		if i < 0 {
			return nil
		}
		named = all[i].Type.Kind() == reflect.Map
		t = elem(all[i].Type)
	}
	return keysOf(t)
}

// keyOf is one key of the schema by its path.
func keyOf(path string) (source.Key, bool) {
	table, key := split(path)
	all := schemaOf(table)
	i := slices.IndexFunc(all, func(k source.Key) bool { return k.Key == key })
	if i < 0 {
		return source.Key{}, false
	}
	return all[i], true
}

// split is a path without its last key, and that.
func split(path string) (table, key string) {
	steps := parts(path)
	key = steps[len(steps)-1]
	table = strings.TrimSuffix(strings.TrimSuffix(path, source.Join(key)), ".")
	return table, key
}

// names are the tables under a key.
func names[T any](m map[string]T, place func(T) source.Place) []string {
	return list.Map(source.InOrder(m, place), func(n string) string { return n })
}
