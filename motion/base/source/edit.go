package source

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/pelletier/go-toml/v2/unstable"

	"seamrail/motion/base/fault"
)

// Set returns the document with the value at path changed to text and every
// other byte, comments and layout included, as it was. The path is that of
// faults: "axis.rail.from", "axis.rail.keys[2].at". The text is written in
// quotes, but for a number that takes the place of a number. A key that is not
// there is put under the header of its table, and a table that is not there at
// the end. The error is a fault.List: the document is not TOML, or the path
// leads into something that is not a table.
func Set(file string, data []byte, path, text string) ([]byte, error) {
	if _, faults := parse(file, "", data); len(faults) > 0 {
		return nil, faults.Err()
	}
	out := edited(data, path, text)
	if root, faults := parse(file, "", out); len(faults) > 0 || root.at(path) == nil || root.at(path).text != text {
		f := fault.Fault{File: file, Bound: "has no place in the file that it could be written to", Fit: "write it by hand"}
		f.Axis, f.Quantity = split(path)
		f.Value = quote(text)
		return nil, fault.List{f}
	}
	return out, nil
}

// Value is the text of the value at a path of a document.
func Value(data []byte, path string) (string, bool) {
	root, faults := parse("", "", data)
	if len(faults) > 0 {
		return "", false
	}
	n := root.at(path)
	if n == nil {
		return "", false
	}
	return n.text, true
}

// edited does what Set says where it can; what comes out is for Set to check.
func edited(data []byte, path, text string) []byte {
	body := bytes.TrimPrefix(data, []byte("\ufeff"))
	mark := len(data) - len(body)
	steps := stepsOf(path)
	w := finder{want: pathOf(steps), tables: map[string]int{}, lists: map[string]int{}}
	w.walk(body)
	if w.found {
		start, end := mark+w.start, mark+w.end
		return splice(data, start, end, written(text, w.number))
	}
	table, key := steps[:len(steps)-1], steps[len(steps)-1]
	line := tomlKey(key) + " = " + written(text, false)
	feed := lineFeed(data)
	if len(table) == 0 && len(w.tables) > 0 { // before any header, or it would belong to one
		return splice(data, mark, mark, line+feed)
	}
	if at, ok := w.tables[pathOf(table)]; ok {
		return splice(data, mark+at, mark+at, feed+line)
	}
	gap := feed
	if !bytes.HasSuffix(data, []byte("\n")) {
		gap += feed
	}
	if len(table) == 0 {
		return splice(data, len(data), len(data), strings.TrimPrefix(gap, feed)+line+feed)
	}
	return splice(data, len(data), len(data), gap+"["+tomlKey(table...)+"]"+feed+line+feed)
}

func splice(data []byte, start, end int, text string) []byte {
	out := make([]byte, 0, len(data)+len(text))
	out = append(out, data[:start]...)
	out = append(out, text...)
	return append(out, data[end:]...)
}

// lineFeed is how the document ends its lines.
func lineFeed(data []byte) string {
	if bytes.Contains(data, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

var bareKey = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^[A-Za-z0-9_-]+$`)
})

// tomlKey is a dotted key as TOML has it. An item of a list has none: what comes
// out is then no key of TOML, which Set finds.
func tomlKey(steps ...pathStep) string {
	keys := make([]string, len(steps))
	for i, s := range steps {
		switch {
		case s.item != 0:
			keys[i] = pathOf([]pathStep{s})
		case bareKey().MatchString(s.key):
			keys[i] = s.key
		default:
			keys[i] = written(s.key, false)
		}
	}
	return strings.Join(keys, ".")
}

var bareNumber = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)
})

// written is a text as TOML: a basic string, or a number as it stands.
func written(text string, number bool) string {
	if number && bareNumber().MatchString(text) {
		return text
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// finder looks for the bytes of one value.
type finder struct {
	parser unstable.Parser
	data   []byte
	want   string

	found      bool
	number     bool // the value is a number
	start, end int

	tables map[string]int // where the header line of a table ends
	lists  map[string]int // how many tables a list of them has so far
}

func (w *finder) walk(data []byte) {
	w.data = data
	w.parser.Reset(data)
	table := ""
	for w.parser.NextExpression() {
		x := w.parser.Expression()
		switch x.Kind {
		case unstable.Table, unstable.ArrayTable:
			table = w.header(x)
		case unstable.KeyValue:
			w.value(x.Value(), w.dotted(table, x.Key()))
		}
	}
}

// dotted is the path of a key under a table. A list of tables on the way means
// its last.
func (w *finder) dotted(path string, keys unstable.Iterator) string {
	for keys.Next() {
		path = join(path, string(keys.Node().Data))
		if n := w.lists[path]; n > 0 && !keys.IsLast() {
			path = indexed(path, n)
		}
	}
	return path
}

// header notes where a table begins and returns its path.
func (w *finder) header(x *unstable.Node) string {
	path := w.dotted("", x.Key())
	if x.Kind == unstable.ArrayTable {
		w.lists[path]++
		path = indexed(path, w.lists[path])
	}
	end := int(last(x.Key()).Raw.Offset)
	if n := bytes.IndexByte(w.data[end:], '\n'); n >= 0 {
		end += n
	} else {
		end = len(w.data)
	}
	if end > 0 && w.data[end-1] == '\r' {
		end--
	}
	w.tables[path] = end
	return path
}

func indexed(path string, n int) string { return path + "[" + strconv.Itoa(n) + "]" }

// value looks at a value and at what is inside it.
func (w *finder) value(x *unstable.Node, path string) {
	switch x.Kind {
	case unstable.InlineTable:
		for it := x.Children(); it.Next(); {
			kv := it.Node()
			w.value(kv.Value(), w.dotted(path, kv.Key()))
		}
	case unstable.Array:
		i := 0
		for it := x.Children(); it.Next(); {
			i++
			w.value(it.Node(), indexed(path, i))
		}
	default:
		if path == w.want && x.Raw.Length > 0 {
			w.found, w.number = true, x.Kind == unstable.Integer || x.Kind == unstable.Float
			w.start, w.end = int(x.Raw.Offset), int(x.Raw.Offset+x.Raw.Length)
		}
	}
}
