package source

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"seamrail/motion/base/list"
)

// Join returns the path of a value from the keys that lead to it. A key that a
// path could not hold as it is, such as one that is empty or has a dot in it,
// stands in quotes.
func Join(keys ...string) string {
	return strings.Join(list.Map(keys, inPath), ".")
}

func join(path, key string) string {
	if path == "" {
		return inPath(key)
	}
	return path + "." + inPath(key)
}

func inPath(key string) string {
	if key != "" && utf8.ValidString(key) && strings.IndexFunc(key, unfit) < 0 {
		return key
	}
	return strconv.Quote(key)
}

// unfit tells whether a character would be taken for the path's own, or is none
// to look at.
func unfit(r rune) bool { return strings.ContainsRune(`."[]\`, r) || !unicode.IsPrint(r) }

// pathStep is one key of a path, and which item of the list that is there; 0
// where the path means all of it.
type pathStep struct {
	key  string
	item int
}

// stepsOf takes a path apart.
func stepsOf(path string) []pathStep {
	var out []pathStep
	for {
		key, rest := firstKey(path)
		part, after, more := strings.Cut(rest, ".")
		out = append(out, pathStep{key, itemOf(part)})
		if !more {
			return out
		}
		path = after
	}
}

// pathOf puts a path together again.
func pathOf(steps []pathStep) string {
	return strings.Join(list.Map(steps, func(s pathStep) string {
		if s.item == 0 {
			return inPath(s.key)
		}
		return indexed(inPath(s.key), s.item)
	}), ".")
}

// firstKey returns the key that a path begins with, and what follows it: an
// index, a dot and what comes after it, or nothing.
func firstKey(path string) (key, rest string) {
	if quoted, err := strconv.QuotedPrefix(path); err == nil && path[0] == '"' {
		key, _ = strconv.Unquote(quoted)
		return key, path[len(quoted):]
	}
	end := strings.IndexAny(path, ".[")
	if end < 0 {
		return path, ""
	}
	return path[:end], path[end:]
}

// itemOf reads "[3]"; what is no index is an item that no list has.
func itemOf(index string) int {
	if index == "" {
		return 0
	}
	n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(index, "["), "]"))
	if err != nil || n < 1 {
		return -1
	}
	return n
}

// at finds the node at a path, or nil.
func (n *node) at(path string) *node {
	for _, s := range stepsOf(path) {
		if n = n.child(s.key); n == nil {
			return nil
		}
		if s.item == 0 {
			continue
		}
		if s.item < 0 || s.item > len(n.items) {
			return nil
		}
		n = n.items[s.item-1]
	}
	return n
}

// split takes "axis.rail.from" or "rig.axis.rail.speed" apart into the axis
// and the rest.
func split(path string) (axis, quantity string) {
	_, rest, found := strings.Cut("."+path, ".axis.")
	if !found {
		return "", path
	}
	axis, rest = firstKey(rest)
	if len(rest) < 2 || rest[0] != '.' {
		return "", path
	}
	return axis, rest[1:]
}
