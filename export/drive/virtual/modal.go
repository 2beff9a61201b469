package virtual

import (
	"math"
	"strconv"
	"strings"
)

// modal is what the board remembers from line to line; the zero value is as at power-on.
type modal struct {
	motion   int  // 0, 1 or -1 (G80)
	relative bool // G91
	inverse  bool // G93
	feed     float64
	offset   vector // G92: of the coordinates of words to those of the machine
}

// order is one line, understood.
type order struct {
	modal
	number    int64 // N word
	axes      vector
	given     [maxAxes]bool
	anyAxis   bool
	feedGiven bool
	p         float64
	pGiven    bool
	dwell     bool
	shift     int  // G92: 1, G92.1: 2
	moves     bool // names a motion
	ends      bool // M2, M30
	waits     bool // M0, M1, M400: until motion has ended
	seen      uint8
}

// Groups of words that exclude each other in a line.
const (
	groupMotion = 1 << iota
	groupDistance
	groupFeed
	groupOther
	groupProgram
)

// understand reads the words of a line on top of what the board remembers. It
// returns an error number, 0 being none.
func (o *Options) understand(words []word, m modal) (order, int) {
	r := order{modal: m}
	letters := uint32(0)
	for _, w := range words {
		bit := uint32(1) << (w.letter - 'A')
		if w.letter != 'G' && w.letter != 'M' {
			if letters&bit != 0 {
				return r, errorTwice
			}
			letters |= bit
		}
		if code := o.readWord(&r, w); code != 0 {
			return r, code
		}
	}
	return r, r.complete()
}

func (o *Options) readWord(r *order, w word) int {
	switch w.letter {
	case 'G':
		return r.general(w.value)
	case 'M':
		return r.program(w.value)
	case 'F':
		if w.value < 0 {
			return errorNumber
		}
		r.feed, r.feedGiven = w.value, true
	case 'N':
		r.number = int64(w.value)
	case 'P':
		if w.value < 0 || w.value > longestDwell {
			return errorNumber
		}
		r.p, r.pGiven = w.value, true
	case 'S', 'T': // nothing here turns or changes tools
	default:
		return o.readAxis(r, w)
	}
	return 0
}

func (o *Options) readAxis(r *order, w word) int {
	i := o.axisOf(w.letter)
	if i < 0 {
		return errorUnknown
	}
	r.axes[i], r.given[i], r.anyAxis = w.value, true, true
	return 0
}

// longestDwell is a day and more, s: a longer one is a slip.
const longestDwell = 1e5

// claim marks a group as used in this line.
func (r *order) claim(group uint8) int {
	if r.seen&group != 0 {
		return errorConflict
	}
	r.seen |= group
	return 0
}

// general obeys a G word. Its number is compared in tenths: G92.1 is 921.
func (r *order) general(value float64) int {
	switch tenths := math.Round(value * 10); {
	case math.Abs(tenths-value*10) > 1e-6:
		return errorUnknown
	case tenths == 0 || tenths == 10 || tenths == 800:
		r.motion, r.moves = int(tenths/10), tenths < 800
		if tenths == 800 {
			r.motion = -1
		}
		return r.claim(groupMotion)
	case tenths == 40:
		r.dwell = true
		return r.claim(groupOther)
	case tenths == 920 || tenths == 921:
		r.shift = int(tenths - 919)
		return r.claim(groupOther)
	case tenths == 900 || tenths == 910:
		r.relative = tenths == 910
		return r.claim(groupDistance)
	case tenths == 930 || tenths == 940:
		r.inverse = tenths == 930
		if !r.feedGiven {
			r.feed = 0 // what F meant before, it does not mean now
		}
		return r.claim(groupFeed)
	case tenths == 170 || tenths == 210 || tenths == 400 || tenths == 490 || tenths == 540 || tenths == 640:
		return 0 // XY plane, mm, no compensation, first offsets, blended path: as it is
	}
	return errorUnknown
}

func (r *order) program(value float64) int {
	switch value {
	case 2, 30:
		r.ends = true
	case 0, 1, 400:
		r.waits = true
	case 3, 4, 5, 7, 8, 9, 17, 18, 84:
		return 0 // spindle, coolant, motors on and off: nothing of the kind here
	default:
		return errorUnknown
	}
	return r.claim(groupProgram)
}

// complete checks that a line has what it needs.
func (r *order) complete() int {
	if r.dwell {
		if !r.pGiven {
			return errorMissing
		}
		if r.anyAxis {
			return errorConflict
		}
		return 0
	}
	if r.shift != 0 || !r.anyAxis {
		return 0
	}
	switch {
	case r.motion < 0:
		return errorConflict
	case r.motion == 1 && r.inverse && !r.feedGiven, r.motion == 1 && r.feed <= 0:
		return errorFeed
	}
	return 0
}

// Error numbers of the answers to a line.
const (
	errorLetter   = 1  // a word must begin with a letter
	errorNumber   = 2  // the number of a word is bad or missing
	errorNoHoming = 5  // homing is off
	errorNotIdle  = 8  // a jog while something else is going on
	errorLocked   = 9  // in alarm or in a jog, lines are refused
	errorTooLong  = 11 // more characters than a line holds
	errorTravel   = 15 // a jog would leave the travel
	errorNoJog    = 16 // a word that no jog has
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
	for line = counting(line); len(line) > 0; {
		letter := line[0]
		if letter < 'A' || letter > 'Z' {
			return words, errorLetter
		}
		n := 1
		for n < len(line) && strings.IndexByte("0123456789.-+", line[n]) >= 0 {
			n++
		}
		v, err := strconv.ParseFloat(string(line[1:n]), 64)
		if err != nil || n-1 > longestNumber || math.Abs(v) > greatestNumber {
			return words, errorNumber
		}
		words, line = append(words, word{letter, v}), line[n:]
	}
	return words, 0
}

// counting leaves of a line the characters that count, in capitals. A comment in
// brackets that does not end takes the line.
func counting(line []byte) []byte {
	out := line[:0]
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case c == ' ' || c == '\t':
		case c == ';' || c == '%':
			return out
		case c == '(':
			for i < len(line) && line[i] != ')' {
				i++
			}
		case 'a' <= c && c <= 'z':
			out = append(out, c-'a'+'A')
		default:
			out = append(out, c)
		}
	}
	return out
}
