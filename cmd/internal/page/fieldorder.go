package page

import (
	"cmp"
	"slices"
	"strings"
	"sync"
)

// fieldOrder is what whoever makes a shot, or sets up a rig, thinks of first: tables by
// their kind, and keys of a table. Tables below one are with it, what is not named comes
// after, and within that the order of the schema stays.
type fieldOrder struct {
	tables []string
	keys   map[string][]string
}

var shotOrder = sync.OnceValue(func() fieldOrder {
	return fieldOrder{
		tables: []string{"", "clock", "scene.product", "axis", "spin", "camera", "scene", "scene.axis", "scene.lamps", "scene.holes", "scene.dark", "cue", "picture", "take", "frame-by-frame", "sync-mark", "rig"},
		keys: map[string][]string{
			"clock":         {"loop", "playback", "capture"},
			"scene.product": {"shape", "radius", "width", "depth", "height", "sides"},
			"camera":        {"focal-length", "aperture", "focus", "shutter", "iso", "sensor-width", "sensor-height"},
			"scene.lamps":   {"name", "level", "bearing", "rise", "distance", "kelvin", "lumens", "beam"},
			"cue":           {"name", "hand", "at", "axis"},
		},
	}
})

var rigOrder = sync.OnceValue(func() fieldOrder {
	return fieldOrder{
		tables: []string{"", "axis", "stand", "output", "controller", "axis.settings", "axis.reports", "controller.settings", "controller.reports"},
		keys:   map[string][]string{"axis": {"kind", "travel", "speed", "acceleration", "jerk", "backlash", "home"}},
	}
})

// sorted puts values in that order.
func (o fieldOrder) sorted(list []Value) []Value {
	first := map[string]int{}
	for i, v := range list {
		if _, seen := first[v.Group]; !seen {
			first[v.Group] = i
		}
	}
	type place struct{ table, group, key int }
	at := func(v Value) place {
		_, kind := plainTable(v.Group)
		key, _, _ := strings.Cut(v.Label, " ")
		return place{o.table(kind), first[v.Group], nth(o.keys[kind], key)}
	}
	slices.SortStableFunc(list, func(a, b Value) int {
		x, y := at(a), at(b)
		return cmp.Or(cmp.Compare(x.table, y.table), cmp.Compare(x.group, y.group), cmp.Compare(x.key, y.key))
	})
	return list
}

// table is the place of a kind of table, which is that of the nearest table above it that
// has one.
func (o fieldOrder) table(kind string) int {
	for above := kind; above != ""; above = above[:max(strings.LastIndexByte(above, '.'), 0)] {
		if i := slices.Index(o.tables, above); i >= 0 {
			return i
		}
	}
	if kind == "" {
		return nth(o.tables, "")
	}
	return len(o.tables)
}

// nth is where a word is in a list; one that is not there comes after all that are.
func nth(list []string, word string) int {
	if i := slices.Index(list, word); i >= 0 {
		return i
	}
	return len(list)
}
