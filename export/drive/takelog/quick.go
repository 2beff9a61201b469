package takelog

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"
	"unicode/utf8"
)

// decoder reads lines. It keeps the words that come again and again in a log, such
// as the name of the shot.
type decoder struct{ common map[string]string }

// maxCommon is how many words are kept: more than a log has that come again.
const maxCommon = 64

// decode reads one line.
func (d *decoder) decode(line []byte, r *Record) bool {
	if d.quick(line, r) {
		return true
	}
	*r = Record{}
	return json.Unmarshal(line, r) == nil
}

// quick reads a line that is just as Writer writes it, several times as fast as
// encoding/json does. Of anything else, such as a note with quotes in it, it says
// false and means nothing by it: that is for encoding/json to judge.
func (d *decoder) quick(line []byte, r *Record) bool {
	*r = Record{}
	c := cursor{line, d}
	return c.object(func(key []byte) bool { return c.field(key, r) }) && len(c.rest) == 0
}

// cursor is what is yet to be read of a line.
type cursor struct {
	rest []byte
	*decoder
}

func (c *cursor) field(key []byte, r *Record) bool {
	switch string(key) {
	case "record":
		return c.kind(&r.Kind)
	case "time":
		text, ok := c.text()
		return ok && r.Time.UnmarshalText(text) == nil
	case "take":
		n, ok := c.whole()
		r.Take = int(n)
		return ok
	case "rounds":
		return c.into(&r.Rounds)
	case "shot":
		return c.words(&r.Shot)
	case "plan":
		return c.words(&r.Plan)
	case "rig":
		return c.words(&r.Rig)
	case "outcome":
		return c.words(&r.Outcome)
	case "detail":
		return c.words(&r.Detail)
	case "note":
		return c.words(&r.Note)
	case "hand":
		return c.words(&r.Hand)
	case "held":
		return c.truth(&r.Held)
	case "virtual":
		return c.truth(&r.Virtual)
	case "position_known":
		return c.truth(&r.Known)
	case "keep":
		return c.truth(&r.Keep)
	case "worst":
		return r.Worst == nil && c.worst(&r.Worst)
	}
	if f := r.seconds(key); f != nil {
		return c.number(f)
	}
	return false
}

// seconds is the number of a record that has a key, or nil.
func (r *Record) seconds(key []byte) *float64 {
	switch string(key) {
	case "planned_s":
		return &r.Planned
	case "executed_s":
		return &r.Executed
	case "executed_uncertainty_s":
		return &r.Uncertainty
	case "foretold_s":
		return &r.Foretold
	case "late_s":
		return &r.Late
	}
	return nil
}

func (c *cursor) worst(out *[]Worst) bool {
	if !c.take('[') {
		return false
	}
	for {
		var w Worst
		if !c.object(func(key []byte) bool {
			switch string(key) {
			case "axis":
				return c.words(&w.Axis)
			case "unit":
				return c.words(&w.Unit)
			case "value":
				return c.number(&w.Value)
			}
			return false
		}) {
			return false
		}
		*out = append(*out, w)
		if !c.take(',') {
			return c.take(']')
		}
	}
}

// object reads an object of at least one key.
func (c *cursor) object(field func(key []byte) bool) bool {
	if !c.take('{') {
		return false
	}
	for {
		key, ok := c.text()
		if !ok || !c.take(':') || !field(key) {
			return false
		}
		if !c.take(',') {
			return c.take('}')
		}
	}
}

func (c *cursor) take(b byte) bool {
	if len(c.rest) == 0 || c.rest[0] != b {
		return false
	}
	c.rest = c.rest[1:]
	return true
}

// text reads a string that stands for itself.
func (c *cursor) text() ([]byte, bool) {
	if !c.take('"') {
		return nil, false
	}
	n := bytes.IndexByte(c.rest, '"')
	if n < 0 {
		return nil, false
	}
	text := c.rest[:n]
	c.rest = c.rest[n+1:]
	plain := true
	for _, b := range text {
		if b < ' ' || b == '\\' {
			return nil, false
		}
		plain = plain && b < utf8.RuneSelf
	}
	return text, plain || utf8.Valid(text)
}

func (c *cursor) words(s *string) bool {
	text, ok := c.text()
	if known, again := c.common[string(text)]; again {
		*s = known
		return ok
	}
	*s = string(text)
	if len(c.common) < maxCommon {
		c.common[*s] = *s
	}
	return ok
}

func (c *cursor) kind(k *Kind) bool { return c.words((*string)(k)) }

func (c *cursor) truth(to *bool) bool {
	var ok bool
	for _, v := range truths {
		if c.rest, ok = bytes.CutPrefix(c.rest, v.text); ok {
			*to = v.value
			return true
		}
	}
	return false
}

var truths = []struct {
	text  []byte
	value bool
}{{[]byte("true"), true}, {[]byte("false"), false}}

// digits reads what a number is made of, and declines what Go reads and JSON does
// not: a plus sign or nothing before it, a zero before another digit, a point
// without a digit beside it.
func (c *cursor) digits(more string) ([]byte, bool) {
	n := 0
	for n < len(c.rest) && (digit(c.rest[n]) || strings.IndexByte(more, c.rest[n]) >= 0) {
		n++
	}
	text := c.rest[:n]
	c.rest = c.rest[n:]
	whole := bytes.TrimPrefix(text, minus)
	point := bytes.IndexByte(whole, '.')
	sound := len(whole) > 0 && digit(whole[0]) && (len(whole) == 1 || whole[0] != '0' || whole[1] == '.') &&
		(point < 0 || point+1 < len(whole) && digit(whole[point+1]))
	return text, sound
}

var minus = []byte("-")

func digit(b byte) bool { return b >= '0' && b <= '9' }

func (c *cursor) whole() (int64, bool) {
	text, ok := c.digits("-")
	if !ok {
		return 0, false
	}
	n, err := strconv.ParseInt(string(text), 10, strconv.IntSize)
	return n, err == nil
}

func (c *cursor) into(to *int64) (ok bool) {
	*to, ok = c.whole()
	return ok
}

func (c *cursor) number(to *float64) bool {
	text, ok := c.digits("-+.eE")
	if !ok {
		return false
	}
	var err error
	*to, err = strconv.ParseFloat(string(text), 64)
	return err == nil
}
