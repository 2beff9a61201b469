package firmware

import (
	"fmt"
	"strings"
)

// Order is one line, understood.
type Order struct {
	Moves  bool
	To     Counts // where the words lead, in motor steps
	Pace   Pace
	Dwells bool // for Dwell s
	Dwell  float64
	Chars  int // of the line with its end
}

// Reader understands lines one after the other, as far as the programs of
// package program have them: straight moves to absolute places, dwells, and the
// modes of the feed.
type Reader struct {
	board   *Board
	letters string // of Board.Axes
	at      Counts
	inverse bool
	feed    float32
}

// Reader returns a reader of a board whose axes have these letters and stand at
// at.
func (b *Board) Reader(letters string, at Counts) *Reader {
	return &Reader{board: b, letters: letters, at: at}
}

// Read understands a line.
func (r *Reader) Read(line string) (Order, error) {
	o := Order{To: r.at, Chars: len(line) + 1}
	if switches(line) {
		o.Dwells = true // for no time, once all motion has ended
		return o, nil
	}
	seconds, fed := 0.0, false
	for s := line; s != ""; {
		c := s[0]
		if c == ' ' {
			s = s[1:]
			continue
		}
		v, used := r.board.number(s[1:])
		if used == 0 {
			return o, fmt.Errorf("line %q: letter %q wants a number", line, c)
		}
		s = s[1+used:]
		switch c {
		case 'G', 'M':
			if !r.mode(c, v, &o) {
				return o, fmt.Errorf("line %q: %c%v is not foretold", line, c, v)
			}
		case 'F':
			r.feed, fed = float32(v), true
		case 'P':
			seconds = v
		default:
			i := strings.IndexByte(r.letters, c)
			if i < 0 {
				return o, fmt.Errorf("line %q: there is no axis %q", line, c)
			}
			o.To[i] = r.board.StepsAt(i, v)
			o.Moves = true
		}
	}
	if o.Moves && (r.feed <= 0 || r.inverse && !fed) {
		return o, fmt.Errorf("line %q: its feed is missing or 0", line)
	}
	o.Dwell = seconds
	o.Pace.Feed, o.Pace.Inverse = r.feed, r.inverse
	r.at = o.To
	return o, nil
}

// switches tells whether a line is a word that switches an output.
func switches(line string) bool {
	word, _, _ := strings.Cut(line, " ")
	return strings.HasPrefix(word, "M") && word != "M0" && word != "M2"
}

// mode takes in a G or M word, and tells whether it is known.
func (r *Reader) mode(letter byte, v float64, o *Order) bool {
	switch {
	case letter == 'M':
		return v == 0 || v == 2
	case v == 0:
		o.Pace.Rapid = true
	case v == 1, v == 21, v == 90:
	case v == 4:
		o.Dwells = true
	case v == 93, v == 94:
		r.inverse = v == 93
	default:
		return false
	}
	return true
}
