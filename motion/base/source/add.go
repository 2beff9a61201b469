package source

import (
	"bytes"
	"fmt"
	"strings"
)

// Bare is a value that stands as it is, without quotes.
type Bare string

// True is yes.
const True Bare = "true"

// Pair is a key of a new table and its value: a text, a list of texts, a list of Rows, or
// a Bare word.
type Pair struct {
	Key   string
	Value any
}

// Row is a new table, or a new item of a list of them.
type Row []Pair

// Add returns the document with a row at a path and every other byte as it was: a table
// such as "scene.dark", or an item of a list such as "scene.lamps[2]", behind the one
// before it. A table has its place behind the last that leads to one of the paths in
// after, the first of these being looked for first; with none of them, at the end. The
// error is a fault.List.
func Add(file string, data []byte, path string, row Row, after ...string) ([]byte, error) {
	return reshaped(file, data, path, "has no place in the file that it could be added at", func(body []byte, root *node) []byte {
		steps := stepsOf(path)
		own := steps[len(steps)-1]
		list := listOf(steps)
		if !root.hasItems(steps[:len(steps)-1]) || !root.at(list).takes(own.item) {
			return nil
		}
		return added(body, steps, row, after)
	}, func(was, now *node) bool { return sameBut(was, now, path) })
}

// takes tells whether a list takes another item at a place, or there is nothing yet.
func (n *node) takes(item int) bool {
	if n == nil {
		return item <= 1
	}
	return item > 0 && n.shape == shapeList && item <= len(n.items)+1
}

// hasItems tells whether all items of lists are there that a path leads through.
func (n *node) hasItems(steps []pathStep) bool {
	for i, s := range steps {
		if s.item != 0 && n.at(pathOf(steps[:i+1])) == nil {
			return false
		}
	}
	return true
}

// listOf is a path without the item of its last list.
func listOf(steps []pathStep) string {
	own := steps[len(steps)-1]
	return pathOf(append(steps[:len(steps)-1:len(steps)-1], pathStep{key: own.key}))
}

func added(data []byte, steps []pathStep, row Row, after []string) []byte {
	l := laidOut(data)
	own, list, table := steps[len(steps)-1], listOf(steps), pathOf(steps[:len(steps)-1])
	if at, value, ok := l.holding(indexed(list, 1)); ok {
		all := l.pieces(at, value)
		switch at {
		case list:
			return l.with(value, all, own.item-2, row.inline())
		case table:
			text := row.inline()
			if own.item > 0 {
				text = "[" + text + "]"
			}
			return l.with(value, all, len(all)-1, tomlKey(own)+" = "+text)
		}
		return nil
	}
	feed := lineFeed(data)
	bare := make([]pathStep, len(steps))
	for i, s := range steps {
		bare[i].key = s.key
	}
	header := "[" + tomlKey(bare...) + "]"
	if own.item > 0 {
		header = "[" + header + "]"
	}
	text := strings.TrimSuffix(header+feed+row.lines(feed), feed)
	if own.item == 1 {
		if i := l.last(indexed(list, 1)); i > 0 { // before the first, with what leads to it
			for l.parts[i].path != indexed(list, 1) {
				i--
			}
			return splice(data, l.parts[i].lead, l.parts[i].lead, text+feed+feed)
		}
	}
	if own.item > 1 {
		after = append([]string{indexed(list, own.item-1)}, after...)
	}
	for i, s := range steps[:len(steps)-1] {
		if s.item > 0 { // within one item of a list it has no other place
			after = append([]string{}, pathOf(steps[:i+1]))
		}
	}
	for _, path := range after {
		if i := l.last(path); i >= 0 {
			return l.behind(i, text)
		}
	}
	return l.behind(len(l.parts)-1, text)
}

// last is the last part at a path or below it, or one that has keys there; -1 where there
// is none.
func (l layout) last(path string) int {
	for i := len(l.parts) - 1; i >= 0; i-- {
		if i > 0 && below(l.parts[i].path, path) {
			return i
		}
		for _, k := range l.parts[i].keys {
			if below(k.path, path) {
				return i
			}
		}
	}
	return -1
}

// behind puts a table behind part i, a blank line between.
func (l layout) behind(i int, text string) []byte {
	feed, end := lineFeed(l.data), l.parts[i].end
	if len(bytes.TrimSpace(l.data)) == 0 {
		return append([]byte(text+feed), l.data...)
	}
	if i == len(l.parts)-1 { // remarks that end the file stay above
		if rest := bytes.TrimRight(l.data[end:], " \t\r\n"); len(rest) > 0 {
			end += len(rest)
		}
	}
	return splice(l.data, end, end, feed+feed+text)
}

// Put returns the document with a value at a path where no value was: at the end of its
// table, which is added as Add does where it is not there.
func Put(file string, data []byte, path string, value any, after ...string) ([]byte, error) {
	return reshaped(file, data, path, "has no place in the file that it could be written to", func(body []byte, root *node) []byte {
		steps := stepsOf(path)
		if root.at(path) != nil || !root.hasItems(steps[:len(steps)-1]) {
			return nil
		}
		return put(body, steps, Pair{steps[len(steps)-1].key, value}, after)
	}, func(was, now *node) bool { return sameBut(was, now, path) })
}

func put(data []byte, steps []pathStep, pair Pair, after []string) []byte {
	l, table := laidOut(data), pathOf(steps[:len(steps)-1])
	own := steps[len(steps)-1:]
	feed := lineFeed(data)
	if at, value, ok := l.holding(pathOf(steps)); ok {
		if all := l.pieces(at, value); at == table {
			return l.with(value, all, len(all)-1, tomlKey(own...)+" = "+inlined(pair.Value))
		}
		return nil
	}
	for i, p := range l.parts {
		if p.path == table && (i > 0 || len(p.keys) > 0) {
			if n := len(p.keys); n > 0 {
				end := l.goesOn(p, n-1)
				return splice(data, end, end, feed+l.indent(p.keys[n-1])+pair.line(tomlKey(own...), feed))
			}
			return splice(data, p.head, p.head, feed+pair.line(tomlKey(own...), feed))
		}
		for j := len(p.keys) - 1; j >= 0; j-- {
			if k := p.keys[j]; below(k.path, table) && k.path != table && table != "" && below(table, p.path) {
				end := l.goesOn(p, j)
				return splice(data, end, end, feed+l.indent(k)+pair.line(tomlKey(steps[len(stepsOf(p.path)):]...), feed))
			}
		}
	}
	if table == "" {
		return splice(data, 0, 0, pair.line(tomlKey(own...), feed)+feed)
	}
	return added(data, steps[:len(steps)-1], Row{pair}, after)
}

func (l layout) indent(k keyLine) string { return string(l.data[k.start:k.key.from]) }

// lines are a table's lines under its header, without the last feed.
func (r Row) lines(feed string) string {
	var out []string
	for _, p := range r {
		out = append(out, p.line(tomlKey(pathStep{key: p.Key}), feed))
	}
	return strings.Join(out, feed)
}

// line is a key with its value; a list of rows has a line for each.
func (p Pair) line(key, feed string) string {
	rows, ok := p.Value.([]Row)
	if !ok {
		return key + " = " + inlined(p.Value)
	}
	out := key + " = [" + feed
	for _, r := range rows {
		out += "  " + r.inline() + "," + feed
	}
	return out + "]"
}

// inline is a row in braces.
func (r Row) inline() string {
	var out []string
	for _, p := range r {
		out = append(out, tomlKey(pathStep{key: p.Key})+" = "+inlined(p.Value))
	}
	return "{ " + strings.Join(out, ", ") + " }"
}

func inlined(value any) string {
	var out []string
	switch v := value.(type) {
	case Bare:
		return string(v)
	case string:
		return written(v, true)
	case []string:
		for _, s := range v {
			out = append(out, written(s, true))
		}
	case []Row:
		for _, r := range v {
			out = append(out, r.inline())
		}
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// Items is how many items the list at a path of a document has; 0 where there is none.
func Items(data []byte, path string) int {
	if root, faults := parse("", "", data); len(faults) == 0 && root.at(path) != nil {
		return len(root.at(path).items)
	}
	return 0
}

// Under are the keys of the table at a path of a document, in the order of the file.
func Under(data []byte, path string) []string {
	var out []string
	if root, faults := parse("", "", data); len(faults) == 0 && root.at(path) != nil {
		for _, e := range root.at(path).entries {
			out = append(out, e.key)
		}
	}
	return out
}

// Has tells whether something stands at a path of a document.
func Has(data []byte, path string) bool {
	root, faults := parse("", "", data)
	return len(faults) == 0 && root.at(path) != nil
}

// Steps are the keys of a path, and items of lists as "[2]".
func Steps(path string) []string {
	var out []string
	for _, s := range stepsOf(path) {
		out = append(out, s.key)
		if s.item != 0 {
			out = append(out, fmt.Sprintf("[%d]", s.item))
		}
	}
	return out
}
