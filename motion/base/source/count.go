package source

import (
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"

	"seamrail/motion/base/fault"
)

const (
	// maxKeys bounds the keys of a document, far above any rig or shot: looking
	// for keys said twice takes the square of it.
	maxKeys = 5000
	// maxDepth bounds how deep keys and lists lie in each other, far above the five of a
	// shot: the path of a value has all that it lies in, so paths take the square of it.
	maxDepth = 32
	// maxKeyBytes bounds a key, which the path of all that is under it repeats. It is
	// more than the longest name of a file.
	maxKeyBytes = 512
)

// crowd is what is counted of a document before it is read.
type crowd struct {
	keys, deepest, longest int
}

// crowded tells whether a document has more keys than anyone writes, or longer or deeper
// ones. A document with a fault of syntax is counted up to it.
func crowded(file string, data []byte) (fault.Fault, bool) {
	var p unstable.Parser
	p.Reset(data)
	c, table := crowd{}, 0
	for c.keys <= maxKeys && p.NextExpression() {
		x := p.Expression()
		if x.Kind == unstable.KeyValue {
			c.keyValue(x, table)
		} else {
			table = c.path(x.Key(), 0)
		}
	}
	f := fault.Fault{File: file, Quantity: "the file"}
	switch {
	case c.keys > maxKeys:
		f.Bound = fmt.Sprintf("has more than %d keys, tables and values in lists, which is no shot and no rig", maxKeys)
	case c.deepest > maxDepth:
		f.Bound = fmt.Sprintf("has keys and lists more than %d deep in each other, which is no shot and no rig", maxDepth)
	case c.longest > maxKeyBytes:
		f.Bound = fmt.Sprintf("has a key of more than %d bytes, which is no shot and no rig", maxKeyBytes)
	}
	return f, f.Bound != ""
}

// path counts a dotted key under so many others, and returns how deep its end is.
func (c *crowd) path(keys unstable.Iterator, under int) int {
	for keys.Next() {
		c.keys, under = c.keys+1, under+1
		c.longest = max(c.longest, len(keys.Node().Data))
	}
	c.deepest = max(c.deepest, under)
	return under
}

func (c *crowd) keyValue(x *unstable.Node, under int) { c.value(x.Value(), c.path(x.Key(), under)) }

// value counts the keys inside a value, and the values that have none, in lists.
func (c *crowd) value(x *unstable.Node, under int) {
	c.deepest = max(c.deepest, under)
	switch x.Kind {
	case unstable.InlineTable:
		for it := x.Children(); it.Next(); {
			c.keyValue(it.Node(), under)
		}
	case unstable.Array:
		for it := x.Children(); it.Next(); {
			c.keys++
			c.value(it.Node(), under+1)
		}
	}
}
