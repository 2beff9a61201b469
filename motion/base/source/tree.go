package source

import (
	"cmp"
	"reflect"
	"slices"
	"strings"

	"seamrail/motion/base/list"
)

// Doc is a document that has been read and not yet bound: what Layers lays over
// another.
type Doc struct {
	root *node
	laid bool
}

// Parse reads a document. What stands in it is placed in the file called under, and in
// that of the report where under is "". It returns false, with what is wrong told,
// where there is nothing to go on with.
func Parse(under string, data []byte, r *Report) (*Doc, bool) {
	root, faults := parse(cmp.Or(under, r.File), under, data)
	r.Faults = append(r.Faults, faults...)
	return &Doc{root: root}, len(faults) == 0
}

// Put puts values in the place of those of the document.
func (d *Doc) Put(over []Override, r *Report) {
	for _, o := range over {
		switch {
		case o.Gone && !d.root.remove(stepsOf(o.Path)):
			r.Add(Place{Origin: o.Origin}, pathOf(stepsOf(o.Path)), "", "is not in the file, and cannot be left out", "")
		case !o.Gone && !d.root.override(o):
			r.Add(Place{Origin: o.Origin}, pathOf(stepsOf(o.Path)), quote(o.Text), "has no table to go into", "")
		}
	}
}

// Bind fills into, as Read does. It returns false if the document is empty.
func (d *Doc) Bind(into any, r *Report) bool {
	if len(d.root.entries) == 0 {
		r.Add(Place{File: d.root.place.File}, "the file", "", "is empty", "")
		return false
	}
	(&binder{r}).bind(d.root, reflect.ValueOf(into).Elem(), "")
	return true
}

// Laid tells whether the document came of Layers: what it names has been read.
func (d *Doc) Laid() bool { return d.laid }

// Top takes a key at the top out of the document and returns its value, one text or
// several. What is wrong with its shape is told.
func (d *Doc) Top(key string, r *Report) Texts {
	n := d.root.child(key)
	if n == nil {
		return Texts{}
	}
	d.root = d.root.less(key)
	var out Texts
	(&binder{r}).texts(n, reflect.ValueOf(&out).Elem(), key)
	return out
}

// less is a table without some of its keys.
func (n *node) less(keys ...string) *node {
	out := &node{shape: n.shape, place: n.place}
	for _, e := range n.entries {
		if !slices.Contains(keys, e.key) {
			out.put(e.key, e.place, e.value)
		}
	}
	return out
}

// In is a value with another file as its place.
func (t Texts) In(file string) Texts {
	t.File, t.Items = file, slices.Clone(t.Items)
	for i := range t.Items {
		t.Items[i].File = file
	}
	return t
}

// Leaf is one value of a document, where it stands, and what it stands over: the value
// of the next file below first.
type Leaf struct {
	Path  string
	Text  Text
	Below []Text
}

// Leaves are the values of a document that stand in other files, or over a value in
// another, in the order of the tree. A list of values is one.
func (l *Layers) Leaves(d *Doc) []Leaf {
	var out []Leaf
	d.root.values("", func(path string, n *node) {
		leaf := Leaf{Path: path, Text: n.told()}
		for was := l.below[n]; was != nil; was = l.below[was] {
			leaf.Below = append(leaf.Below, was.told())
		}
		if n.place.File != "" || leaf.Below != nil {
			out = append(out, leaf)
		}
	})
	return out
}

// values tells every value in a node: what is no table, nor a list of them.
func (n *node) values(path string, tell func(path string, n *node)) {
	switch {
	case n.shape == shapeTable:
		for _, e := range n.entries {
			e.value.values(join(path, e.key), tell)
		}
	case n.shape == shapeList && slices.ContainsFunc(n.items, func(i *node) bool { return i.shape == shapeTable }):
		for i, item := range n.items {
			item.values(indexed(path, i+1), tell)
		}
	default:
		tell(path, n)
	}
}

// told is a value as one text, a list as its items.
func (n *node) told() Text {
	t := n.asText()
	if len(n.items) > 0 {
		t.Text = strings.Join(list.Map(n.items, func(item *node) string { return item.told().Text }), ", ")
	}
	return t
}

// leaves tells every value that is no list, with the path that leads to it.
func (n *node) leaves(path string, tell func(path string, n *node)) {
	switch n.shape {
	case shapeTable:
		for _, e := range n.entries {
			e.value.leaves(join(path, e.key), tell)
		}
	case shapeList:
		for i, item := range n.items {
			item.leaves(indexed(path, i+1), tell)
		}
	default:
		tell(path, n)
	}
}

// Home finds in which of several documents the value at a path stands, and under which
// path there: a lamp that is third here may be the first of its own file. It returns -1
// where it stands in none.
func (d *Doc) Home(path string, among []*Doc) (which int, local string) {
	n := d.root.at(path)
	if n == nil {
		return -1, ""
	}
	for i, one := range among {
		found := ""
		one.root.leaves("", func(at string, m *node) {
			if m == n {
				found = at
			}
		})
		if found != "" {
			return i, found
		}
	}
	return -1, ""
}
