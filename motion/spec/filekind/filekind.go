// Package filekind tells shots, rigs, sequences, set-ups and the files of a shelf apart, by keys that only one of
// them has: whoever has named the wrong file is told what it is, and not that none of
// its keys means anything.
package filekind

import (
	"reflect"
	"slices"
	"strings"
	"sync"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
)

// Kind is what a file is.
type Kind int

// The kinds.
const (
	Unknown Kind = iota // no document, or keys of none of them, or of several
	Shot
	Rig
	Sequence
	SetUp
	Camera // of a shelf, as are those below
	Lens
	Lamp
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"no file of seamrail's", "a shot file", "a rig file", "a sequence file",
		"a set-up file", "a camera file", "a lens file", "a lamp file"}[k]
}

// titles are the texts that only one kind has at its top.
var titles = map[string]Kind{"shot": Shot, "rig": Rig, "sequence": Sequence, "set-up": SetUp, "camera": Camera, "lens": Lens, "lamp": Lamp}

// shared are the tables of a shot that a set-up may have as well.
var shared = []string{"clock", "take", "camera", "scene", "picture"}

// own are the tables and lists at the top of a file that only one kind has.
var own = map[string]Kind{
	"clock": Shot, "take": Shot, "spin": Shot, "camera": Shot, "scene": Shot, "cue": Shot, "picture": Shot,
	"controller": Rig, "stand": Rig,
	"card": Sequence, "day": Sequence,
}

// What only a shot says of an axis, whatever its move, and what only a rig does.
var (
	moves = sync.OnceValue(func() []string {
		return without(source.Keys(reflect.TypeFor[move.Raw]()),
			source.Keys(reflect.TypeFor[rig.RawAxis]()))
	})
	makes = []string{"kind", "letter", "travel", "motor-steps", "microsteps", "belt", "screw", "gear"}
)

// without are the names of keys that are none of the others.
func without(keys, others []source.Key) []string {
	var out []string
	for _, k := range keys {
		if !slices.ContainsFunc(others, func(o source.Key) bool { return o.Key == k.Key }) {
			out = append(out, k.Key)
		}
	}
	return out
}

// Of returns the kind of a document. It is Unknown where keys of two kinds are in it:
// then it is one of them with a fault, and nobody can tell which.
func Of(data []byte) Kind {
	doc, ok := source.Tree(data)
	if !ok {
		return Unknown
	}
	found := Unknown
	_, setUp := doc["set-up"].(string)
	for key, value := range doc {
		k := kindOf(key, value)
		switch {
		case k == Unknown:
		case setUp && k == Shot && (key == "rig" || slices.Contains(shared, key)):
		case found != Unknown && found != k:
			return Unknown
		default:
			found = k
		}
	}
	return found
}

// kindOf is the kind that a value at the top of a file is of.
func kindOf(key string, value any) Kind {
	_, text := value.(string)
	if k := titles[key]; text && k != Unknown {
		return k
	}
	_, table := value.(map[string]any)
	_, list := value.([]any)
	switch key {
	case "shot":
		return either(list, Sequence, false, Unknown)
	case "rig":
		return either(table, Shot, false, Unknown)
	case "axis":
		return ofAxes(value)
	}
	if !table && !list {
		return Unknown
	}
	return own[key]
}

func either(one bool, a Kind, other bool, b Kind) Kind {
	switch {
	case one:
		return a
	case other:
		return b
	}
	return Unknown
}

// ofAxes is the kind that all axes are of.
func ofAxes(value any) Kind {
	axes, _ := value.(map[string]any)
	shot, rig := false, false
	for _, axis := range axes {
		keys, _ := axis.(map[string]any)
		for key := range keys {
			shot = shot || slices.Contains(moves(), key)
			rig = rig || slices.Contains(makes, key)
		}
	}
	if shot == rig {
		return Unknown
	}
	return either(shot, Shot, rig, Rig)
}

// Likely is the kind of a document, or of one that is broken what its first line says that
// only one kind has.
func Likely(data []byte) Kind {
	if k := Of(data); k != Unknown {
		return k
	}
	for line := range strings.Lines(string(data)) {
		if k := ofLine(strings.TrimSpace(line)); k != Unknown {
			return k
		}
	}
	return Unknown
}

// ofLine is the kind that a title or the head of a table tells.
func ofLine(line string) Kind {
	if head, list := strings.CutPrefix(line, "[["); list {
		name, _, _ := strings.Cut(head, "]")
		return kindOf(strings.TrimSpace(name), []any{})
	}
	if head, table := strings.CutPrefix(line, "["); table {
		name, _, _ := strings.Cut(head, "]")
		name, _, _ = strings.Cut(name, ".")
		return kindOf(strings.TrimSpace(name), map[string]any{})
	}
	key, _, value := strings.Cut(line, "=")
	if !value {
		return Unknown
	}
	return titles[strings.TrimSpace(key)]
}
