package virtual

import (
	"math"
	"strconv"
)

// Error numbers of the answers to a line.
const (
	errorLetter   = 1  // a word must begin with a letter
	errorNumber   = 2  // the number of a word is bad or missing
	errorNoHoming = 5  // homing is off
	errorLocked   = 9  // in alarm, lines are refused
	errorTooLong  = 11 // more characters than a line holds
	errorUnknown  = 20 // a word that is not understood
	errorConflict = 21 // two words of one group in a line
	errorFeed     = 22 // a feed is missing or zero
	errorTwice    = 25 // a word comes twice
	errorMissing  = 28 // a word that is needed is missing
)

// word is a letter and its number.
type word struct {
	letter byte
	value  float64
}

// longestNumber is how many characters a number has at most: more are noise.
const longestNumber = 24

// greatestNumber is the greatest number of a word, a kilometre in micrometres:
// steps and times made from it do not overflow.
const greatestNumber = 1e9

// parseWords splits a line of RS-274/NGC into its words. Blanks and comments,
// in brackets or behind a semicolon, do not count, nor does the case. It
// returns an error number, 0 being none, and appends to words.
func parseWords(line []byte, words []word) ([]word, int) {
	s := scanner{line: line}
	for {
		c, ok := s.next()
		if !ok {
			return words, 0
		}
		if c < 'A' || c > 'Z' {
			return words, errorLetter
		}
		v, ok := s.number()
		if !ok {
			return words, errorNumber
		}
		words = append(words, word{c, v})
	}
}

// scanner reads the characters of a line that count.
type scanner struct {
	line []byte
	at   int
}

// peek returns the next character that counts, in capitals.
func (s *scanner) peek() (byte, bool) {
	for s.at < len(s.line) {
		switch c := s.line[s.at]; {
		case c == ' ' || c == '\t':
			s.at++
		case c == ';' || c == '%':
			s.at = len(s.line)
		case c == '(':
			s.comment()
		case 'a' <= c && c <= 'z':
			return c - 'a' + 'A', true
		default:
			return c, true
		}
	}
	return 0, false
}

// comment skips a comment in brackets; one that does not end takes the line.
func (s *scanner) comment() {
	for s.at < len(s.line) && s.line[s.at] != ')' {
		s.at++
	}
	s.at = min(s.at+1, len(s.line))
}

func (s *scanner) next() (byte, bool) {
	c, ok := s.peek()
	if ok {
		s.at++
	}
	return c, ok
}

// number reads a decimal number without an exponent.
func (s *scanner) number() (float64, bool) {
	var digits [longestNumber]byte
	n := 0
	for {
		c, ok := s.peek()
		if !ok || !(c >= '0' && c <= '9' || c == '.' || c == '-' || c == '+') {
			break
		}
		if n == len(digits) {
			return 0, false
		}
		digits[n] = c
		n++
		s.at++
	}
	v, err := strconv.ParseFloat(string(digits[:n]), 64)
	return v, err == nil && math.Abs(v) <= greatestNumber
}
