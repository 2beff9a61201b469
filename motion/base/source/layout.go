package source

import (
	"bytes"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// layout is where everything of a document stands, by bytes: its parts in order, each a
// header with what is under it. The first part has no header.
type layout struct {
	data  []byte
	parts []part
}

// part is a header and the lines under it. Its end is that of its last line, without the
// line feed; comment lines that touch the next header are that one's.
type part struct {
	path       string
	lead       int // of its own comment lines above the header
	start, end int
	head       int // where the header line ends
	keys       []keyLine
}

// keyLine is a key with its value, from the start of its line to the end of its last.
type keyLine struct {
	path       string
	start, end int
	key, value span
}

// span is from one byte up to another.
type span struct{ from, to int }

// laidOut finds where everything stands. The document is TOML.
func laidOut(data []byte) layout {
	w := finder{tables: map[string]int{}, lists: map[string]int{}, data: data}
	w.parser.Reset(data)
	out := layout{data: data, parts: []part{{}}}
	table, after := "", -1
	for w.parser.NextExpression() {
		x := w.parser.Expression()
		at := &out.parts[len(out.parts)-1]
		switch x.Kind {
		case unstable.Table, unstable.ArrayTable:
			start := lineStart(data, int(first(x.Key()).Raw.Offset))
			at.end = out.bodyEnd(after, start)
			lead := out.leadOf(at.end, start)
			table = w.header(x)
			after = lineEnd(data, start)
			out.parts = append(out.parts, part{path: table, lead: lead, start: start, head: after})
		case unstable.KeyValue:
			k := out.keyLine(x)
			k.path = w.dotted(table, x.Key())
			at.keys = append(at.keys, k)
			after = k.end
		}
	}
	out.parts[len(out.parts)-1].end = out.bodyEnd(after, len(data))
	return out
}

func first(keys unstable.Iterator) *unstable.Node {
	keys.Next()
	return keys.Node()
}

// keyLine finds the lines of a key and its value.
func (l layout) keyLine(x *unstable.Node) keyLine {
	from := int(first(x.Key()).Raw.Offset)
	k := last(x.Key())
	to := int(k.Raw.Offset + k.Raw.Length)
	value := to + bytes.IndexByte(l.data[to:], '=') + 1
	for l.data[value] == ' ' || l.data[value] == '\t' {
		value++
	}
	end := valueEnd(l.data, value)
	return keyLine{start: lineStart(l.data, from), end: lineEnd(l.data, end), key: span{from, to}, value: span{value, end}}
}

// bodyEnd is where a part ends whose last line ends at after, when what comes next begins
// at next: comment lines that follow at once are its own, unless they lead to what comes
// next. What has been set aside is its own wherever it stands.
func (l layout) bodyEnd(after, next int) int {
	end, run, tight := after, after, true // run is the end of the comment lines that touch
	for line := l.lineAfter(after); line.from < next; line = l.lineAfter(line.to) {
		text := string(l.data[line.from:line.to])
		switch {
		case IsAside(text):
			end, run, tight = line.to, line.to, true
		case strings.TrimSpace(text) == "":
			if tight {
				end = run
			}
			tight = false
		case tight:
			run = line.to
		}
	}
	if tight && next == len(l.data) {
		end = run
	}
	return max(end, 0)
}

// lineAfter is the line that follows the one which ends at a byte: the first after -1.
func (l layout) lineAfter(end int) span {
	from := 0
	if end >= 0 {
		from = lineFeedAfter(l.data, end)
	}
	return span{from, lineEnd(l.data, from)}
}

// leadOf is where the comment lines begin that touch a header from above.
func (l layout) leadOf(end, start int) int {
	lead := start
	for lead > end && lead > 0 {
		above := lineStart(l.data, lead-1)
		text := strings.TrimSpace(string(l.data[above:lead]))
		if above < end || !strings.HasPrefix(text, "#") || IsAside(text) {
			break
		}
		lead = above
	}
	return lead
}

func lineStart(data []byte, at int) int { return bytes.LastIndexByte(data[:at], '\n') + 1 }

// lineEnd is where the line ends that has a byte, without its feed.
func lineEnd(data []byte, at int) int {
	n := bytes.IndexByte(data[at:], '\n')
	if n < 0 {
		return len(data)
	}
	if at += n; at > 0 && data[at-1] == '\r' {
		at--
	}
	return at
}

// valueEnd is where the value ends that begins at a byte of a document that is TOML.
func valueEnd(data []byte, at int) int {
	switch data[at] {
	case '"', '\'':
		return textEnd(data, at)
	case '[', '{':
		return closed(data, at)
	}
	end := at
	for end < len(data) && !bytes.ContainsRune([]byte(",#]}\r\n"), rune(data[end])) {
		end++
	}
	return at + len(bytes.TrimRight(data[at:end], " \t"))
}

// closed is where a list or a table on a line ends.
func closed(data []byte, at int) int {
	for depth := 0; at < len(data); at++ {
		switch data[at] {
		case '"', '\'':
			at = textEnd(data, at) - 1
		case '#':
			at = lineEnd(data, at) - 1
		case '[', '{':
			depth++
		case ']', '}':
			if depth--; depth == 0 {
				return at + 1
			}
		}
	}
	return len(data)
}

// textEnd is where a text in quotes ends, over lines if it has three of them.
func textEnd(data []byte, at int) int {
	quote := data[at : at+1]
	if three := bytes.Repeat(quote, 3); bytes.HasPrefix(data[at:], three) {
		quote = three
	}
	for i := at + len(quote); i < len(data); i++ {
		switch {
		case data[i] == '\\' && quote[0] == '"':
			i++
		case bytes.HasPrefix(data[i:], quote):
			i += len(quote)
			for n := 0; len(quote) == 3 && n < 2 && i < len(data) && data[i] == quote[0]; n++ {
				i++ // quotes that are the last of the text itself
			}
			return i
		}
	}
	return len(data)
}

// below tells whether a path is another one or leads further into it.
func below(path, top string) bool {
	rest, ok := strings.CutPrefix(path, top)
	return ok && (top == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}
