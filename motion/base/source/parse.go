package source

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"seamrail/motion/base/fault"
)

// MaxBytes is the longest document that is read. A shot is a page; a megabyte
// is somebody's video by mistake.
const MaxBytes = 1 << 20

// parse reads a TOML document into nodes. The only faults it finds are the
// first one of syntax and those of the whole file. Places have under as their File.
func parse(file, under string, data []byte) (*node, fault.List) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if _, faults := tree(file, data); len(faults) > 0 {
		return nil, faults
	}
	b := builder{at: newPlaces(data), file: under}
	b.parser.Reset(data)
	root := &node{shape: shapeTable, place: Place{Line: 1, Column: 1, File: under}}
	at := root
	for b.parser.NextExpression() {
		at = b.expression(root, at, b.parser.Expression())
	}
	if err := b.parser.Error(); err != nil {
		return nil, fault.List{syntax(file, data, err)}
	}
	return root, nil
}

// tree reads a document that has no mark at its beginning as the library has it.
func tree(file string, data []byte) (map[string]any, fault.List) {
	if f, bad := unreadable(file, data); bad {
		return nil, fault.List{f}
	}
	if f, bad := crowded(file, data); bad {
		return nil, fault.List{f}
	}
	var out map[string]any
	if err := toml.Unmarshal(data, &out); err != nil {
		return nil, fault.List{syntax(file, data, err)}
	}
	return out, nil
}

// Tree is a document as maps, lists and values, without their places; false where it is
// none, or none that is read.
func Tree(data []byte) (map[string]any, bool) {
	out, faults := tree("", bytes.TrimPrefix(data, []byte("\ufeff")))
	return out, len(faults) == 0
}

func unreadable(file string, data []byte) (fault.Fault, bool) {
	f := fault.Fault{File: file, Quantity: "the file"}
	switch {
	case len(data) > MaxBytes:
		f.Value = fmt.Sprintf("of %d bytes", len(data))
		f.Bound = fmt.Sprintf("must be at most %d bytes", MaxBytes)
	case bytes.IndexByte(data, 0) >= 0 || !utf8.Valid(data):
		f.Bound = "must be text in UTF-8, and this is not"
		f.Fit = "a picture, a video or an archive was perhaps named instead of a TOML file"
	default:
		return f, false
	}
	return f, true
}

// plainWords takes the names of Go's own functions out of a message.
var plainWords = strings.NewReplacer("toml: ", "", "strconv.ParseFloat: parsing ", "")

func syntax(file string, data []byte, err error) fault.Fault {
	f := fault.Fault{File: file, Quantity: "TOML:", Bound: plainWords.Replace(err.Error())}
	var at *toml.DecodeError
	if errors.As(err, &at) {
		f.Line, f.Column = at.Position()
	}
	if strings.Contains(f.Bound, "expected newline") && unquoted(data, f.Line) {
		f.Fit = `values with a unit go in quotes, such as from = "40 mm"`
	}
	return f
}

// unquoted tells whether the line sets a value that is not in quotes.
func unquoted(data []byte, line int) bool {
	lines := bytes.Split(data, []byte("\n"))
	if line < 1 || line > len(lines) {
		return false
	}
	_, value, found := bytes.Cut(lines[line-1], []byte("="))
	return found && !bytes.ContainsAny(value, `"'`)
}

type builder struct {
	parser unstable.Parser
	at     places
	file   string // of every place
}
