package source

import (
	"bytes"

	"github.com/pelletier/go-toml/v2/unstable"
)

// piece is an item of a list in brackets, or a key with its value in braces.
type piece struct {
	span
	path  string
	value span
}

// pieces are those of a list or a table that stands at a path as one value.
func (l layout) pieces(path string, value span) []piece {
	var out []piece
	open := l.data[value.from]
	if open != '[' && open != '{' {
		return nil
	}
	for at := value.from + 1; ; {
		if at = l.solid(at); at >= value.to-1 {
			return out
		}
		p := piece{span: span{from: at}, path: indexed(path, len(out)+1), value: span{from: at}}
		if open == '{' {
			p.path, p.value.from = l.named(path, at)
		}
		p.value.to = valueEnd(l.data, p.value.from)
		p.to = p.value.to
		out = append(out, p)
		if at = l.solid(p.to); l.data[at] == ',' {
			at++
		}
	}
}

// named reads a key in braces: its path, and where its value begins.
func (l layout) named(path string, at int) (string, int) {
	from := at
	for l.data[at] != '=' {
		if c := l.data[at]; c == '"' || c == '\'' {
			at = textEnd(l.data, at)
			continue
		}
		at++
	}
	var p unstable.Parser
	p.Reset(append(bytes.Clone(l.data[from:at]), "=0"...))
	if p.NextExpression() {
		for keys := p.Expression().Key(); keys.Next(); {
			path = join(path, string(keys.Node().Data))
		}
	}
	return path, l.solid(at + 1)
}

// solid is the next byte that is neither space, line feed nor comment.
func (l layout) solid(at int) int {
	for at < len(l.data) {
		switch l.data[at] {
		case ' ', '\t', '\r', '\n':
			at++
		case '#':
			at = lineEnd(l.data, at)
		default:
			return at
		}
	}
	return at
}

// holding finds the value in brackets or braces that has a path in it, as deep as it
// goes: its own path, and where it stands.
func (l layout) holding(path string) (string, span, bool) {
	for _, p := range l.parts {
		for _, k := range p.keys {
			if k.path != path && below(path, k.path) && l.data[k.value.from] != '"' {
				at, value := k.path, k.value
				for deeper := true; deeper; {
					deeper = false
					for _, x := range l.pieces(at, value) {
						if x.path != path && below(path, x.path) && bytes.ContainsRune([]byte("[{"), rune(l.data[x.value.from])) {
							at, value, deeper = x.path, x.value, true
						}
					}
				}
				return at, value, bytes.ContainsRune([]byte("[{"), rune(l.data[value.from]))
			}
		}
	}
	return "", span{}, false
}

// without takes a piece out of the list or the table that it stands in: the line it has
// to itself, or what is between it and its neighbour.
func (l layout) without(all []piece, i int) []byte {
	p := all[i]
	line := span{lineStart(l.data, p.from), l.lineTail(p.to)}
	alone := len(bytes.TrimSpace(l.data[line.from:p.from])) == 0 && line.to >= 0
	lastOne := i == len(all)-1
	switch {
	case alone:
		out := splice(l.data, line.from, min(lineFeedAfter(l.data, line.to), len(l.data)), "")
		if lastOne && i > 0 && l.data[l.solid(p.to)] != ',' { // the one before had a comma for its sake
			if comma := l.solid(all[i-1].to); l.data[comma] == ',' {
				out = splice(out, comma, comma+1, "")
			}
		}
		return out
	case !lastOne:
		return splice(l.data, p.from, all[i+1].from, "")
	case i > 0:
		return splice(l.data, all[i-1].to, p.to, "")
	}
	to := p.to
	if comma := l.solid(to); l.data[comma] == ',' {
		to = comma + 1
	}
	return splice(l.data, p.from, to, "")
}

// lineTail is the end of the line, where nothing but a comma and a comment follows what
// ends at a byte; -1 where more does.
func (l layout) lineTail(at int) int {
	end := lineEnd(l.data, at)
	rest := bytes.TrimSpace(l.data[at:end])
	rest = bytes.TrimSpace(bytes.TrimPrefix(rest, []byte(",")))
	if len(rest) > 0 && rest[0] != '#' || end == len(l.data) {
		return -1
	}
	return end
}

// lineFeedAfter is behind the feed of a line that ends at a byte.
func lineFeedAfter(data []byte, end int) int {
	if n := bytes.IndexByte(data[end:], '\n'); n >= 0 {
		return end + n + 1
	}
	return len(data)
}

// with puts a piece behind piece i, or before all others where i is -1, as they stand: on
// a line of its own, or with what is between two of them.
func (l layout) with(value span, all []piece, i int, text string) []byte {
	if len(all) == 0 {
		pad := ""
		if l.data[value.from] == '{' {
			pad = " "
		}
		return splice(l.data, value.from+1, value.to-1, pad+text+pad)
	}
	near := all[max(i, 0)]
	start := lineStart(l.data, near.from)
	indent := string(l.data[start:near.from])
	tail := l.lineTail(near.to)
	if len(bytes.TrimSpace([]byte(indent))) == 0 && tail >= 0 && start > value.from {
		feed := lineFeed(l.data)
		if i < 0 {
			return splice(l.data, start, start, indent+text+","+feed)
		}
		if comma := l.solid(near.to); l.data[comma] == ',' {
			return splice(l.data, tail, tail, feed+indent+text+",")
		}
		out := splice(l.data, tail, tail, feed+indent+text)
		return splice(out, near.to, near.to, ",")
	}
	between := ", "
	if len(all) > 1 {
		a := min(max(i, 0), len(all)-2)
		if b := string(l.data[all[a].to:all[a+1].from]); !bytes.ContainsAny([]byte(b), "#\n") {
			between = b
		}
	}
	if i+1 < len(all) {
		return splice(l.data, all[i+1].from, all[i+1].from, text+between)
	}
	return splice(l.data, near.to, near.to, between+text)
}
