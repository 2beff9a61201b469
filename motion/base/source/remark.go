package source

import "strings"

// Values are all values of a document, in the order of the tree. A list of values is one.
func (d *Doc) Values() []Leaf {
	var out []Leaf
	d.root.values("", func(path string, n *node) { out = append(out, Leaf{Path: path, Text: n.told()}) })
	return out
}

// Remark is what stands behind the # of a line, without the space around it, and what
// stands before. A # inside a text is none.
func Remark(line string) (before, remark string) {
	quote := byte(0)
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case quote == '"' && c == '\\':
			i++
		case quote != 0 && c == quote:
			quote = 0
		case quote == 0 && (c == '"' || c == '\''):
			quote = c
		case quote == 0 && c == '#':
			return line[:i], strings.TrimSpace(line[i+1:])
		}
	}
	return line, ""
}
