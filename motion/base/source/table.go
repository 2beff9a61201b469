package source

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"seamrail/motion/base/list"
)

func (b *binder) table(n *node, v reflect.Value, path string) {
	if n.shape != shapeTable {
		b.wrongShape(n, path, "a table")
	}
	fields := fieldsOf(v, n.place)
	for _, e := range n.entries {
		key := e.key
		if _, known := fields[key]; !known {
			key = b.unknown(e, n, v.Type(), path)
		}
		for i, f := range fields[key] {
			if i > 0 { // read once: what is wrong with it is told once
				f.Set(fields[key][0])
				continue
			}
			b.bind(e.value, f, join(path, key))
		}
	}
}

// fieldsOf finds the fields of a struct by key, and tells it its place. Several
// embedded structs may have the same key.
func fieldsOf(v reflect.Value, place Place) map[string][]reflect.Value {
	fields := map[string][]reflect.Value{}
	for i := range v.NumField() {
		f, key := v.Type().Field(i), v.Type().Field(i).Tag.Get(keyTag)
		switch {
		case f.Type == placeType:
			v.Field(i).Set(reflect.ValueOf(place))
		case f.Anonymous:
			for key, inner := range fieldsOf(v.Field(i), place) {
				fields[key] = append(fields[key], inner...)
			}
		case key != "":
			fields[key] = append(fields[key], v.Field(i))
		}
	}
	return fields
}

// Elsewhere is a table that leaves keys to tables of another type: it says in words where
// those belong.
type Elsewhere interface {
	Elsewhere() (other any, bound, fit string)
}

// elsewhere reports a key that belongs into another table, and tells whether it does.
func (b *binder) elsewhere(e entry, table reflect.Type, path string) bool {
	one, ok := reflect.Zero(table).Interface().(Elsewhere)
	if !ok {
		return false
	}
	other, bound, fit := one.Elsewhere()
	if !slices.ContainsFunc(Keys(reflect.TypeOf(other)), func(k Key) bool { return k.Key == e.key }) {
		return false
	}
	b.report.Add(e.place, join(path, e.key), "", bound, fit)
	return true
}

// NoKey is said of a key that nobody reads.
const NoKey = "is not a key that means anything here"

// unknown reports a key that means nothing and returns the key it was
// probably meant to be, so that the slip does not raise a second fault for
// what it left out; or "" if there is none, or the file has that key as well.
func (b *binder) unknown(e entry, in *node, table reflect.Type, path string) string {
	if b.report.full() {
		return ""
	}
	if b.elsewhere(e, table, path) {
		return ""
	}
	keys := list.Map(Keys(table), func(k Key) string { return k.Key })
	near := Nearest(e.key, keys)
	fit := "keys here are " + strings.Join(keys, ", ")
	if near != "" {
		fit = fmt.Sprintf("did you mean %q?", near)
	}
	b.report.Add(e.place, join(path, e.key), "", NoKey, fit)
	if in.child(near) != nil {
		return ""
	}
	return near
}
