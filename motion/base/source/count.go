package source

import (
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"

	"seamrail/motion/base/fault"
)

// maxKeys bounds the keys of a document, far above any rig or shot: looking
// for keys said twice takes the square of it.
const maxKeys = 5000

// crowded tells whether a document has more keys than anyone writes. A
// document with a fault of syntax is counted up to it.
func crowded(file string, data []byte) (fault.Fault, bool) {
	var p unstable.Parser
	p.Reset(data)
	n := 0
	for n <= maxKeys && p.NextExpression() {
		n += countKeys(p.Expression())
	}
	return fault.Fault{
		File: file, Quantity: "the file",
		Bound: fmt.Sprintf("has more than %d keys, tables and values in lists, which is no shot and no rig", maxKeys),
	}, n > maxKeys
}

// countKeys counts the keys of one expression, those inside its value too, and the
// values that have none, in lists.
func countKeys(x *unstable.Node) int {
	n := 0
	if x.Kind == unstable.Key {
		n = 1
	}
	if x.Kind == unstable.Array {
		for it := x.Children(); it.Next(); {
			n++
		}
	}
	for it := x.Children(); it.Next(); {
		n += countKeys(it.Node())
	}
	return n
}
