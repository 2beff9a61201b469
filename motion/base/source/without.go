package source

import (
	"fmt"
	"strings"
)

// Without is the type of a key that Layers alone looks at: it takes out what documents
// below say of a table, all of it (true) or some of its keys (a list).
type Without struct{}

// withoutKey is what such a key is called.
const withoutKey = "without"

// left is what is left of a table below, once the one above it has taken out what it
// names.
func (l *Layers) left(over, under *node, path string) *node {
	w := over.child(withoutKey)
	if w == nil {
		return under
	}
	at := join(path, withoutKey)
	if under == nil || len(under.entries) == 0 {
		l.Report.Add(w.place, at, "", "takes nothing out: no file under this one says anything of it", "leave it out")
		return nil
	}
	switch {
	case w.shape == shapeBool && w.text == "true":
		return nil
	case w.shape == shapeString:
		return l.drop(under, at, w)
	case w.shape == shapeList:
		return l.drop(under, at, w.items...)
	}
	(&binder{l.Report}).wrongShape(w, at, `true, or a list of keys such as ["height"]`)
	return under
}

// drop takes keys out of a table, each of which has to be there.
func (l *Layers) drop(under *node, path string, names ...*node) *node {
	for _, n := range names {
		if under.child(n.text) == nil {
			l.Report.Add(n.place, path, quote(n.text), "is in no file under this one", "there are "+keysOf(under))
			continue
		}
		under = under.less(n.text)
	}
	return under
}

// keysOf names the keys of a table.
func keysOf(n *node) string {
	if n == nil || len(n.entries) == 0 {
		return "none"
	}
	keys := make([]string, len(n.entries))
	for i, e := range n.entries {
		keys[i] = e.key
	}
	return strings.Join(keys, ", ")
}

// alone tells whether a table only takes out what is below: without = true and, in a
// list, its name.
func alone(n *node) bool {
	w := n.child(withoutKey)
	return w != nil && w.shape == shapeBool && len(n.less(withoutKey, nameKey).entries) == 0
}

// unnamed is what is wrong with a table of a list that takes out one that is not there.
func unnamed(under *node) string {
	names := []string{}
	if under != nil {
		for _, item := range under.items {
			if n := item.name(); n != "" {
				names = append(names, fmt.Sprintf("%q", n))
			}
		}
	}
	if len(names) == 0 {
		return "there are none"
	}
	return "there are " + strings.Join(names, ", ")
}
