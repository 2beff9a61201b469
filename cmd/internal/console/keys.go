// Package console is where the operator of a run looks and types: keys become
// requests, what the engine tells becomes lines, a bar and a bell.
package console

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Key is one key, or a chord.
type Key rune

// Keys that are no character.
const (
	Left Key = -1 - iota
	Right
	Up
	Down
	Escape
	Other      // a key that has no meaning here
	Unseen     // the screen is not the one that is typed on any more
	TellsLetGo // the terminal tells when a key is let go of
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

// Stroke is a key that goes down, is held, or is let go of. A terminal that does not tell
// them apart has each go down.
type Stroke struct {
	Key   Key
	Event Event
}

// Event is what becomes of a key.
type Event int

// The events, by their numbers in the progressive keyboard protocol of terminals.
const (
	Pressed Event = 1 + iota
	Repeated
	LetGo
)

// Keys cuts what one read of a terminal gave into the keys that go down or are held.
func Keys(b []byte) []Key {
	var out []Key
	for _, s := range Strokes(b) {
		if s.Event != LetGo {
			out = append(out, s.Key)
		}
	}
	return out
}

// Strokes cuts what one read of a terminal gave into strokes. An escape with nothing
// behind it is the key Escape: terminals write a whole sequence at once.
func Strokes(b []byte) []Stroke {
	var out []Stroke
	for len(b) > 0 {
		s, n := stroke(b)
		out = append(out, s)
		b = b[n:]
	}
	return out
}

func stroke(b []byte) (Stroke, int) {
	if b[0] != escape {
		r, n := utf8.DecodeRune(b)
		return Stroke{Key(r), Pressed}, n
	}
	if len(b) < 2 || b[1] != '[' && b[1] != 'O' {
		return Stroke{Escape, Pressed}, 1
	}
	for i := 2; i < len(b); i++ {
		if b[i] >= '@' && b[i] <= '~' { // a final byte (ECMA-48, 5.4)
			return sequence(b[1], string(b[2:i]), b[i]), i + 1
		}
	}
	return Stroke{Other, Pressed}, len(b)
}

// ctrl is the bit of a modifier in the progressive keyboard protocol, which counts from 1.
const ctrl = 4

// sequence is what a control sequence means: a cursor key, a key by its code, or an
// answer of the terminal. The progressive keyboard protocol of terminals has
// "code;modifiers:event" before the final byte.
func sequence(opens byte, text string, final byte) Stroke {
	first, rest, _ := strings.Cut(text, ";")
	mods, event, _ := strings.Cut(rest, ":")
	s := Stroke{Other, Pressed}
	if n, err := strconv.Atoi(event); err == nil && n <= int(LetGo) && n >= int(Pressed) {
		s.Event = Event(n)
	}
	code, _ := strconv.Atoi(first)
	mod, _ := strconv.Atoi(mods)
	k, arrow := arrows[final]
	switch {
	case arrow:
		s.Key = k
	case opens == '[' && text == "" && final == 'O':
		s.Key = Unseen
	case final == 'u' && strings.HasPrefix(text, "?"):
		s.Key = TellsLetGo
	case final == 'u' && code == escape:
		s.Key = Escape
	case final == 'u' && mod > 0 && (mod-1)&ctrl != 0 && code >= 'a' && code <= 'z':
		s.Key = Key(code - 'a' + 1)
	case final == 'u' && code > 0:
		s.Key = Key(code)
	}
	return s
}

// The words to a terminal by which it tells, if it can, when a key is let go of, and when
// the screen is not the one that is typed on any more; and those that take that back.
// One that can answers the question among them. (The progressive keyboard protocol that
// terminals publish; focus events as xterm documents them. From memory, as both are the
// texts of programs that are not named here.)
const (
	TellStrokes = "\x1b[>3u\x1b[?u\x1b[?1004h"
	ForgetThat  = "\x1b[?1004l\x1b[<u"
)
