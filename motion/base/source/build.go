package source

import "github.com/pelletier/go-toml/v2/unstable"

// place finds the line and column of a range of the document.
func (b *builder) place(r unstable.Range) Place {
	line, column := b.at.of(int(r.Offset))
	return Place{Line: line, Column: column, File: b.file}
}

// expression adds one line of the document and returns the table that the
// next key goes into.
func (b *builder) expression(root, at *node, x *unstable.Node) *node {
	switch x.Kind {
	case unstable.Table:
		return b.walk(root, x.Key(), true)
	case unstable.ArrayTable:
		return b.listTable(root, x.Key())
	case unstable.KeyValue:
		b.keyValue(at, x)
	}
	return at
}

// walk goes down a dotted key; the last part too if whole is set.
func (b *builder) walk(n *node, keys unstable.Iterator, whole bool) *node {
	for keys.Next() {
		if keys.IsLast() && !whole {
			return n
		}
		k := keys.Node()
		next := n.table(string(k.Data), b.place(k.Raw))
		if next == nil { // the TOML checker lets no such document through
			return &node{shape: shapeTable}
		}
		n = next
	}
	return n
}

func last(keys unstable.Iterator) *unstable.Node {
	var k *unstable.Node
	for keys.Next() {
		k = keys.Node()
	}
	return k
}

func (b *builder) listTable(root *node, keys unstable.Iterator) *node {
	parent := b.walk(root, keys, false)
	k := last(keys)
	place := b.place(k.Raw)
	list := parent.child(string(k.Data))
	if list == nil || list.shape != shapeList {
		list = &node{shape: shapeList, place: place}
		parent.put(string(k.Data), place, list)
	}
	item := &node{shape: shapeTable, place: place}
	list.items = append(list.items, item)
	return item
}

func (b *builder) keyValue(at *node, x *unstable.Node) {
	parent := b.walk(at, x.Key(), false)
	k := last(x.Key())
	place := b.place(k.Raw)
	parent.put(string(k.Data), place, b.value(x.Value(), place))
}

// value turns a syntax node into a node; near is where its key is, for values
// whose own place the parser does not keep.
func (b *builder) value(x *unstable.Node, near Place) *node {
	n := &node{place: near, text: string(x.Data)}
	if x.Raw.Length > 0 {
		n.place = b.place(x.Raw)
	}
	switch x.Kind {
	case unstable.InlineTable:
		n.shape, n.text = shapeTable, ""
		for it := x.Children(); it.Next(); {
			b.keyValue(n, it.Node())
		}
	case unstable.Array:
		n.shape, n.text = shapeList, ""
		for it := x.Children(); it.Next(); {
			n.items = append(n.items, b.value(it.Node(), near))
		}
	case unstable.String:
		n.shape = shapeString
	case unstable.Bool:
		n.shape = shapeBool
	case unstable.Integer, unstable.Float:
		n.shape, n.text = shapeNumber, plainNumber(n.text)
	default:
		n.shape = shapeDate
	}
	return n
}
