package source

import (
	"fmt"
	"maps"
	"reflect"
	"strings"
)

func (b *binder) table(n *node, v reflect.Value, path string) {
	if n.shape != shapeTable {
		b.wrongShape(n, path, "a table")
		n.place.reported = true
	}
	fields, keys := fieldsOf(v, n.place)
	for _, e := range n.entries {
		key := e.key
		if _, known := fields[key]; !known {
			key = b.unknown(e, n, keys, path)
		}
		if f, ok := fields[key]; ok {
			b.bind(e.value, f, join(path, key))
		}
	}
}

// fieldsOf finds the fields of a struct by key, and tells it its place.
func fieldsOf(v reflect.Value, place Place) (map[string]reflect.Value, []string) {
	fields, keys := map[string]reflect.Value{}, []string{}
	for i := range v.NumField() {
		f, key := v.Type().Field(i), v.Type().Field(i).Tag.Get("toml")
		switch {
		case f.Type == placeType:
			v.Field(i).Set(reflect.ValueOf(place))
		case f.Anonymous:
			inner, more := fieldsOf(v.Field(i), place)
			maps.Copy(fields, inner)
			keys = append(keys, more...)
		case key != "":
			fields[key] = v.Field(i)
			keys = append(keys, key)
		}
	}
	return fields, keys
}

// unknown reports a key that means nothing and returns the key it was
// probably meant to be, so that the slip does not raise a second fault for
// what it left out; or "" if there is none, or the file has that key as well.
func (b *binder) unknown(e entry, in *node, keys []string, path string) string {
	if b.report.full() {
		return ""
	}
	near := Nearest(e.key, keys)
	fit := "keys here are " + strings.Join(keys, ", ")
	if near != "" {
		fit = fmt.Sprintf("did you mean %q?", near)
	}
	b.report.Add(e.place, join(path, e.key), "", "is not a key that means anything here", fit)
	if in.child(near) != nil {
		return ""
	}
	return near
}
