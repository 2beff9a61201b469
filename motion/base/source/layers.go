package source

import (
	"reflect"
	"slices"
	"strings"
	"sync"
)

// Tags of a field that say how documents lie over each other.
const (
	// shelfTag is of a key that names a file in which one thing is described, such as
	// "lens". Whoever names another takes that thing away, with all that was said of it.
	shelfTag = "shelf"
	// insteadTag is of a key that says in another way what others say: given above, it
	// takes the place of those below.
	insteadTag = "instead"
	// nameKey is what tables of a list are known by.
	nameKey = "name"
)

// Layers lays documents over each other: what stands above takes the place of what is
// below, value by value. Tables are joined key by key, tables of a list by their names;
// any other list is one value.
type Layers struct {
	Like    any            // what the documents fill in the end, as Doc.Bind takes it
	Shelves map[string]any // what a file of a kind fills that a value with the tag shelf names
	Knows   func(above, below string) bool
	Same    func(a, b Text) bool // whether two values with the tag shelf name one file
	Report  *Report

	below map[*node]*node // which value a value stands over
}

// Over lays a document over another, neither of which is changed. Where Knows says that
// the file above was written without the one below in mind, both may not name a file for
// the same thing.
func (l *Layers) Over(over, under *Doc) *Doc {
	root := l.table(over.root, under.root, l.like(), "", false)
	if root == nil {
		root = &node{shape: shapeTable, place: over.root.place}
	}
	return &Doc{root: root, laid: true}
}

func (l *Layers) like() reflect.Type { return reflect.TypeOf(l.Like).Elem() }

// Nothing is a document to lay the first one over.
func Nothing() *Doc { return &Doc{root: &node{shape: shapeTable}} }

// fieldsByKey are the fields of a struct by their keys.
func fieldsByKey(t reflect.Type) map[string]reflect.StructField {
	if known, ok := tables.Load(t); ok {
		return known.(map[string]reflect.StructField)
	}
	out := map[string]reflect.StructField{}
	for _, f := range tagged(t, nil) {
		if key := f.Tag.Get(keyTag); out[key].Type == nil {
			out[key] = f
		}
	}
	tables.Store(t, out)
	return out
}

// tables are the fields of structs that have been looked at: there are as many as types.
var tables sync.Map

// table lays a table over another; nil where nothing is left of either. From a shelf
// comes what is below the file that names it: nothing there takes its place but the
// values themselves.
func (l *Layers) table(over, under *node, t reflect.Type, path string, shelf bool) *node {
	fields := fieldsByKey(t)
	_, may := fields[withoutKey]
	if may {
		if under = l.left(over, under, path); under == nil && alone(over) {
			return nil
		}
	}
	if under == nil {
		under = &node{shape: shapeTable}
	}
	if !shelf {
		under = l.displaced(over, under, fields, path)
	}
	if may {
		over = over.less(withoutKey)
	}
	return l.joined(over, under, func(key string) reflect.Type { return fields[key].Type }, path, shelf)
}

// joined lays the keys of a table over those of another.
func (l *Layers) joined(over, under *node, of func(key string) reflect.Type, path string, shelf bool) *node {
	out := under.less()
	out.place = over.place
	for _, e := range over.entries {
		if v := l.value(e.value, under.child(e.key), of(e.key), join(path, e.key), shelf); v != nil {
			out.put(e.key, e.place, v)
		} else {
			out = out.less(e.key)
		}
	}
	return out
}

// displaced is a table below without what keys above take the place of.
func (l *Layers) displaced(over, under *node, fields map[string]reflect.StructField, path string) *node {
	for _, e := range over.entries {
		var gone []string
		if others := fields[e.key].Tag.Get(insteadTag); others != "" {
			gone = strings.Split(others, ",")
		}
		if kind := fields[e.key].Tag.Get(shelfTag); kind != "" && !l.same(e.value, under.child(e.key)) {
			l.clash(e.value, under.child(e.key), join(path, e.key))
			for _, k := range Keys(reflect.TypeOf(l.Shelves[kind]).Elem()) {
				gone = append(gone, k.Key)
			}
		}
		if gone != nil {
			under = under.less(gone...)
		}
	}
	return under
}

// same tells whether two values name one file.
func (l *Layers) same(over, under *node) bool {
	return under != nil && l.Same(over.asText(), under.asText())
}

// clash tells of two files for one thing, named by files that know nothing of each
// other.
func (l *Layers) clash(over, under *node, path string) {
	if under == nil || l.Knows(over.place.File, under.place.File) {
		return
	}
	l.Report.Add(over.place, path, quote(over.text), "is another than "+quote(under.text)+" of "+under.place.String(),
		"both lie under one file, and neither knows of the other; name one of them there, or take the other out with without = true")
}

func (l *Layers) value(over, under *node, t reflect.Type, path string, shelf bool) *node {
	for t != nil && t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	kind := over.shape
	switch {
	case t == nil: // no key that means anything
	case kind == shapeTable && holdsKeys(t):
		return l.table(over, ofShape(under, shapeTable), t, path, shelf)
	case kind == shapeTable && t.Kind() == reflect.Map:
		if under = ofShape(under, shapeTable); under == nil {
			under = &node{shape: shapeTable}
		}
		return l.joined(over, under, func(string) reflect.Type { return t.Elem() }, path, shelf)
	case kind == shapeList && t.Kind() == reflect.Slice && holdsKeys(t.Elem()) && fieldsByKey(t.Elem())[nameKey].Type != nil:
		return l.list(over, ofShape(under, shapeList), t.Elem(), path, shelf)
	}
	if under != nil && over.told().Text != under.told().Text {
		if l.below == nil {
			l.below = map[*node]*node{}
		}
		l.below[over] = under
	}
	return over
}

// holdsKeys tells a table from the values that are structs to Go.
func holdsKeys(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t != textType && t != textsType && t != switchType && t != withoutType
}

func ofShape(n *node, s shape) *node {
	if n == nil || n.shape != s {
		return nil
	}
	return n
}

// name is what a table of a list is known by, "" where it does not say.
func (n *node) name() string {
	if c := n.child(nameKey); c != nil && c.shape.scalar() {
		return c.text
	}
	return ""
}

// list lays the tables of a list over those of the same names below, in their places,
// and adds the others.
func (l *Layers) list(over, under *node, t reflect.Type, path string, shelf bool) *node {
	out := &node{shape: shapeList, place: over.place}
	if under != nil {
		out.items = append(out.items, under.items...)
	}
	below := len(out.items)
	took := map[int]bool{}
	for _, item := range over.items {
		at, name := l.find(out.items[:below], item, path)
		where := indexed(path, len(out.items)+1)
		var was *node
		if at >= 0 {
			where, was = indexed(path, at+1), out.items[at]
			if took[at] {
				l.Report.Add(item.place, path, quote(name), "is named twice here", "write all that changes of it into one table")
				continue
			}
			took[at] = true
		} else if item.child(withoutKey) != nil {
			bound := "takes nothing out: no file under this one has one of the name " + quote(name)
			if name == "" {
				bound = "takes nothing out, as this has no name to know it by"
			}
			l.Report.Add(item.child(withoutKey).place, where+"."+withoutKey, "", bound, unnamed(under))
			continue
		}
		v := l.value(item, was, t, where, shelf)
		if at >= 0 {
			out.items[at] = v
		} else if v != nil {
			out.items = append(out.items, v)
		}
	}
	out.items = slices.DeleteFunc(out.items, func(n *node) bool { return n == nil }) // taken out
	return out
}

// find is the place of the table below that has the name of one above, -1 where there is
// none. Two of one name below cannot be told apart.
func (l *Layers) find(below []*node, item *node, path string) (at int, name string) {
	at, name = -1, item.name()
	if name == "" {
		return at, name
	}
	for i, n := range below {
		switch {
		case n == nil || n.name() != name:
		case at >= 0:
			l.Report.Add(item.place, path, quote(name), "is the name of two in the files under this one", "give them names of their own, such as "+quote(name+" 2"))
			return at, name
		default:
			at = i
		}
	}
	return at, name
}
