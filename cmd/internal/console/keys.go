// Package console is where the operator of a run looks and types: keys become
// requests, what the engine tells becomes lines, a bar and a bell.
package console

import "unicode/utf8"

// Key is one key, or a chord.
type Key rune

// Keys that are no character.
const (
	Left Key = -1 - iota
	Right
	Up
	Down
	Escape
	Other // a key that has no meaning here
)

// Control characters (ECMA-48 and common practice of terminals).
const (
	Interrupt Key = 3 // Ctrl-C
	backspace Key = 8
	Tab       Key = 9
	LineFeed  Key = 10
	Enter     Key = 13
	Delete    Key = 127 // what backspace sends on most terminals
)

const escape = 0x1b

// arrows are the final bytes of cursor keys (ECMA-48, 8.3.18 to 8.3.22).
var arrows = map[byte]Key{'A': Up, 'B': Down, 'C': Right, 'D': Left}

// Keys cuts what one read of a terminal gave into keys. An escape with nothing
// behind it is the key Escape: terminals write a whole sequence at once.
func Keys(b []byte) []Key {
	var out []Key
	for len(b) > 0 {
		k, n := key(b)
		out = append(out, k)
		b = b[n:]
	}
	return out
}

func key(b []byte) (Key, int) {
	if b[0] != escape {
		r, n := utf8.DecodeRune(b)
		return Key(r), n
	}
	if len(b) < 2 || b[1] != '[' && b[1] != 'O' {
		return Escape, 1
	}
	for i := 2; i < len(b); i++ {
		if b[i] >= '@' && b[i] <= '~' { // a final byte (ECMA-48, 5.4)
			if k, ok := arrows[b[i]]; ok {
				return k, i + 1
			}
			return Other, i + 1
		}
	}
	return Other, len(b)
}
