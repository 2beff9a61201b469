// Package filekind tells shots, rigs and sequences apart, by keys that only one of
// them has: whoever has named the wrong file is told what it is, and not that none of
// its keys means anything.
package filekind

import (
	"reflect"
	"slices"
	"sync"

	"github.com/pelletier/go-toml/v2"

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
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"no file of seamrail's", "a shot file", "a rig file", "a sequence file"}[k]
}

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
	var doc map[string]any
	if toml.Unmarshal(data, &doc) != nil {
		return Unknown
	}
	found := Unknown
	for key, value := range doc {
		k := kindOf(key, value)
		switch {
		case k == Unknown:
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
	_, table := value.(map[string]any)
	_, list := value.([]any)
	switch key {
	case "shot":
		return either(text, Shot, list, Sequence)
	case "rig":
		return either(text, Rig, table, Shot)
	case "sequence":
		return either(text, Sequence, false, Unknown)
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
