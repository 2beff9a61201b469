package source

import "reflect"

// Shelve lays under each table of a document what the files say that it names, as open
// gives them: nil where there is none.
func (l *Layers) Shelve(d *Doc, open func(kind, path string, named Text) *Doc) *Doc {
	out := *d
	out.root = l.shelved(d.root, l.like(), "", open)
	return &out
}

// shelved is a value with what is on the shelf for the tables in it.
func (l *Layers) shelved(n *node, t reflect.Type, path string, open func(kind, path string, named Text) *Doc) *node {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case n.shape == shapeTable && holdsKeys(t):
		return l.onShelf(n, t, path, open)
	case n.shape == shapeTable && t.Kind() == reflect.Map:
		out := n.less()
		for _, e := range n.entries {
			out.put(e.key, e.place, l.shelved(e.value, t.Elem(), join(path, e.key), open))
		}
		return out
	case n.shape == shapeList && t.Kind() == reflect.Slice:
		out := &node{shape: shapeList, place: n.place}
		for i, item := range n.items {
			out.items = append(out.items, l.shelved(item, t.Elem(), indexed(path, i+1), open))
		}
		return out
	}
	return n
}

func (l *Layers) onShelf(n *node, t reflect.Type, path string, open func(kind, path string, named Text) *Doc) *node {
	fields := fieldsByKey(t)
	out := n.less()
	for _, e := range n.entries {
		f, known := fields[e.key]
		if !known {
			continue
		}
		at := join(path, e.key)
		if kind := f.Tag.Get(shelfTag); kind != "" && e.value.shape.text() {
			if d := open(kind, at, e.value.asText()); d != nil {
				out = l.table(out, d.root, t, path, true)
			}
			continue
		}
		out.put(e.key, e.place, l.shelved(e.value, f.Type, at, open))
	}
	return out
}
