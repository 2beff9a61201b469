package source

import (
	"fmt"
	"reflect"

	"seamrail/motion/base/plain"
)

var (
	textType    = reflect.TypeFor[Text]()
	switchType  = reflect.TypeFor[Switch]()
	textsType   = reflect.TypeFor[Texts]()
	placeType   = reflect.TypeFor[Place]()
	withoutType = reflect.TypeFor[Without]()
)

// Read parses a document, puts the overrides into it and fills into, a
// pointer to a struct whose leaves are Text, Switch or Texts, nested as
// structs, maps of a name to a struct, and slices of structs. Fields are found
// by their toml tag, those of embedded structs too; a field of type Place gets
// the place of its table. What
// is wrong goes to the report: syntax, unknown keys, wrong shapes. It returns
// false if the document could not be read at all, and then into is untouched.
func Read(data []byte, over []Override, into any, r *Report) bool {
	d, ok := Parse("", data, r)
	if !ok {
		return false
	}
	d.Put(over, r)
	return d.Bind(into, r)
}

type binder struct{ report *Report }

func (b *binder) bind(n *node, v reflect.Value, path string) {
	switch {
	case v.Type() == textType:
		b.text(n, v, path)
	case v.Type() == switchType:
		b.switches(n, v, path)
	case v.Type() == textsType:
		b.texts(n, v, path)
	case v.Type() == withoutType: // for Layers
	case v.Kind() == reflect.Struct:
		b.table(n, v, path)
	case v.Kind() == reflect.Map:
		b.names(n, v, path)
	case v.Kind() == reflect.Slice:
		b.list(n, v, path)
	case v.Kind() == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		b.bind(n, v.Elem(), path)
	default:
		panic("source: cannot fill a " + v.Type().String())
	}
}

func (b *binder) wrongShape(n *node, path, want string) {
	fit := ""
	if n.shape == shapeDate {
		fit = "put it in quotes"
	}
	value := "(" + n.shape.words() + ")"
	if n.shape.scalar() {
		value = quote(n.text)
	}
	b.report.Add(n.place, path, value, "must be "+want, fit)
	n.place.reported = true
}

func (b *binder) text(n *node, v reflect.Value, path string) {
	if !n.shape.text() {
		b.wrongShape(n, path, "text in quotes or a number")
	}
	v.Set(reflect.ValueOf(n.asText()))
}

func (n *node) asText() Text {
	t := Text{Text: plain.Text(n.text), Line: n.place.Line, Column: n.place.Column, Origin: n.place.Origin, File: n.place.File, Set: true, reported: n.place.reported}
	if t.Text != n.text {
		t.written = n.text
	}
	return t
}

func (b *binder) switches(n *node, v reflect.Value, path string) {
	flag := n.place.Origin != "" && (n.text == "true" || n.text == "false")
	if n.shape != shapeBool && !flag {
		b.wrongShape(n, path, "true or false, without quotes")
		return
	}
	v.Set(reflect.ValueOf(Switch{n.text == "true", n.place.Line, n.place.Column, n.place.Origin, n.place.File, true}))
}

func (b *binder) texts(n *node, v reflect.Value, path string) {
	t := Texts{Line: n.place.Line, Column: n.place.Column, Origin: n.place.Origin, File: n.place.File, Set: true}
	items := n.items
	switch {
	case n.shape.text():
		t.Single, items = true, []*node{n}
	case n.shape != shapeList:
		b.wrongShape(n, path, "text in quotes, or a list of them")
		t.reported = true
	}
	for i, item := range items {
		var one Text
		b.text(item, reflect.ValueOf(&one).Elem(), fmt.Sprintf("%s[%d]", path, i+1))
		t.Items = append(t.Items, one)
	}
	v.Set(reflect.ValueOf(t))
}

func (b *binder) list(n *node, v reflect.Value, path string) {
	if n.shape != shapeList {
		b.wrongShape(n, path, "a list, in [ ]")
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		b.bind(item, v.Index(i), fmt.Sprintf("%s[%d]", path, i+1))
	}
}

func (b *binder) names(n *node, v reflect.Value, path string) {
	if n.shape != shapeTable {
		b.wrongShape(n, path, "a table")
		return
	}
	v.Set(reflect.MakeMap(v.Type()))
	for _, e := range n.entries {
		one := reflect.New(v.Type().Elem()).Elem()
		b.bind(e.value, one, join(path, e.key))
		v.SetMapIndex(reflect.ValueOf(e.key), one)
	}
}
