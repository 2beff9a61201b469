package source

import (
	"slices"
	"strconv"
	"strings"
)

// shape is what a value looks like in the file.
type shape int

const (
	shapeTable shape = iota
	shapeList
	shapeString
	shapeNumber
	shapeBool
	shapeDate
)

// words names a shape for a fault.
func (s shape) words() string {
	return [...]string{"a table", "a list", "text", "a number", "true or false", "a date or time"}[s]
}

func (s shape) scalar() bool { return s != shapeTable && s != shapeList }

// text tells whether a value is read as a text.
func (s shape) text() bool { return s == shapeString || s == shapeNumber }

// node is a value with its place, and what is inside it.
type node struct {
	shape   shape
	text    string
	place   Place
	entries []entry        // of a table, in the order of the file
	index   map[string]int // of a key in entries
	items   []*node        // of a list
}

// entry is one key of a table.
type entry struct {
	key   string
	place Place // of the key
	value *node
}

func (n *node) child(key string) *node {
	if i, ok := n.index[key]; ok {
		return n.entries[i].value
	}
	return nil
}

// table returns the table under key, made if it is not there. A list gives its
// last table. It returns nil where something else is in the way.
func (n *node) table(key string, place Place) *node {
	c := n.child(key)
	if c == nil {
		c = &node{shape: shapeTable, place: place}
		n.put(key, place, c)
		return c
	}
	if c.shape == shapeList && len(c.items) > 0 {
		c = c.items[len(c.items)-1]
	}
	if c.shape != shapeTable {
		return nil
	}
	return c
}

func (n *node) put(key string, place Place, value *node) {
	if i, ok := n.index[key]; ok {
		n.entries[i].value = value
		return
	}
	if n.index == nil {
		n.index = map[string]int{}
	}
	n.index[key] = len(n.entries)
	n.entries = append(n.entries, entry{key, place, value})
}

// override puts the value of o into the document and reports whether it
// could: it cannot go inside a value that is not a table.
func (n *node) override(o Override) bool {
	place := Place{Origin: o.Origin}
	path := stepsOf(o.Path)
	for _, s := range path[:len(path)-1] {
		if s.item != 0 {
			n = n.item(s)
		} else {
			n = n.table(s.key, place)
		}
		if n == nil || n.shape != shapeTable {
			return false
		}
	}
	last, value := path[len(path)-1], node{shape: shapeString, text: o.Text, place: place}
	if last.item == 0 {
		n.put(last.key, place, &value)
		return true
	}
	there := n.item(last)
	if there != nil {
		*there = value
	}
	return there != nil
}

// item is the one of a list that a step of a path names, nil where there is none.
func (n *node) item(s pathStep) *node {
	c := n.child(s.key)
	if c == nil || s.item < 1 || s.item > len(c.items) {
		return nil
	}
	return c.items[s.item-1]
}

// remove takes what is at a path out of the document and reports whether it was there.
func (n *node) remove(path []pathStep) bool {
	for _, s := range path[:len(path)-1] {
		if n = n.child(s.key); n == nil {
			return false
		}
	}
	key := path[len(path)-1].key
	i, ok := n.index[key]
	if !ok {
		return false
	}
	n.entries = slices.Delete(n.entries, i, i+1)
	clear(n.index)
	for i, e := range n.entries {
		n.index[e.key] = i
	}
	return true
}

// plainNumber writes a TOML number without underscores, signs of base or a
// leading plus, so that its reader need not know TOML.
func plainNumber(s string) string {
	s = strings.ReplaceAll(s, "_", "")
	if len(s) > 2 && s[0] == '0' && strings.ContainsRune("xob", rune(s[1])) {
		if v, err := strconv.ParseInt(s, 0, 64); err == nil {
			return strconv.FormatInt(v, 10)
		}
	}
	return strings.TrimPrefix(s, "+")
}
