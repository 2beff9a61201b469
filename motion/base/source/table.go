package source

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"seamrail/motion/base/list"
)

func (b *binder) table(n *node, v reflect.Value, path string) {
	if n.shape != shapeTable {
		b.wrongShape(n, path, "a table")
	}
	fields := fieldsOf(v.Type())
	for _, at := range fields.places {
		v.FieldByIndex(at).Set(reflect.ValueOf(n.place))
	}
	for _, e := range n.entries {
		key := e.key
		if _, known := fields.of[key]; !known {
			key = b.unknown(e, n, v.Type(), path)
		}
		for i, at := range fields.of[key] {
			f := v.FieldByIndex(at)
			if i > 0 { // read once: what is wrong with it is told once
				f.Set(v.FieldByIndex(fields.of[key][0]))
				continue
			}
			b.bind(e.value, f, join(path, key))
		}
	}
}

// tableFields are the fields of a struct, by their indices (reflect.Value.FieldByIndex).
type tableFields struct {
	places [][]int            // that are told where the table stands
	of     map[string][][]int // by their key, which several embedded structs may have
}

// fieldsSeen has them of each struct that was read into: they do not change.
var fieldsSeen sync.Map

func fieldsOf(table reflect.Type) tableFields {
	if found, ok := fieldsSeen.Load(table); ok {
		return found.(tableFields)
	}
	out := tableFields{of: map[string][][]int{}}
	for i := range table.NumField() {
		f, at := table.Field(i), []int{i}
		key := f.Tag.Get(keyTag)
		switch {
		case f.Type == placeType:
			out.places = append(out.places, at)
		case f.Anonymous:
			inner := fieldsOf(f.Type)
			out.places = append(out.places, from(i, inner.places)...)
			for key, all := range inner.of {
				out.of[key] = append(out.of[key], from(i, all)...)
			}
		case key != "":
			out.of[key] = append(out.of[key], at)
		}
	}
	fieldsSeen.Store(table, out)
	return out
}

// from are the indices of fields as seen from the struct that embeds theirs as its i-th.
func from(i int, fields [][]int) [][]int {
	return list.Map(fields, func(at []int) []int { return append([]int{i}, at...) })
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
