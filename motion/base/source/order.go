package source

import (
	"cmp"
	"slices"
)

// InOrder returns the keys of a table in the order of the file, then those of
// documents under it, and then those that flags added, by name.
func InOrder[T any](table map[string]T, place func(T) Place) []string {
	var keys []string
	for key := range table {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b string) int {
		p, q := place(table[a]), place(table[b])
		return cmp.Or(
			cmp.Compare(p.fromFlag(), q.fromFlag()), cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line),
			cmp.Compare(p.Column, q.Column), cmp.Compare(a, b))
	})
	return keys
}

func (p Place) fromFlag() int {
	if p.Line == 0 {
		return 1
	}
	return 0
}
